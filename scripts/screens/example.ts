import type { Page } from 'playwright-core';
import { lookAt, OTHER_SIZES, tap, VAT_SIZES, type Beginning, type Group, type State } from './sitting.ts';
import { potAt } from './walked.ts';

/** Early afternoon, so that the example's running make began in the morning. */
const AFTERNOON = Date.UTC(2026, 2, 4, 13, 0);
const today = (): Promise<Beginning> => Promise.resolve({ at: AFTERNOON, path: '/' });

async function openExample(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Open the Larkenshaw example' }).click();
  await page.getByText('Birch').first().waitFor();
}

/** From the opened example to a page of its first finished record. */
async function toRecord(page: Page, more = ''): Promise<void> {
  await openExample(page);
  const href = await page.getByRole('link', { name: 'Open the record' }).first().getAttribute('href');
  await page.goto(new URL(`${href ?? ''}${more}`, page.url()).href);
}

const one = (state: State) => ({ sizes: OTHER_SIZES, arrange: today, states: [state] });

/** The first page and what is kept: mostly of the worked example. */
export const EXAMPLE: Group = {
  title: 'Today and the records',
  sittings: [
    {
      sizes: VAT_SIZES,
      arrange: today,
      states: [
        { name: 'first-visit', sees: 'The first visit: three ways to begin, no sign-up.' },
        {
          name: 'today',
          sees: 'Today, with the example: what runs, what is planned, what is kept.',
          reach: openExample,
        },
        {
          name: 'settings',
          sees: 'What this device shows: light, units, words, hand.',
          reach: (page) => tap(page, 'This device'),
        },
      ],
    },
    {
      sizes: OTHER_SIZES,
      arrange: async (server) => {
        await potAt(server, 'rest-in-whey', { name: 'Birch' });
        const begin = await potAt(server, 'ripen', { minutes: 60 });
        return { ...begin, path: '/' };
      },
      states: [{ name: 'today-due', sees: 'Today, with a pot that waits to be seen to.' }],
    },
    one({
      name: 'record',
      sees: 'A record: what happened, in the order in which it was noted.',
      reach: async (page) => {
        await toRecord(page);
        await page.getByText('What happened').first().waitFor();
      },
    }),
    one({
      name: 'explain',
      sees: 'What may have gone wrong: causes counted in twenties, with what speaks for each.',
      reach: async (page) => {
        await toRecord(page);
        await tap(page, 'Too salty');
        await tap(page, 'Look for what may have gone wrong');
        await page.locator('.explain-question-first').waitFor({ timeout: 60_000 });
        await tap(page, 'Not sure');
        await page.locator('.explain-answers').waitFor();
        await page.getByRole('button', { name: 'No', exact: true }).click();
        await page.locator('.explain-row').first().waitFor({ timeout: 60_000 });
      },
      look: lookAt('.explain'),
    }),
    one({
      name: 'compare',
      sees: 'Two makes side by side: why one was slow.',
      reach: async (page) => {
        await openExample(page);
        const line = page.locator('.today-lines li').filter({ hasText: '12 November' });
        await line.getByRole('link', { name: 'Compare' }).click();
        await page.locator('.compare-sentence', { hasText: '(worked out)' }).waitFor({ timeout: 90_000 });
      },
    }),
    one({
      name: 'labels',
      sees: 'Labels: what is known is printed, what is not is left to the pen.',
      reach: (page) => toRecord(page, '/labels'),
    }),
    one({
      name: 'gauge',
      sees: 'The curd gauge in true size.',
      reach: async (page) => {
        await page.goto(new URL('/gauge', page.url()).href);
      },
    }),
    {
      sizes: OTHER_SIZES,
      arrange: async (server) => {
        const begin = await potAt(server, 'rest-in-whey', { minutes: 30 });
        return { ...begin, path: '/record/ash/instruments' };
      },
      states: [
        { name: 'instruments', sees: 'Readings from instruments: a file, a probe, another program.' },
        {
          name: 'instruments-file',
          sees: "A logger's file: its columns as one sentence, and what would be added.",
          reach: async (page) => {
            const opening = page.waitForEvent('filechooser');
            await page.getByText('Choose a file').click();
            const two = (value: number): string => String(value).padStart(2, '0');
            const rows = Array.from({ length: 50 }, (_, minute) => `2026-03-04 09:${two(minute)};${(8 + minute / 1.9 + (minute % 3) / 10).toFixed(1)}`); // prettier-ignore
            await (await opening).setFiles({ name: 'vat.csv', mimeType: 'text/csv', buffer: Buffer.from(['Time;Probe °C', ...rows].join('\n')) }); // prettier-ignore
            await page.locator('.instruments-outcome, .instruments').first().waitFor();
            await page.waitForTimeout(1500);
          },
          look: (page) => page.evaluate(() => scrollTo(0, 0)),
        },
      ],
    },
  ],
};
