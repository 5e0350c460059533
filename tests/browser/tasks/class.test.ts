import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { MINUTE, NINE } from '../../walked-make.ts';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { AT_THE_VAT, Hand, isInOrder } from './hand.ts';
import { keptEvents } from './kept.ts';
import { goTo, openAt, PLACES } from './place.ts';
import { seedMake } from './seeded.ts';
import { spyOnSound, tonesHeard } from '../sound.ts';

/** A class of three pots on two burners, put on the server as three tablets would have. */

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
const onClock = async (page: Page): Promise<void> => {
  await page.locator('.pots-next li').first().waitFor();
  await page.getByText('The forecasts are being worked out').waitFor({ state: 'detached' });
};

describe.each(PLACES)('a class of three pots, $name', (place) => {
  it('task 10: who is next, where the burners run out, and pot 3 read in four taps', async () => {
    const { url } = server;
    await seedMake({ url, name: 'Ash', stepId: 'warm', minutes: 6 });
    await seedMake({ url, name: 'Birch', stepId: 'warm', startsMin: 3, minutes: 3 });
    await seedMake({ url, name: 'Cedar', stepId: null, minutes: 0 });
    const opened = await openAt({ browser, place, at: NINE + 7 * MINUTE });
    const { page, context, complaints } = opened;
    const hand = new Hand(page);
    await goTo({ opened, place, url: `${url}/pots` });
    await onClock(page);
    const calls = page.locator('.pots-queue .pots-call');
    await expect.poll(() => calls.count()).toBeGreaterThanOrEqual(3);
    for (const call of await page.locator('.pots-next .pots-call').allInnerTexts())
      expect(call).toMatch(/^(Ash|Birch|Cedar): \p{Ll}[\p{L} ,’-]+, \d\d:\d\d$/u);
    expect(await calls.first().innerText()).toMatch(/^Cedar: warm the milk/);

    await hand.tap('2 burners');
    const clash = page.locator('.pots-clash-list > li[data-kind=burners]').first();
    await expect.poll(() => clash.innerText(), { timeout: 30_000 }).toMatch(/^\d*\s*Burners, 09:\d\d to 09:\d\d: .*Ash.*Birch.*Cedar/s); // prettier-ignore
    await isInOrder(page, AT_THE_VAT);
    await clash.getByRole('button', { name: /^Start Cedar \d+\smin later$/ }).click();
    await page.clock.fastForward(500);
    await page.getByText(/Cedar starts \d+\smin later, at \d\d:\d\d/).waitFor();
    expect((await keptEvents(page)).at(-1)?.kind).toBe('settingChanged');

    hand.countFromHere();
    await hand.tap('Note something for Cedar');
    await hand.tap(/^Temperature, °C 3\d\._$|^Temperature, °C \d+\._$/);
    await hand.tap(/^\d+\.4$/);
    hand.atMost(4);
    await page.getByText(/^Cedar: Temperature [\d.]+\s*°C/).waitFor();
    await isInOrder(page, AT_THE_VAT);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('task 10: two alarms in one minute sound one after the other, and stand oldest first', async () => {
    const make = await seedMake({ url: server.url, stepId: 'ripen', minutes: 43.5, pHMeter: false });
    const opened = await openAt({ browser, place, at: make.at, before: spyOnSound });
    const { page, context, complaints } = opened;
    const hand = new Hand(page);
    await goTo({ opened, place, url: server.url + make.path });
    await page.locator('.vat-until').waitFor();
    await page.getByText('The forecast is being worked out').waitFor({ state: 'detached' });
    await hand.tap('Set a timer');
    await hand.tap(/^2.min$/);
    const dues = page.locator('.bell-due');
    for (let second = 0; second < 130 && (await dues.filter({ hasText: 'Timer: 2' }).count()) === 0; second++)
      await page.clock.runFor(1000);
    const seen = (await dues.allInnerTexts()).map((text) => (/Timer: 2/.test(text) ? 'timer' : /45.min are over/.test(text) ? 'ripe' : 'other')); // prettier-ignore
    expect(seen.filter((one) => one !== 'other')).toEqual(['ripe', 'timer']);
    await page.clock.runFor(2000);
    const knocks = (await tonesHeard(page)).filter(({ hz }) => Math.round(hz) === KNOCK_HZ).map(({ at }) => at);
    // Two knocks a call; the second call waits until the first has long been heard.
    const starts = knocks.filter((at, index) => index === 0 || at - (knocks[index - 1] ?? 0) > 1000);
    expect(knocks.length).toBe(starts.length * 2);
    expect(starts.length).toBeGreaterThanOrEqual(2);
    expect((starts.at(-1) ?? 0) - (starts.at(-2) ?? 0)).toBeLessThan(60_000);
    await isInOrder(page, AT_THE_VAT);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
