import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SIZES, visit } from './chromium.ts';
import { button, goOn, later, planAndGetReady, tickAll, usual, walkTo } from './maker.ts';
import { browser, server } from './standing.ts';

/** Width in minutes of "9 times in 10 between 12:03 and 15:33" on the card. */
const widthMin = (text: string): number => {
  const [, from = '', to = ''] = /between (\d\d:\d\d) and (\d\d:\d\d)/.exec(text) ?? [];
  const minutes = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
  return minutes(to) - minutes(from);
};
const card = (page: Page) => page.locator('.vat-until').innerText();

/** Times each change of the card's expectation from the last tap before it, in real time. */
async function watchCard(page: Page): Promise<void> {
  await page.evaluate(() => {
    const took: { ms: number; text: string }[] = [];
    (globalThis as unknown as { took: typeof took }).took = took;
    const now = (): number => new Event('now').timeStamp;
    const said = (): string => document.querySelector('.vat-until')?.textContent ?? '';
    let tapped = Number.NaN;
    let last = said();
    document.addEventListener('click', () => (tapped = now()), { capture: true });
    new MutationObserver(() => {
      const text = said();
      if (text === '' || text === last) return;
      last = text;
      took.push({ ms: now() - tapped, text });
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
}
const changes = (page: Page): Promise<{ ms: number; text: string }[]> =>
  page.evaluate(() => (globalThis as unknown as { took: { ms: number; text: string }[] }).took);

/** Notes the pH nearest to what is expected, a hair lower than the middle of the pad. */
async function notePH(page: Page): Promise<string> {
  await button(page, 'Note a reading').click();
  await page.clock.fastForward(500);
  await page.getByRole('region', { name: /^pH$/ }).locator('.pad-tile').nth(2).click();
  await page.clock.fastForward(500);
  const fine = page.locator('.pad-tile').nth(4);
  const value = await fine.innerText();
  await fine.click();
  return value;
}

describe('two pH readings without a network', () => {
  it('narrow the band of readiness, each within a second', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await planAndGetReady(page, { url: server.url, pHMeter: true });
    await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    await tickAll(page);
    await goOn(page);
    await walkTo(page, 'Keep warm and turn', usual);
    await context.setOffline(true);
    await later(page, 5);
    await page.waitForTimeout(3000);
    const before = widthMin(await card(page));
    expect(before).toBeGreaterThan(0);

    const widths: number[] = [];
    const elapsedMs: number[] = [];
    for (let reading = 0; reading < 2; reading++) {
      await watchCard(page);
      await notePH(page);
      await expect.poll(async () => (await changes(page)).length, { timeout: 10_000 }).toBeGreaterThan(0);
      const [first] = await changes(page);
      elapsedMs.push(first?.ms ?? Number.NaN);
      // What stands there within the second is narrower already.
      expect(widthMin(first?.text ?? '')).toBeLessThan(widths.at(-1) ?? before);
      await page.waitForTimeout(3000);
      widths.push(widthMin(await card(page)));
      await page.clock.fastForward(500);
      await later(page, 8);
      await page.waitForTimeout(2000);
    }
    console.log(`readiness, minutes wide: ${[before, ...widths].join(', ')}; ms after each reading: ${elapsedMs.map((ms) => ms.toFixed(0)).join(', ')}`); // prettier-ignore
    expect(widths[1]).toBeLessThan(before);
    for (const ms of elapsedMs) expect(ms).toBeLessThan(1000);
    await context.close();
  }, 600_000);
});
