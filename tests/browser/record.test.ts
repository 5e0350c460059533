import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { DEVICES_MOST_UNLIKE, SIZES, visit } from './chromium.ts';
import { browser, server } from './standing.ts';

/** Opens the finished record of the worked example and waits for its forecasts. */
async function openExample(page: Page): Promise<void> {
  await page.goto(server.url);
  await page.getByRole('button', { name: 'Open the Larkenshaw example' }).click();
  await page.locator('a[href*="/record/"]').first().click();
  await page.getByRole('heading', { name: 'What happened' }).waitFor();
  await page
    .getByRole('img', { name: /reading/ })
    .first()
    .waitFor({ timeout: 60_000 });
}

const WILD = /NaN|undefined|Infinity|\bvat:|\brecord:|returned an object/;

describe('a finished record', () => {
  it('tells what happened, what was foreseen and what came of it, at every size', async () => {
    for (const size of DEVICES_MOST_UNLIKE.map((device) => SIZES[device])) {
      const { context, page, complaints } = await visit({ browser, size });
      await openExample(page);
      await page.getByText('Each reading against what was expected just before it').waitFor({ timeout: 60_000 });
      const text = await page.locator('.record').innerText();
      expect(text).toMatch(/Cheese\s+[\d.]+\s*k?g\s+weighed/);
      expect(text).toMatch(/Yield\s+\d+\s*g from 1/);
      expect(text).toMatch(/Moisture\s+\d+\s*%\s+worked out, 9 times in 10 \d+\s*% to \d+\s*%/);
      expect(text).toContain('Added: rennet');
      expect(text).not.toMatch(WILD);
      // The table behind the plot has the plotted points.
      await page.getByText('Show as numbers').first().click();
      expect(await page.locator('details.numbers[open] tbody tr').count()).toBeGreaterThan(8);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
      expect(await violations(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await context.close();
    }
  }, 240_000);

  it('sets a value right in the open: the first one stays, struck through, with the reason, on screen and on paper', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk });
    await openExample(page);
    expect(await page.getByRole('button', { name: /^Set right: / }).count()).toBe(0);
    await page.getByRole('button', { name: 'Set something right' }).click();
    await page
      .getByRole('button', { name: /^Set right: Temperature/ })
      .first()
      .click();
    const was = await page.getByLabel('Value').inputValue();
    await page.getByLabel('Value').fill('999');
    await page.getByRole('button', { name: 'Keep this' }).click();
    await page.getByText('Nothing was changed').waitFor();
    expect(await page.getByLabel('Value').inputValue()).toBe('999');
    await page.getByLabel('Value').fill('36.4');
    await page.getByLabel('Why it is set right').fill('read from the wrong line');
    await page.getByRole('button', { name: 'Keep this' }).click();
    const line = page.locator('.record-line').filter({ hasText: 'read from the wrong line' });
    await line.waitFor();
    expect(await line.locator('s').innerText()).toContain(was);
    expect(await line.innerText()).toContain('36.4');
    await page.emulateMedia({ media: 'print' });
    expect(await line.locator('s').isVisible()).toBe(true);
    expect(await page.getByRole('button', { name: 'Print the record' }).isVisible()).toBe(false);
    const colours = await page.evaluate(() => [...document.querySelectorAll('.record *')].filter((one) => (one.textContent ?? '').trim() !== '' && one.children.length === 0 && one.getClientRects().length > 0).map((one) => getComputedStyle(one).color)); // prettier-ignore
    expect([...new Set(colours)]).toEqual(['rgb(0, 0, 0)']);
    for (const format of ['A4', 'Letter'] as const)
      expect((await page.pdf({ format })).byteLength).toBeGreaterThan(20_000);
    await context.close();
  }, 120_000);

  it('keeps a note and how it tasted', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await openExample(page);
    await page.getByLabel('How it tastes').fill('Milky, clean, a little soft at the rim.');
    await page.getByRole('button', { name: 'Keep the tasting' }).click();
    await page.locator('.record-note').filter({ hasText: 'Milky, clean' }).waitFor();
    await page.reload();
    await page.locator('.record-note').filter({ hasText: 'Milky, clean' }).waitFor();
    await context.close();
  }, 120_000);

  it('prints a make sheet with the numbers of the screen and ruled blanks, nothing clipped', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk });
    await openExample(page);
    await page.getByRole('link', { name: 'Make sheet' }).click();
    await page.locator('.sheet-step').first().waitFor({ timeout: 60_000 });
    const numbers = await page.locator('.sheet-number').allInnerTexts();
    expect(numbers).toEqual(numbers.map((_, index) => String(index + 1)));
    expect(await page.locator('.sheet-blank').count()).toBeGreaterThan(numbers.length);
    expect(await page.locator('.sheet').innerText()).not.toMatch(WILD);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 673, height: 900 }); // 178 mm: A4 less its margins
    const clipped = await page.evaluate(() => [...document.querySelectorAll('.sheet-steps *')].filter((one) => one.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map((one) => one.className)); // prettier-ignore
    expect(clipped).toEqual([]);
    expect(await violations(page)).toEqual([]);
    await context.close();
  }, 120_000);

  it('says so where a batch is not on this device', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/record/batch:nowhere`);
    await page.getByRole('heading', { name: 'This batch is not on this device' }).waitFor();
    await page.goto(`${server.url}/vat/batch:nowhere`);
    await page.getByRole('heading', { name: 'This batch is not on this device' }).waitFor();
    await context.close();
  });
});
