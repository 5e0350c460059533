import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from '../axe.ts';
import { SIZES, visit } from '../chromium.ts';
import { button } from '../maker.ts';
import { isInOrder } from './hand.ts';
import { goTo, openAt, PLACES, type Opened, type Place } from './place.ts';
import { browser, server } from '../standing.ts';

const MONTHS_LATER = Date.UTC(2027, 2, 4, 9, 0);
const WILD = /NaN|undefined|Infinity|\bcompare:|\brecord:|returned an object/;

/** Opens the example and goes from Today to the comparison, counting the clicks. */
async function openCompare(page: Page, at?: { readonly opened: Opened; readonly place: Place }): Promise<number> {
  if (at === undefined) await page.goto(server.url);
  else await goTo({ ...at, url: server.url });
  await button(page, 'Open the Larkenshaw example').click();
  const line = page.locator('.today-lines li').filter({ hasText: '12 November' });
  await line.waitFor({ timeout: 60_000 });
  await line.getByRole('link', { name: 'Compare' }).click();
  // The moisture is worked out last; before the screen is there, nothing says that sums are running.
  await page.locator('.compare-sentence', { hasText: '(worked out)' }).waitFor({ timeout: 90_000 });
  await page.getByText('The sums for these batches are being worked out').waitFor({ state: 'detached', timeout: 90_000 });
  return 1;
} // prettier-ignore

interface Line {
  readonly label: string;
  /** As plotted: minutes and value. */
  readonly points: readonly (readonly [number, number])[];
  /** As drawn: px. */
  readonly drawn: readonly (readonly [number, number])[];
}

const plotted = (page: Page): Promise<Line[]> =>
  page.locator('.compare-line path').evaluateAll((paths) =>
    paths.map((path) => ({
      label: path.getAttribute('data-label') ?? '',
      points: (path.getAttribute('data-points') ?? '').split(' ').map((pair) => pair.split(':').map(Number) as unknown as readonly [number, number]), // prettier-ignore
      drawn: (path.getAttribute('d') ?? '').split(/[ML]/).filter((part) => part !== '').map((pair) => pair.split(',').map(Number) as unknown as readonly [number, number]), // prettier-ignore
    })),
  );

const minutesOf = (text: string): number => {
  const [, sign = '', hours = '0'] = /^(\u2212?)(?:(\d+)\s*h)?/u.exec(text) ?? [];
  const minutes = /(\d+)\s*min/u.exec(text)?.[1] ?? '0';
  return (sign === '' ? 1 : -1) * (Number(hours === '' ? 0 : hours) * 60 + Number(minutes));
};

describe('months later: why was 12 November so slow?', () => {
  it.each(PLACES)(
    'task 12: is answered in a sentence with numbers, one plot with its lines named, and the numbers plotted, $name',
    async (place) => {
      const opened = await openAt({ browser, place, at: MONTHS_LATER });
      const { context, page, complaints } = opened;
      expect(await openCompare(page, { opened, place })).toBeLessThanOrEqual(3);
      expect(await page.locator('.compare-sentence').innerText()).toMatch(/^12 Nov was 21\s*min slower to pH 5\.4 than your other 2, and .* \(worked out\)\. Most of it came in “Rest in the whey”, which took 12\s*min longer\.$/u); // prettier-ignore

      // Each line carries its name at its end, and the names do not lie on each other.
      const names = page.locator('.compare-label');
      expect((await names.allTextContents()).sort()).toEqual(['12 Nov', '29 Oct', '5 Nov']);
      const tops = await names.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().top).sort((a, b) => a - b)); // prettier-ignore
      for (const [index, top] of tops.slice(1).entries()) expect(top - (tops[index] ?? 0)).toBeGreaterThanOrEqual(18);
      const inks = await page.locator('.compare-line path').evaluateAll((all) => all.map((one) => getComputedStyle(one).strokeWidth)); // prettier-ignore
      expect(new Set(inks).size).toBe(2);

      // The table is what is plotted, and what is plotted is drawn where it belongs.
      const lines = await plotted(page);
      await page.getByText('Show as numbers').click();
      const rows = await page.locator('details.numbers[open] tbody tr').evaluateAll((all) => all.map((row) => [...row.querySelectorAll('td')].map((cell) => cell.textContent ?? ''))); // prettier-ignore
      const inTable = rows.map(([label = '', time = '', value = '']) => `${label} ${minutesOf(time)} ${Number(value)}`);
      const inPlot = lines.flatMap(({ label, points }) => points.map(([at, value]) => `${label} ${Math.round(at)} ${value}`)); // prettier-ignore
      expect([...inTable].sort()).toEqual([...inPlot].sort());
      const all = lines.flatMap(({ points, drawn }) => points.map((point, index) => ({ point, px: drawn[index] ?? [NaN, NaN] }))); // prettier-ignore
      for (const axis of [0, 1] as const) {
        const sorted = [...all].sort((a, b) => a.point[axis] - b.point[axis]);
        const [first, last] = [sorted[0], sorted.at(-1)];
        if (first === undefined || last === undefined) throw new Error('nothing is plotted');
        const perUnit = (last.px[axis] - first.px[axis]) / (last.point[axis] - first.point[axis]);
        for (const { point, px } of all) expect(Math.abs(px[axis] - first.px[axis] - perUnit * (point[axis] - first.point[axis]))).toBeLessThan(0.1); // prettier-ignore
      }
      expect(await page.locator('.compare-table').first().locator('tbody tr').count()).toBe(8);
      expect(await page.locator('.compare').innerText()).not.toMatch(WILD);
      await isInOrder(page);
      expect(complaints).toEqual([]);
      await context.close();
    },
    240_000,
  );

  it('ranks the causes by how many of 20, and can carry a change into the next plan', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk });
    await openCompare(page);
    await button(page, 'Too salty').click();
    await button(page, 'Bitter').click();
    await button(page, 'Look for what may have gone wrong').click();
    for (let guard = 0; guard < 40 && (await page.locator('.explain-row').count()) === 0; guard++) {
      const unsure = page.locator('.explain-answering').getByRole('button', { name: 'Not sure', exact: true });
      if ((await unsure.count()) > 0) await unsure.first().click();
      await page.waitForTimeout(500);
    }
    const text = await page.locator('.explain-rows').innerText();
    expect(text).toMatch(/\d+ of 20|fewer than 1 in 20/);
    expect(await page.locator('.explain-row').first().locator('.explain-dots > span').count()).toBe(20);
    await page.getByRole('heading', { name: 'One change for the next make' }).waitFor();
    expect(await violations(page)).toEqual([]);
    await context.close();
  }, 120_000);

  it('is held against its own plan where no other is chosen, and laid on the clock where that is asked for', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await openCompare(page);
    for (const name of ['5 November', '29 October']) await page.getByRole('checkbox', { name: new RegExp(name) }).uncheck(); // prettier-ignore
    await page.locator('.compare-label').filter({ hasText: 'the plan' }).waitFor();
    await page.getByText('A dashed line is worked out').waitFor();
    expect(await page.locator('.compare-sentence').innerText()).toContain('its plan');
    await page.getByLabel('Laid on each other by').selectOption('clock');
    await page.getByText('Time of day').first().waitFor();
    expect(await page.locator('.compare').innerText()).not.toMatch(WILD);
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  }, 120_000);
});
