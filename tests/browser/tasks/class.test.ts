import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { MINUTE, NINE } from '../../walked-make.ts';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { AT_THE_VAT, Hand, isInOrder } from './hand.ts';
import { keptEvents } from './kept.ts';
import { goTo, openAt, PLACES } from './place.ts';
import { seedMake } from './seeded.ts';

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
    expect((await calls.allInnerTexts()).some((call) => /^(Now: )?Cedar: warm the milk/.test(call))).toBe(true);

    await hand.tap('2 burners');
    const clash = page.locator('.pots-clash-list > li[data-kind=burners]').first();
    await expect.poll(() => clash.innerText(), { timeout: 30_000 }).toMatch(/^\d*\s*Burners, 09:\d\d to 09:\d\d: .*Ash.*Birch.*Cedar/s); // prettier-ignore
    await isInOrder(page, AT_THE_VAT);
    await clash.getByRole('button', { name: /^Start Cedar \d+\smin later$/ }).click();
    await page.clock.fastForward(500);
    await page.getByText(/Cedar starts \d+\smin later, at \d\d:\d\d/).waitFor();
    expect((await keptEvents(page)).at(-1)?.kind).toBe('corrected');

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
});
