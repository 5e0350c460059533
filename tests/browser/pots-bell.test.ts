import { describe, expect, it } from 'vitest';
import { spyOnSound, tonesHeard } from './sound.ts';
import { AT_THE_VAT, Hand, isInOrder } from './tasks/hand.ts';
import { keptEvents } from './tasks/kept.ts';
import { DEVICES, goTo, openAt } from './tasks/place.ts';
import { seedMake } from './tasks/seeded.ts';
import { browser, server } from './standing.ts';

/** A folder for a picture to look at. */
const SHOTS = process.env['VATSIDE_SHOTS'];
const KNOCK_HZ = 700;
const [phone] = DEVICES;

describe('a class of two pots beside one tablet', () => {
  it('hears two pots within a minute one after the other, each under its name, and answers each in its own record', async () => {
    const { url } = server;
    const ash = await seedMake({ url, name: 'Ash', stepId: 'ripen', minutes: 43.5, pHMeter: false });
    await seedMake({ url, name: 'Birch', stepId: 'ripen', startsMin: 0.05, minutes: 43.4, pHMeter: false });
    const opened = await openAt({ browser, place: phone!, at: ash.at, before: spyOnSound });
    const { page, context, complaints } = opened;
    const hand = new Hand(page);
    await goTo({ opened, place: phone!, url: `${url}/pots` });
    await page.locator('.pots-next li').first().waitFor();
    await page.getByText('The forecasts are being worked out').waitFor({ state: 'detached' });
    // Any tap lets the browser sound; this one changes nothing.
    await page.locator('.pots-title').click();
    const called = page.locator('.pot-bell', { hasText: /45.min are over/ });
    for (let second = 0; second < 150 && (await called.count()) < 2; second++) {
      await page.clock.runFor(1000);
      await page.waitForTimeout(20);
    }
    expect(await page.locator('.pot-bell h2').allInnerTexts()).toEqual(['Ash', 'Birch']);
    // Time enough for both to be said.
    await page.clock.runFor(8000);
    const knocks = (await tonesHeard(page)).filter(({ hz }) => Math.round(hz) === KNOCK_HZ).map(({ at }) => at);
    const starts = knocks.filter((at, index) => index === 0 || at - (knocks[index - 1] ?? 0) > 1000);
    expect(knocks.length).toBe(starts.length * 2);
    expect(starts.length).toBeGreaterThanOrEqual(2);
    const gap = (starts.at(-1) ?? 0) - (starts.at(-2) ?? 0);
    expect(gap).toBeGreaterThanOrEqual(5900);
    expect(gap).toBeLessThan(60_000);
    await isInOrder(page, AT_THE_VAT);
    if (SHOTS !== undefined) await page.screenshot({ path: `${SHOTS}/pots-bell.png` });

    const birch = page.getByRole('region', { name: 'Birch' });
    await birch.getByRole('button', { name: 'Heard' }).click();
    await page.clock.fastForward(500);
    await page.getByText(/^Birch: .*Heard.* noted/).waitFor();
    const answers = (await keptEvents(page)).filter(({ kind }) => kind === 'alarmAnswered');
    expect(answers.map(({ streamId }) => streamId)).toEqual(['batch:birch']);
    await expect.poll(() => called.locator('h2').allInnerTexts(), { timeout: 10_000 }).toEqual(['Ash']);

    // Over a page only what cannot wait: a due call does not push the pad away.
    await hand.tap('Note something for Birch');
    await page.getByRole('heading', { name: /Birch/ }).first().waitFor();
    expect(await page.locator('.pot-bell').count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
