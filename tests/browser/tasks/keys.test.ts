import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { outOfOrder, tabThrough } from './focus.ts';
import { keptEvents } from './kept.ts';
import { goTo, openAt, PLACES, type Opened, type Place } from './place.ts';
import { seedSameMake } from './seeded.ts';

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

async function atVat(place: Place, stepId: string): Promise<Opened> {
  const make = await seedSameMake({ url: server.url, stepId });
  const opened = await openAt({ browser, place, at: make.at });
  await goTo({ opened, place, url: server.url + make.path });
  await opened.page.locator('.vat-until').waitFor();
  await opened.page.getByText('The forecast is being worked out').waitFor({ state: 'detached', timeout: 60_000 });
  return opened;
}

/** One key, and the half second after which the same one counts again. */
async function key(page: Page, name: string): Promise<void> {
  await page.keyboard.press(name);
  await page.clock.fastForward(500);
}

/** Steps of the whole make whose names are cut off, run off the screen, or lie on the next one. */
const namesCutOff = (page: Page): Promise<string[]> =>
  page.locator('.whole .timeline-names > li').evaluateAll((rows) =>
    rows.flatMap((row, index) => {
      const name = row.querySelector<HTMLElement>('.timeline-name');
      if (name === null) return [];
      const isWhole = name.scrollWidth <= name.clientWidth + 1 && name.getBoundingClientRect().right <= innerWidth;
      const nextTop = rows[index + 1]?.getBoundingClientRect().top ?? Infinity;
      return isWhole && row.getBoundingClientRect().bottom <= nextTop + 2 ? [] : [name.innerText];
    }),
  );

/** The key that a button names, as somebody reads it from the order of the tiles. */
async function keyOf(page: Page, name: string | RegExp): Promise<string> {
  const tile = page.getByRole('button', { name }).first();
  await tile.waitFor();
  return (await tile.getAttribute('aria-keyshortcuts')) ?? '';
}

/** Everything that Tab reaches is ringed, in sight, and in the order of reading. */
async function expectTabs(page: Page, least: number): Promise<void> {
  const stops = await tabThrough(page);
  expect(stops.length).toBeGreaterThanOrEqual(least);
  expect(stops.filter(({ isUncovered }) => !isUncovered).map(({ name }) => name), 'covered or out of sight').toEqual([]); // prettier-ignore
  // A side may lie against the edge of the screen or of its scrolling part.
  expect(
    stops.filter(({ sides }) => sides < 3).map(({ name, sides }) => `${name}: ${sides}`),
    'ring',
  ).toEqual([]);
  expect(outOfOrder(stops)).toEqual([]);
}

describe.each(PLACES)('no hands free, $name', (place) => {
  it('task 9: a pH by keys alone, and the ring of the focus never lost', async () => {
    const { page, context, complaints } = await atVat(place, 'draw-whey');
    await expectTabs(page, 5);
    await page.evaluate(() => document.activeElement instanceof HTMLElement && document.activeElement.blur());
    await key(page, 'r');
    await expectTabs(page, 20);
    await key(page, await keyOf(page, 'pH 6.4_'));
    await key(page, '2');
    await expect.poll(() => page.locator('.noted').innerText()).toMatch(/pH 6\.42 at \d\d:\d\d/);
    const readings = (await keptEvents(page)).filter(
      ({ kind, body }) => kind === 'reading' && body['quantity'] === 'pH',
    );
    expect(readings.map(({ body }) => body['value'])).toEqual([6.42]);
    // The page with a bar that stays: what is reached never ends behind it.
    await key(page, 'w');
    await page.locator('.whole .timeline-name').first().waitFor();
    expect(await namesCutOff(page)).toEqual([]);
    await page.getByRole('button', { name: /what if/i }).first().click(); // prettier-ignore
    await page.locator('.whatif-acts').waitFor();
    await expectTabs(page, 8);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('task 9: is it set, by a pedal and digits alone', async () => {
    const { page, context, complaints } = await atVat(place, 'set');
    await key(page, 'PageDown'); // flecks
    await page.getByText(/Cut about \d\d:\d\d by the fleck time/).waitFor();
    // Before the cut is long overdue: an alarm that comes while Tab goes round would push everything down.
    await page.clock.fastForward(12 * 60_000);
    await key(page, 't');
    await page.locator('.judge-tile').first().waitFor();
    await expectTabs(page, 5);
    await key(page, await keyOf(page, /^Not yet/));
    await expect.poll(() => page.locator('.vat-numbers').innerText()).toMatch(/Look again in/);
    await page.clock.fastForward(6 * 60_000);
    await key(page, 't');
    await key(page, await keyOf(page, /^Clean break/));
    await page.getByText(/Clean break.* noted at/).waitFor();
    await key(page, 'Enter');
    await expect.poll(() => page.locator('h1').first().innerText()).toBe('Cut the curd');
    expect((await keptEvents(page)).filter(({ kind }) => kind === 'judged').map(({ body }) => body['grade'])).toHaveLength(2); // prettier-ignore
    expect(complaints).toEqual([]);
    await context.close();
  });
});
