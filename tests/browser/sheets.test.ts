import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { button } from './maker.ts';
import { expectLegible, letters, papers } from './paper.ts';
import { readPdf } from './pdf.ts';
import { browser, server } from './standing.ts';

const SCREENS = [SIZES.phone, { width: 1180, height: 820 }, SIZES.desk];
const WILD = /NaN|undefined|Infinity|\blabels:|\brecord:|returned an object/;

async function openRecord(page: Page): Promise<void> {
  await page.goto(server.url);
  await button(page, 'Open the Larkenshaw example').click();
  await page.locator('a[href*="/record/"]').first().click();
  await page.getByRole('heading', { name: 'What happened' }).waitFor();
}

describe('labels', () => {
  it('print twelve on A4 and on Letter, small letters at least 1.2 mm high, nothing clipped, blanks for what is not known', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.desk });
    await openRecord(page);
    await page.getByRole('link', { name: 'Labels' }).click();
    await page.getByRole('heading', { name: 'Labels' }).waitFor();
    for (const format of papers) for (const stock of ['70x37', '63x38']) {
      await page.getByLabel('Paper').selectOption(format);
      await page.getByLabel('Label sheets').selectOption(stock);
      const { pages, words, boxes } = readPdf(await page.pdf({ format }));
      expect(pages).toHaveLength(1);
      expectLegible(words, format);
      for (const { xHeightMm, text } of words) if (xHeightMm !== null) expect(xHeightMm, text).toBeGreaterThanOrEqual(1.2);
      expect(words.filter(({ xHeightMm }) => xHeightMm !== null).length).toBeGreaterThan(60);
      const runs = words.map(({ text }) => letters(text));
      const all = runs.join('');
      for (const must of ['Stretchedball', 'LK-1112-ASH', 'Useby17November2026', 'Netweight', 'Madeby']) expect(all.split(must).length - 1, must).toBe(12);
      expect(runs.filter((run) => run === 'MILK').length).toBe(24);
      expect(all).toContain('Thissheetisahelp,notaruling.');
      // Two ruled blanks a label, and the check bar.
      expect(boxes.filter(({ widthMm, heightMm }) => widthMm > 10 && heightMm < 0.5).length).toBeGreaterThanOrEqual(24);
      const bar = boxes.filter(({ heightMm, widthMm }) => heightMm > 1.5 && heightMm < 2.5 && widthMm > 40);
      expect(bar).toHaveLength(1);
      expect(Math.abs((bar[0]?.widthMm ?? 0) - 50)).toBeLessThanOrEqual(0.25);
      await page.emulateMedia({ media: 'print' });
      const clipped = await page.evaluate(() => [...document.querySelectorAll('.label-place .label-card')].filter((card) => card.scrollHeight > card.clientHeight + 1 || card.scrollWidth > card.clientWidth + 1).length);
      expect(clipped).toBe(0);
      await page.emulateMedia({ media: null });
    }
    expect(await page.locator('.labels').innerText()).not.toMatch(WILD);
    expect(complaints).toEqual([]);
    await context.close();
  }, 120_000); // prettier-ignore

  it('let the maker decide the date, and keep it in the record', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await openRecord(page);
    const record = page.url();
    await page.goto(`${record}/labels`);
    await page.evaluate(() => Object.assign(window, { print: () => undefined }));
    await page.getByText('5 days are customary for this cheese').waitFor();
    await page.getByLabel('How it is dated').selectOption('bestBefore');
    await page.getByLabel('Last day, as you decide').fill('2026-11-01');
    await page.getByText('This day is before the cheese was made').waitFor();
    expect(await button(page, 'Print labels').isDisabled()).toBe(true);
    await page.getByLabel('Last day, as you decide').fill('2026-11-19');
    await page.getByLabel('Net weight of each').fill('128');
    expect(await page.locator('.labels-preview .label-card').innerText()).toMatch(
      /Best before 19 November 2026[\s\S]*128\s*g/,
    );
    await button(page, 'Print labels').click();
    await page.getByText('This label is noted in the record.').waitFor();
    await page.goto(record);
    await page.getByText('best before 2026-11-19').waitFor();
    await context.close();
  }, 120_000);

  it('fit every screen, can be copied by hand, and please the checker', async () => {
    for (const size of SCREENS) {
      const { context, page, complaints } = await visit({ browser, size });
      await openRecord(page);
      await page.goto(`${page.url()}/labels`);
      await page.getByRole('heading', { name: 'Labels' }).waitFor();
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
      expect(await violations(page)).toEqual([]);
      await button(page, 'Copy by hand').click();
      expect(await page.locator('.by-hand').innerText()).toMatch(/said aloud: L K 1 1 1 2 A S H/);
      expect(await page.locator('.by-hand').innerText()).toContain('leave room, fill in by hand');
      expect(await page.locator('.by-hand dd').first().evaluate((one) => parseFloat(getComputedStyle(one).fontSize))).toBeGreaterThanOrEqual(24); // prettier-ignore
      expect(await violations(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await context.close();
    }
  }, 120_000);
});

describe('the curd gauge', () => {
  it('measures on paper what it says, on A4 and on Letter', async () => {
    for (const size of SCREENS) {
      const { context, page, complaints } = await visit({ browser, size });
      await page.goto(`${server.url}/gauge?cut=12`);
      await page.getByRole('heading', { name: 'Curd gauge' }).waitFor();
      for (const format of papers) {
        const { pages, words, boxes } = readPdf(await page.pdf({ format }));
        expect(pages).toHaveLength(1);
        expectLegible(words, format);
        const bar = boxes.filter(({ widthMm, heightMm }) => widthMm > 50 && heightMm > 3 && heightMm < 5);
        expect(bar).toHaveLength(1);
        expect(Math.abs((bar[0]?.widthMm ?? 0) - 100)).toBeLessThanOrEqual(0.5);
        const squares = boxes.filter(({ widthMm, heightMm }) => Math.abs(widthMm - heightMm) < 0.2 && widthMm > 4).map(({ widthMm }) => widthMm).sort((a, b) => a - b); // prettier-ignore
        expect(squares).toHaveLength(6);
        for (const [index, edge] of [6, 10, 12, 13, 19, 25].entries()) expect(Math.abs((squares[index] ?? 0) - edge)).toBeLessThanOrEqual(0.15); // prettier-ignore
        expect(letters(words.map(({ text }) => text).join(''))).toContain('yourprinterscaledthepage');
      }
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
      expect(await violations(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await context.close();
    }
  }, 120_000);

  it('is a tap away from the plan and from the record', async () => {
    const { context, page } = await visit({ browser, size: SIZES.tablet });
    await openRecord(page);
    await page.getByRole('link', { name: 'Curd gauge' }).click();
    await page.getByText('this make’s cut').waitFor();
    await page.goto(`${server.url}/plan`);
    await page.getByRole('link', { name: 'Curd gauge' }).click();
    await page.getByText('this make’s cut').waitFor();
    await context.close();
  }, 120_000);
});
