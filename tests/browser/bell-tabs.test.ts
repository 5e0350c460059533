import { describe, expect, it } from 'vitest';
import { act, heard, now, readTooHot, ripening, watch } from './bell-ear.ts';
import { SIZES } from './chromium.ts';
import { goOn, verb } from './maker.ts';
import { openAt, type Place } from './tasks/place.ts';
import { seedMake } from './tasks/seeded.ts';
import { browser, server } from './standing.ts';

describe('the bell of a device with two tabs', () => {
  it('rings in one tab of a device only, the one last in sight, and goes on in the other when that is closed', async () => {
    const { context, page } = await ripening({ browser, url: server.url });
    const other = await context.newPage();
    await other.clock.install({ time: await now(page) });
    await other.goto(page.url());
    await expect.poll(() => verb(other), { timeout: 15_000 }).toBe('Let it ripen');
    await other.mouse.click(5, 5); // the new tab is in front, and may sound
    await readTooHot(other);
    await act(other).waitFor();
    await act(page).waitFor();
    const [inBack, inFront] = [(await heard(page)).length, (await heard(other)).length];
    await Promise.all([watch(page, 20), watch(other, 20)]);
    expect((await heard(other)).length).toBeGreaterThan(inFront);
    expect((await heard(page)).length).toBe(inBack);
    await other.close();
    await page.mouse.click(5, 5);
    await watch(page, 20);
    expect((await heard(page)).length).toBeGreaterThan(inBack);

    // The step goes on and nobody has answered: the record says so, once.
    await page.clock.fastForward(500);
    await goOn(page);
    await act(page).waitFor({ state: 'detached' });
    await page.keyboard.press('w');
    await page.getByRole('link', { name: 'Open the record' }).click();
    const line = page.getByText(/Bell at \d\d:\d\d, Too hot: 52.0.°C: nobody answered/);
    await line.first().waitFor();
    expect(await line.count()).toBe(1);
    await context.close();
  }, 240_000);
});

describe('a call on a phone', () => {
  it('leaves what to do, the numbers, until when, the course and what comes next above the actions', async () => {
    const make = await seedMake({ url: server.url, stepId: 'heal', minutes: 8, name: 'Cedar' });
    for (const light of [undefined, 'dark'] as const) {
      const place: Place = {
        name: 'phone',
        size: SIZES.phone,
        hasTouch: true,
        ...(light === undefined ? {} : { light }),
      };
      const { context, page } = await openAt({ browser, place, at: make.at });
      await page.goto(server.url + make.path);
      await page.locator('.bell-due').waitFor();
      await page.locator('.vat-until').waitFor();
      const limit = await page.evaluate(() => document.querySelector('.vat-actions')?.getBoundingClientRect().top ?? 0);
      for (const part of ['.vat-verb', '.bell-due', '.vat-numbers', '.vat-until', '.vat-course', '.vat-next']) {
        const box = await page.locator(part).first().boundingBox();
        expect((box?.y ?? Number.NaN) + (box?.height ?? Number.NaN), `${part} ${light ?? 'steam'}`).toBeLessThanOrEqual(limit); // prettier-ignore
      }
      await context.close();
    }
  }, 120_000);
});
