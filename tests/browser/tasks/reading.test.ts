import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { AT_THE_VAT, Hand, isInOrder, says } from './hand.ts';
import { goTo, openAt, PLACES, type Opened, type Place } from './place.ts';
import { seedMake } from './seeded.ts';

let browser: Browser;
let server: TestServer;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => browser?.close());
// A store of its own for each task: pots beside it would be learned from.
beforeEach(async () => {
  server = await startTestServer();
});
afterEach(async () => server?.close());

/** Ash at a step, on the screen, with its forecast there. */
async function atVat(place: Place, stepId: string): Promise<Opened> {
  const make = await seedMake({ url: server.url, stepId });
  const opened = await openAt({ browser, place, at: make.at });
  await goTo({ opened, place, url: server.url + make.path });
  await opened.page.locator('.vat-until').waitFor();
  await opened.page.getByText('The forecast is being worked out').waitFor({ state: 'detached' });
  return opened;
}

const bottom = async (page: Page, selector: string): Promise<number> => {
  const box = await page.locator(selector).first().boundingBox();
  return box === null ? Infinity : box.y + box.height;
};

describe.each(PLACES)('at the vat, $name', (place) => {
  it('task 3: what now, what next, when: all on the first screen, large enough, with one rim', async () => {
    const { page, context } = await atVat(place, 'heal');
    const isRoomy = place.size.height >= 800 && place.textPercent === undefined;
    const top = (await page.locator('.vat-actions').boundingBox())?.y ?? 0;
    for (const part of ['.vat-verb', '.vat-numbers', '.vat-until', '.vat-course', '.vat-next'])
      if (isRoomy) expect(await bottom(page, part), part).toBeLessThanOrEqual(top);
    expect(await page.locator('.vat-numbers').innerText()).toMatch(/[\d.]+\s*°C[\s\S]*min/);
    expect(await page.locator('.vat-until').innerText()).toMatch(/Expect \d\d:\d\d/);
    expect(await page.locator('.vat-next').innerText()).toMatch(/Then \d\d:\d\d Stir, slowly/);
    expect(await page.locator('.card-rim').count()).toBe(1);
    // Sizes by the distance they are read from: in the hand on a phone, a step back from a tablet.
    const [verbPx = 0, numberPx = 0] = await page.evaluate(() =>
      ['.vat-verb', '.vat-numbers .numerals'].map((one) => parseFloat(getComputedStyle(document.querySelector(one) ?? document.body).fontSize))); // prettier-ignore
    expect(verbPx).toBeGreaterThanOrEqual(place.size.width < 640 ? 37 : 48);
    expect(numberPx).toBeGreaterThanOrEqual(place.size.width < 360 ? 37 : place.size.width < 640 ? 44 : 54);
    await isInOrder(page, AT_THE_VAT);
    await context.close();
  });

  it('tasks 4 and 5: pH 6.42 in three taps, nothing preselected; then it was 6.24, set right in four, both in sight', async () => {
    const { page, context, complaints } = await atVat(place, 'draw-whey');
    const hand = new Hand(page);
    await hand.tap('Note a reading');
    expect(await page.locator('.pad-tile[aria-pressed=true], .pad-tile[aria-current]').count()).toBe(0);
    expect(await page.getByText('Expected').count()).toBe(0);
    const sides = await page.locator('.pad-tile').evaluateAll((tiles) => tiles.map((tile) => tile.getBoundingClientRect()).map(({ width, height }) => Math.min(width, height))); // prettier-ignore
    if (place.size.width >= 390) expect(Math.min(...sides)).toBeGreaterThanOrEqual(100);
    await isInOrder(page, AT_THE_VAT);
    await hand.tap('pH 6.4_');
    await hand.tap('6.42');
    hand.atMost(3);
    const noted = page.locator('.noted');
    await expect.poll(() => noted.innerText()).toMatch(/pH 6\.42 at \d\d:\d\d[\s\S]*Expected 6\.\d\d to 6\.\d\d/);
    expect(await page.getByRole('button', { name: 'Undo' }).count()).toBe(1);

    hand.countFromHere();
    await hand.tap('Set right');
    if ((await page.getByRole('button', { name: 'pH 6.2_' }).count()) === 0) await hand.tap('pH, lower');
    await hand.tap('pH 6.2_');
    await hand.tap('6.24');
    hand.atMost(4);
    await expect.poll(() => noted.innerText()).toContain('6.24');

    await page.keyboard.press('w');
    await hand.follow('Open the record');
    const line = page.locator('.record').getByText('6.24').first();
    await line.waitFor();
    expect(await page.locator('.record s, .record del').allInnerTexts()).toEqual([expect.stringContaining('6.42')]);
    await isInOrder(page);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.record s, .record del').first().isVisible()).toBe(true);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('task 7: is it set: drawings to choose from; not yet sets the next look, a clean break offers the cut', async () => {
    const { page, context } = await atVat(place, 'set');
    const hand = new Hand(page);
    // The flecks come first; only then is there something to break.
    await hand.tap('Flecks');
    await page.clock.fastForward(20 * 60_000);
    await hand.tap('Test it');
    const tiles = page.locator('.judge-tile');
    expect(await tiles.count()).toBeGreaterThanOrEqual(4);
    for (const drawing of await tiles.locator('svg[role=img]').all())
      expect(await drawing.evaluate((one) => one.getAttribute('aria-label') ?? one.querySelector('title')?.textContent ?? '')).not.toBe(''); // prettier-ignore
    expect(await page.getByRole('button', { name: /^Not sure/ }).count()).toBe(1);
    await isInOrder(page, AT_THE_VAT);
    await hand.tap(/^Not yet/);
    await says(page, /Look again in/);
    await page.clock.fastForward(6 * 60_000);
    hand.countFromHere();
    await hand.tap('Test it');
    await hand.tap(/^Clean break/);
    hand.atMost(2);
    await says(page, /Clean break.* noted at/);
    await hand.tap('It breaks clean');
    await expect.poll(() => page.locator('h1').first().innerText()).toBe('Cut the curd');
    await context.close();
  });
});
