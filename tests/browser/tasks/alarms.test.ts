import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { AT_THE_VAT, Hand, isInOrder } from './hand.ts';
import { goTo, openAt, PLACES } from './place.ts';
import { seedSameMake } from './seeded.ts';
import { spyOnSound, tonesHeard } from '../sound.ts';

/** Two calls in one minute: one voice at a time. */

let browser: Browser;
let server: TestServer;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => browser?.close());
beforeEach(async () => {
  server = await startTestServer();
});
afterEach(async () => server?.close());

const KNOCK_HZ = 700;
describe.each(PLACES)('one pot, $name', (place) => {
  it('task 10: two alarms in one minute sound one after the other, and stand oldest first', async () => {
    const make = await seedSameMake({ url: server.url, stepId: 'ripen', minutes: 43.5, pHMeter: false });
    const opened = await openAt({ browser, place, at: make.at, before: spyOnSound });
    const { page, context, complaints } = opened;
    const hand = new Hand(page);
    await goTo({ opened, place, url: server.url + make.path });
    await page.locator('.vat-until').waitFor();
    await page.getByText('The forecast is being worked out').waitFor({ state: 'detached', timeout: 60_000 });
    await hand.tap('Set a timer');
    await hand.tap(/^2.min$/);
    const dues = page.locator('.bell-due');
    for (let second = 0; second < 150 && (await dues.filter({ hasText: 'Timer: 2' }).count()) === 0; second += 3) {
      await page.clock.runFor(3000);
      await page.waitForTimeout(20);
    }
    const seen = (await dues.allInnerTexts()).map((text) => (/Timer: 2/.test(text) ? 'timer' : /45.min are over/.test(text) ? 'ripe' : 'other')); // prettier-ignore
    expect(seen.filter((one) => one !== 'other')).toEqual(['ripe', 'timer']);
    await page.clock.runFor(2000);
    const knocks = (await tonesHeard(page)).filter(({ hz }) => Math.round(hz) === KNOCK_HZ).map(({ at }) => at);
    // Two knocks a call; the second call waits until the first has long been heard.
    const starts = knocks.filter((at, index) => index === 0 || at - (knocks[index - 1] ?? 0) > 1000);
    expect(knocks.length).toBe(starts.length * 2);
    expect(starts.length).toBeGreaterThanOrEqual(2);
    expect((starts.at(-1) ?? 0) - (starts.at(-2) ?? 0)).toBeLessThan(60_000);
    // On a phone the later call is one line with its own button: the numbers of the step stay above the actions.
    if (place.size.width < 640) expect(await dues.last().getByRole('button').count()).toBe(1);
    if (place.size.width < 640 && place.size.height >= 800 && place.textPercent === undefined) {
      await page.locator('.vat-scroll').evaluate((one) => one.scrollTo(0, 0));
      const bottomOf = async (selector: string): Promise<number> => page.locator(selector).evaluate((one) => one.getBoundingClientRect().bottom); // prettier-ignore
      const top = await page.locator('.vat-actions').evaluate((one) => one.getBoundingClientRect().top);
      expect(await bottomOf('.vat-numbers')).toBeLessThanOrEqual(top);
    }
    await isInOrder(page, AT_THE_VAT);
    if (process.env['VATSIDE_SHOTS'] !== undefined) await page.screenshot({ path: `${process.env['VATSIDE_SHOTS']}/alarms-${place.name}.png` }); // prettier-ignore
    expect(complaints).toEqual([]);
    await context.close();
  });
});
