import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { MINUTE, NINE } from '../../walked-make.ts';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { AT_THE_VAT, Hand, isInOrder } from './hand.ts';
import { keptEvents } from './kept.ts';
import { openAt, PLACES } from './place.ts';
import { seedMake } from './seeded.ts';

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

const DIED_AT = NINE + 110 * MINUTE; // 10:50
const ASLEEP_MIN = 41;
const BACK_MS = 3000;

/** Counts how often a page asks for the screen to stay lit. */
const countWakeLocks = (context: BrowserContext): Promise<unknown> =>
  context.addInitScript(() => {
    Object.assign(globalThis, { asked: 0 });
    const ask = navigator.wakeLock.request.bind(navigator.wakeLock);
    navigator.wakeLock.request = (kind) => {
      (globalThis as unknown as { asked: number }).asked += 1;
      return ask(kind);
    };
  });
const asked = (page: Page): Promise<number> => page.evaluate(() => (globalThis as unknown as { asked: number }).asked);

const nextAt = async (page: Page): Promise<string> =>
  /Then (\d\d:\d\d)/.exec(await page.locator('.vat-next').innerText())?.[1] ?? '';

describe.each(PLACES)('a phone that died, $name', (place) => {
  it('task 6: died at 10:50, woke at 11:31 without a network: at the vat at once, late calls with their age, nothing lost', async () => {
    // Flecks at ten minutes: the cut falls due after 10:50, and is long over at 11:31.
    const make = await seedMake({
      url: server.url,
      stepId: 'set',
      minutes: 10,
      besides: (walk) => void walk.press(0),
    });
    const { context, page } = await openAt({
      browser,
      place,
      at: DIED_AT,
      before: async (fresh) => void (await countWakeLocks(fresh)),
    });
    const address = server.url + make.path;
    await page.goto(address);
    await page.locator('.vat-until').waitFor();
    await page.getByText('The forecast is being worked out').waitFor({ state: 'detached' });
    await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null || caches.keys().then((keys) => keys.length > 0))).toBe(true); // prettier-ignore
    const before = await nextAt(page);
    expect(before).toMatch(/^1[01]:\d\d$/);
    expect(await asked(page)).toBeGreaterThan(0);
    expect(await page.locator('.bell-late').count()).toBe(0);

    // The network goes; a last reading is noted; the phone dies.
    await context.setOffline(true);
    const hand = new Hand(page);
    await hand.tap('Note a reading');
    await hand.tap(/^Temperature, °C 3[67]\._$/);
    await hand.tap(/^3[67]\.4$/);
    await page.locator('.noted').waitFor();
    const had = await keptEvents(page);
    await page.close();

    const woken = await context.newPage();
    const complaints: string[] = [];
    woken.on('pageerror', (error) => complaints.push(error.message));
    await woken.clock.install({ time: DIED_AT + ASLEEP_MIN * MINUTE });
    const openedAt = Date.now();
    await woken.goto(address);
    await woken.locator('.vat-verb').waitFor();
    const tookMs = Date.now() - openedAt;
    console.log(`task 6, ${place.name}: at the vat ${tookMs} ms after waking`);
    expect(tookMs).toBeLessThanOrEqual(BACK_MS);
    expect(await woken.locator('h1').first().innerText()).toBe('Leave it to set');
    const late = woken.locator('.bell-late');
    await late.first().waitFor({ timeout: 2000 });
    for (const text of await late.allInnerTexts()) expect(text).toMatch(/^Was due (10:5\d|11:[0-3]\d), \d+\smin ago/);
    const ages = (await late.allInnerTexts()).map((text) => Number(/(\d+)\smin ago/.exec(text)?.[1] ?? 'NaN'));
    expect(Math.max(...ages)).toBeGreaterThanOrEqual(20);
    await expect.poll(() => asked(woken)).toBeGreaterThan(0);

    // Re-timed: what comes next is no longer a time that has passed.
    await expect.poll(() => nextAt(woken), { timeout: 30_000 }).not.toBe(before);
    expect((await nextAt(woken)) >= '11:31').toBe(true);
    const has = await keptEvents(woken);
    expect(has.slice(0, had.length)).toEqual(had);
    expect(has.filter(({ kind, body }) => kind === 'reading' && body['quantity'] === 'temperatureC')).toHaveLength(1);
    await isInOrder(woken, AT_THE_VAT);

    // The network comes back: the server has all of it, too.
    await context.setOffline(false);
    await expect
      .poll(
        async () => {
          await woken.clock.fastForward(30_000);
          const { streams } = (await (await fetch(`${server.url}/api/streams`)).json()) as { streams: { last: number }[] }; // prettier-ignore
          return streams[0]?.last ?? 0;
        },
        { timeout: 30_000 },
      )
      .toBeGreaterThanOrEqual(had.length);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
