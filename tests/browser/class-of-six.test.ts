import { mkdirSync, writeFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { launchChromium, SIZES, visit } from './chromium.ts';
import { button } from './maker.ts';
import { expectLegible, letters } from './paper.ts';
import { readPdf, type PdfWords } from './pdf.ts';
import { startTestServer, type TestServer } from './server.ts';

/** A class of six pots of quick stretched curd on two burners and one kettle, nine to noon: from the plan to the labels. */

let browser: Browser;
let server: TestServer;
beforeAll(async () => {
  [browser, server] = await Promise.all([launchChromium(), startTestServer()]);
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const SHOTS = process.env['VATSIDE_SHOTS'];
const shot = async (page: Page, name: string): Promise<void> => {
  if (SHOTS === undefined) return;
  mkdirSync(SHOTS, { recursive: true });
  await page.screenshot({ path: `${SHOTS}/class-${name}.png`, fullPage: true });
};

/** One tap, and the half second in which the same button hears no second one. */
async function tap(page: Page, name: string | RegExp): Promise<void> {
  await button(page, name).first().click();
  await page.clock.fastForward(500);
}

/** The pots of each start, and how long their curd lies under its whey until the burner is free, as the plan has them. */
const PAIRS = [
  { pots: 'Ash and Birch', at: '09:00', heldBackMin: 3 },
  { pots: 'Cedar and Elm', at: '09:10', heldBackMin: 12 },
  { pots: 'Hazel and Rowan', at: '10:00', heldBackMin: 0 },
] as const;
/** What ends each step, in the words of the make, and how long it takes [min]. A pause stands before two of the steps. */
const STEPS = [
  [/^Acid is in/, 4], [/^It is warm/, 6], [/^Begin: Add the rennet/, 0], [/^Rennet in/, 1], [/^It breaks clean/, 4], [/^All cut/, 3],
  [/^Whey is up/, 5], [/^It is at 41/, 12], [/^It draws together/, 6], [/^Drained/, 8], [/^Begin: Stretch/, 0], [/^Smooth and shiny/, 10],
  [/^Salt is in/, 3], [/^In the ice/, 7], [/^Cold enough/, 28], [/^Packed/, 6], [/^In the fridge/, 2],
] as const; // prettier-ignore
const MINUTE = 60_000;

/** Everything that is noted of the class, in the order of the clock. */
const notes = PAIRS.flatMap(({ pots, at, heldBackMin }) => {
  let minutes = Date.parse(`2026-03-04T${at}:00Z`);
  const all: { at: number; pots: string; said: RegExp }[] = [{ at: minutes, pots, said: /^Start the make/ }];
  for (const [said, takes] of STEPS) {
    minutes += (takes + (String(said).includes('Whey is up') ? heldBackMin : 0)) * MINUTE;
    all.push({ at: minutes, pots, said });
  }
  return all;
}).sort((a, b) => a.at - b.at);

const WEIGHTS = { Ash: '270', Birch: '280', Cedar: '290', Elm: '300', Hazel: '310', Rowan: '260' } as const;

/** The letters of each label, row by row: a label holds what is printed in its third of the width, from its lot's line on. */
function labelsOf(words: readonly PdfWords[]): string[] {
  const column = ({ leftMm }: PdfWords): number => Math.floor(leftMm / 70);
  const row = ({ baseMm }: PdfWords): number => Math.floor((baseMm - 0.5) / 37);
  const found = new Map<number, string>();
  for (const word of words) {
    const key = row(word) * 3 + column(word);
    found.set(key, (found.get(key) ?? '') + letters(word.text));
  }
  return [...found].toSorted(([a], [b]) => a - b).map(([, text]) => text).filter((text) => text.includes('Netweight')); // prettier-ignore
}

describe('a class of six pots', () => {
  it('is planned, run by the clock, weighed and labelled within its three hours', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.tablet });
    const clock = (): Promise<number> => page.evaluate(() => Date.now());
    await page.clock.install({ time: new Date('2026-03-03T08:00:00Z') });

    await page.goto(`${server.url}/day`);
    await page.locator('.day-answer').waitFor();
    await page.getByLabel('Make', { exact: true }).selectOption('quick-stretched');
    await page.getByLabel('Milk a pot').fill('2');
    await page.getByLabel('Pots', { exact: true }).selectOption('6');
    await page.getByLabel('How the hours are meant').selectOption('between');
    await page.getByLabel('To', { exact: true }).fill('12:00');
    await page.getByLabel('Pupils who lend a hand').selectOption('6');
    await page.getByText('09:00 to 12:00').waitFor();
    expect(await page.getByText('It does not all fit').count()).toBe(0);
    expect(await page.locator('.day-heads').innerText()).toMatch(/Ash\s+Birch\s+Cedar\s+Elm\s+Hazel\s+Rowan\s+Burner 1\s+Burner 2\s+Kettle 1/); // prettier-ignore
    await shot(page, 'day');
    await button(page, 'Get 6 pots ready').click();
    await page.waitForURL(/\/pots$/);
    await page.getByText('2 burners').waitFor();
    // Eight people are there: no two pots want the same pair of hands.
    await page.getByText('The forecasts are being worked out').waitFor({ state: 'detached' });
    expect(await page.locator('.pots-clash-list > li[data-kind=hands]').count()).toBe(0);

    for (const { at, pots, said } of notes) {
      const ahead = at - (await clock());
      if (ahead > 0) await page.clock.fastForward(ahead);
      await tap(page, 'All pots at once');
      await tap(page, new RegExp(`${said.source}.*: .*${pots.replace(' and ', '.*')}`, 'u'));
      // Pots of another start may stand before the same.
      const others = PAIRS.filter((pair) => pair.pots !== pots).flatMap((pair) => pair.pots.split(' and '));
      for (const other of others) if ((await button(page, `Not in ${other}`).count()) > 0) await tap(page, `Not in ${other}`); // prettier-ignore
      if (pots === 'Ash and Birch' && String(said).includes('Cold enough')) await shot(page, 'at-once');
      await tap(page, 'Note it for 2 pots');
      await tap(page, 'Done');
      if (pots === 'Cedar and Elm' && String(said).includes('41')) await shot(page, 'pots');
    }
    await page.getByText('Every step is over. Weigh and close each pot.').waitFor();
    expect(await clock()).toBeLessThan(Date.parse('2026-03-04T12:00:00Z'));
    await shot(page, 'over');

    for (const [pot, grams] of Object.entries(WEIGHTS)) {
      await page.locator('.pot-head').filter({ hasText: pot }).locator('a').click();
      await tap(page, 'Weigh the cheese');
      await page
        .locator('.pad-tile')
        .filter({ hasText: `0.${grams[0]}_` })
        .click();
      await page.clock.fastForward(500);
      await page
        .locator('.pad-tile')
        .filter({ hasText: `0.${grams.slice(0, 2)}` })
        .click();
      await page.clock.fastForward(500);
      await tap(page, 'Close the batch');
      await tap(page, 'Yes, the make is over');
      await page.getByText(/^Closed at/).waitFor();
      if (pot !== 'Rowan') await page.getByRole('link', { name: /All pots on one clock/ }).click();
    }
    await shot(page, 'closed');

    await page.getByRole('link', { name: 'Print labels, or copy them by hand' }).click();
    await page.getByRole('link', { name: 'Labels of all 6 pots' }).click();
    await page.getByRole('heading', { name: 'Labels of the class' }).waitFor();
    expect(await page.getByText('Not weighed yet').count()).toBe(0);
    expect(await violations(page)).toEqual([]);
    await shot(page, 'labels');
    const pdf = await page.pdf({ format: 'A4' });
    if (SHOTS !== undefined) writeFileSync(`${SHOTS}/class-labels.pdf`, pdf);
    const { pages, words } = readPdf(pdf);
    expect(pages).toHaveLength(1);
    expectLegible(words, 'A4');
    const labels = labelsOf(words);
    expect(labels).toHaveLength(6);
    for (const [nth, [pot, grams]] of Object.entries(WEIGHTS).entries()) {
      const label = labels[nth] ?? '';
      for (const must of ['Quickstretchedcurd', pot, `260304-${nth + 1}`, 'Made4March2026', 'Useby9March2026', `Netweight${grams}g`, 'citricacid', 'MILK']) expect(label, pot).toContain(must); // prettier-ignore
      for (const other of Object.keys(WEIGHTS)) if (other !== pot) expect(label).not.toContain(other);
    }
    await page.emulateMedia({ media: 'print' });
    await shot(page, 'labels-printed');
    const clipped = await page.evaluate(() => [...document.querySelectorAll('.label-place .label-card, .label-pot')].filter((card) => card.scrollHeight > card.clientHeight + 1 || card.scrollWidth > card.clientWidth + 1).length); // prettier-ignore
    expect(clipped).toBe(0);
    await page.emulateMedia({ media: null });

    await page.evaluate(() => Object.assign(window, { print: () => undefined }));
    await button(page, 'Print labels').click();
    await page.getByText('Each label is noted in its pot’s record.').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  }, 400_000);
});
