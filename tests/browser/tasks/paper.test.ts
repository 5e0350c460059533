import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { expectLegible, letters, papers } from '../paper.ts';
import { readPdf } from '../pdf.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { Hand, isInOrder } from './hand.ts';
import { goTo, openAt, PLACES } from './place.ts';
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

const LEAST_X_HEIGHT_MM = 1.2; // Regulation (EU) No 1169/2011, article 13(2)

describe.each(PLACES)('on paper, $name', (place) => {
  it('task 11: the make sheet, twelve labels and the curd gauge, on A4 and on Letter', async () => {
    const make = await seedMake({ url: server.url, stepId: 'stir' });
    const opened = await openAt({ browser, place, at: make.at });
    const { page, context, complaints } = opened;
    const hand = new Hand(page);
    await goTo({ opened, place, url: server.url + make.path });
    await page.locator('.vat-until').waitFor();
    const atVat = await page.locator('.vat-strip').innerText();
    const number = /(\d+) of \d+/.exec(atVat)?.[1] ?? '';
    const verb = await page.locator('h1').first().innerText();
    await page.getByText('The forecast is being worked out').waitFor({ state: 'detached' });
    await hand.tap('Whole make');
    await hand.follow('Open the record');
    await hand.follow('Make sheet');
    await page.locator('.sheet-step').first().waitFor({ timeout: 60_000 });
    const steps = await page.locator('.sheet-step').evaluateAll((all) => all.map((step) => ({
      number: step.querySelector('.sheet-number')?.textContent ?? '',
      name: step.querySelector('.sheet-words strong')?.textContent ?? '',
      blanks: step.querySelectorAll('.sheet-blank').length,
    }))); // prettier-ignore
    // The number on paper is the number at the vat.
    expect(steps.find(({ name }) => name === verb)?.number).toBe(number);
    await isInOrder(page);
    for (const format of papers) {
      const { pages, words, boxes } = readPdf(await page.pdf({ format }));
      expect(pages.length).toBeLessThanOrEqual(4);
      expectLegible(words, format);
      const all = letters(words.map(({ text }) => text).join(''));
      for (const { name } of steps) expect(all).toContain(letters(name));
      // A number heads the words of its step: the same baseline, left of them.
      for (const step of steps.filter((one) => one.number !== '')) {
        const name = letters(step.name);
        const heads = words.filter(({ text }) => text === step.number);
        expect(heads.some((head) => words.some((word) => word.page === head.page && name.startsWith(letters(word.text)) && Math.abs(word.baseMm - head.baseMm) < 3 && word.leftMm > head.leftMm)), `${format}: ${step.number} ${name}`).toBe(true); // prettier-ignore
      }
      // A ruled line for the time of every step, and for every reading that it asks for.
      const ruled = boxes.filter(({ widthMm, heightMm }) => widthMm > 10 && heightMm < 0.6).length;
      expect(ruled).toBeGreaterThanOrEqual(steps.reduce((sum, { blanks }) => sum + blanks, 0));
    }

    await page.goBack();
    await hand.follow('Labels');
    await page.getByRole('heading', { name: 'Labels' }).waitFor();
    await isInOrder(page);
    const record = page.url();
    for (const format of papers) {
      await page.getByLabel('Paper').selectOption(format);
      const { pages, words } = readPdf(await page.pdf({ format }));
      expect(pages).toHaveLength(1);
      expectLegible(words, format);
      for (const { xHeightMm, text } of words) if (xHeightMm !== null) expect(xHeightMm, text).toBeGreaterThanOrEqual(LEAST_X_HEIGHT_MM); // prettier-ignore
      const all = letters(words.map(({ text }) => text).join(''));
      for (const must of ['Stretchedball', 'ASH-7K3', 'Netweight', 'Madeby']) expect(all.split(must).length - 1, must).toBe(12); // prettier-ignore
    }

    await page.goto(record.replace(/\/labels.*/u, ''));
    await hand.follow('Curd gauge');
    await page.getByRole('heading', { name: 'Curd gauge' }).waitFor();
    await isInOrder(page);
    for (const format of papers) {
      const { boxes } = readPdf(await page.pdf({ format }));
      const [bar, ...others] = boxes.filter(({ widthMm, heightMm }) => widthMm > 50 && heightMm > 3 && heightMm < 5);
      expect(others).toEqual([]);
      expect(Math.abs((bar?.widthMm ?? 0) - 100)).toBeLessThanOrEqual(0.5);
    }
    expect(complaints).toEqual([]);
    await context.close();
  });
});
