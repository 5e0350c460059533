import type { Browser, CDPSession, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { Hand } from './hand.ts';
import { keptEvents } from './kept.ts';
import { goTo, openAt, PLACES } from './place.ts';
import { seedSameMake } from './seeded.ts';

/** Taps that nobody meant: water on the glass, a hand that trembles, a finger that thinks better of it. */

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

interface Point {
  readonly x: number;
  readonly y: number;
}
const middle = async (where: Locator): Promise<Point> => {
  const box = await where.first().boundingBox();
  if (box === null) throw new Error('nothing to touch');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};
const touch = (session: CDPSession, type: 'touchStart' | 'touchMove' | 'touchEnd', touchPoints: Point[]) =>
  session.send('Input.dispatchTouchEvent', { type, touchPoints });
/** Down, held, up, with real fingers' events. */
async function press(session: CDPSession, at: Point, heldMs = 30): Promise<void> {
  await touch(session, 'touchStart', [at]);
  await new Promise((resolve) => setTimeout(resolve, heldMs));
  await touch(session, 'touchEnd', []);
}
/** Twice as fast as the page can take it: far under 200 ms. */
const pressTwice = (session: CDPSession, at: Point): Promise<unknown> =>
  Promise.all([touch(session, 'touchStart', [at]), touch(session, 'touchEnd', []), touch(session, 'touchStart', [at]), touch(session, 'touchEnd', [])]); // prettier-ignore
/** How much the device keeps, once anything under way has been kept. */
const keptCount = async (page: Page): Promise<number> => {
  await page.waitForTimeout(300);
  return (await keptEvents(page)).length;
};
/** How many pH values: the flecks of the seeded make are a reading too. */
const readings = async (page: Page): Promise<number> =>
  (await keptEvents(page)).filter(({ kind, body }) => kind === 'reading' && body['quantity'] === 'pH').length;

describe.each(PLACES.filter(({ hasTouch }) => hasTouch))('slips of wet fingers, $name', (place) => {
  it('three touches at once, a double tap, a finger that slides off, a finger that rests: one event, no menu', async () => {
    const make = await seedSameMake({ url: server.url, stepId: 'draw-whey' });
    const opened = await openAt({ browser, place, at: make.at });
    const { page, context, complaints } = opened;
    await goTo({ opened, place, url: server.url + make.path });
    await page.locator('.vat-until').waitFor();
    await page.getByText('The forecast is being worked out').waitFor({ state: 'detached', timeout: 60_000 });
    await page.evaluate(() => {
      const menus: boolean[] = [];
      Object.assign(globalThis, { menus });
      addEventListener('contextmenu', (event) => menus.push(event.defaultPrevented));
    });
    const session = await context.newCDPSession(page);
    const hand = new Hand(page);
    const before = await keptCount(page);

    // Water: on the card, and on the pad, where a tile would save at once.
    const main = await middle(page.locator('.vat-main'));
    await touch(session, 'touchStart', [main, { x: 60, y: main.y }, { x: 60, y: 200 }]);
    await touch(session, 'touchEnd', []);
    const wipe = page.getByText('Wipe the glass.');
    await wipe.waitFor();
    await press(session, main);
    expect(await keptCount(page)).toBe(before);
    await page.clock.fastForward(5_100);
    await wipe.waitFor({ state: 'detached' });
    await hand.tap('Note a reading');
    await hand.tap('pH 6.4_');
    const tile = await middle(page.getByRole('button', { name: '6.42', exact: true }));
    await touch(session, 'touchStart', [tile, { x: tile.x, y: tile.y + 120 }, { x: tile.x, y: tile.y + 240 }]);
    await touch(session, 'touchEnd', []);
    await wipe.waitFor();
    await press(session, tile);
    expect(await keptCount(page)).toBe(before);
    await page.clock.fastForward(5_100);
    await wipe.waitFor({ state: 'detached' });

    // Begun on a tile, ended outside it: the finger thought better.
    await touch(session, 'touchStart', [tile]);
    for (let step = 1; step <= 6; step++) await touch(session, 'touchMove', [{ x: tile.x + step * 25, y: tile.y + 2 }]);
    await touch(session, 'touchEnd', []);
    // With a mouse, too.
    await page.mouse.move(tile.x, tile.y);
    await page.mouse.down();
    await page.mouse.move(tile.x, tile.y + 130, { steps: 4 });
    await page.mouse.up();
    expect(await keptCount(page)).toBe(before);

    // The same tile twice in 200 ms: noted once, and what lies under the finger then hears nothing.
    await pressTwice(session, tile);
    await page.locator('.noted').waitFor();
    expect(await readings(page)).toBe(1);
    expect(await page.locator('.vat-verb').count()).toBe(1);

    // So with the first of the two picks: a double tap picks a whole number, never the last digit unread.
    await page.clock.fastForward(11_000);
    await hand.tap('Note a reading');
    const coarse = await middle(page.getByRole('button', { name: 'pH 6.5_' }));
    await pressTwice(session, coarse);
    const last = page.getByRole('button', { name: '6.52', exact: true });
    await last.waitFor();
    expect(await readings(page)).toBe(1);

    // A finger that rests: it counts once it is lifted, like every tap; no menu opens over it.
    await press(session, await middle(last), 900);
    await page.waitForTimeout(300);
    expect(await page.evaluate(() => (globalThis as unknown as { menus: boolean[] }).menus.filter((prevented) => !prevented))).toEqual([]); // prettier-ignore
    expect(await readings(page)).toBeLessThanOrEqual(2);

    // Several pots, and the round through them: the same water.
    const noted = await keptCount(page);
    for (const [path, pressed] of [
      ['/pots', page.locator('.pots-actions button').first()],
      ['/pots/wall', page.locator('.wall-title')],
    ] as const) {
      await page.goto(server.url + path);
      await pressed.waitFor();
      const spot = await middle(pressed);
      await touch(session, 'touchStart', [spot, { x: 60, y: spot.y }, { x: 60, y: 200 }]);
      await touch(session, 'touchEnd', []);
      await wipe.waitFor();
      await press(session, spot);
      await page.waitForTimeout(200);
      expect(page.url()).toBe(server.url + path);
      expect(await pressed.count()).toBe(1);
      await page.clock.fastForward(5_100);
      await wipe.waitFor({ state: 'detached' });
    }
    await page.goto(`${server.url}/pots`);
    await hand.tap('Round with the thermometer');
    const warm = page.locator('.pad-tile').nth(1);
    await warm.waitFor();
    await touch(session, 'touchStart', [await middle(warm), { x: 60, y: 200 }, { x: 60, y: 300 }]);
    await touch(session, 'touchEnd', []);
    await wipe.waitFor();
    await press(session, await middle(warm));
    expect(await page.locator('.pad-steps').count()).toBe(1);
    expect(await keptCount(page)).toBe(noted);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
