import type { Page } from 'playwright-core';
import { lookAt, OTHER_SIZES, tap, VAT_SIZES, type Beginning, type Group } from './sitting.ts';

/** An afternoon after the example's last batch, so that its cheeses have aged. */
const AFTERNOON = Date.UTC(2026, 10, 25, 13, 0);
const ROOM_SIZES = ['phone', 'wide', 'desk'] as const;
const begin = (path: string) => (): Promise<Beginning> => Promise.resolve({ at: AFTERNOON, path });

/** The example is open once its ageing room is. */
async function openExample(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Open the Larkenshaw example' }).click();
  await page.getByRole('link', { name: "Today's round" }).waitFor();
}
const goTo = (page: Page, path: string): Promise<unknown> => page.goto(new URL(path, page.url()).href);
async function toExample(page: Page, path: string): Promise<void> {
  await openExample(page);
  await goTo(page, path);
}

/** What stands around a make: choosing, buying and writing it, the whole day, the ageing room, brine, paper, sharing. */
export const DAIRY: Group = {
  title: 'The dairy around the vat',
  sittings: [
    {
      sizes: ROOM_SIZES,
      arrange: begin('/makes'),
      states: [
        { name: 'makes', sees: 'The makes: milk and hours in one sentence, each day drawn against them.', reach: (page) => page.locator('.makes-row').first().waitFor() }, // prettier-ignore
        { name: 'makes-out', sees: 'What rules the other makes out.', look: lookAt('.makes-row[data-fits=false]') },
        { name: 'make', sees: 'A make: its milk, its steps, its aims, its sources.', reach: async (page) => {
            await goTo(page, '/makes/stretched-ball');
            await page.locator('.make-page-head').waitFor();
          } }, // prettier-ignore
        { name: 'make-change', sees: 'Writing a make of one’s own: the forecast contradicts a time as it is typed.', reach: async (page) => {
            await goTo(page, '/makes/stretched-ball/change');
            await tap(page, /^16\s*Keep warm and turn/);
            await page.getByLabel('a time', { exact: true }).fill('10');
            await page.getByText(/the forecast expects about/).first().waitFor();
          },
          look: (page) => page.getByLabel('a time', { exact: true }).evaluate((one) => one.scrollIntoView({ block: 'center' })) }, // prettier-ignore
        { name: 'buying', sees: 'The buying list, with the words on the carton.', reach: async (page) => {
            await goTo(page, '/plan/buying');
            await page.locator('.buying-row').first().waitFor();
          } }, // prettier-ignore
      ],
    },
    {
      sizes: ROOM_SIZES,
      arrange: begin('/day'),
      states: [
        { name: 'day', sees: 'The day: pots, hours and kitchen, and when all is done.', reach: (page) => page.locator('.day-answer').waitFor() }, // prettier-ignore
        { name: 'day-picture', sees: 'The picture of the day: a lane a pot and a burner.', look: lookAt('.day-part') },
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: begin('/'),
      states: [
        { name: 'ageing', sees: "The ageing room: today's round, shelf by shelf; a hollow mark is to come, a full one done.", reach: async (page) => {
            await toExample(page, '/ageing');
            await tap(page, 'Turn: Board cheese 1');
          } }, // prettier-ignore
        { name: 'ageing-weeks', sees: 'The weeks: what was done, what is to come, when each is ready.', look: lookAt('#weeks-title') }, // prettier-ignore
        { name: 'cheese', sees: 'One cheese: when it is ready, what is due, how it loses weight.', reach: async (page) => {
            await page.getByRole('link', { name: 'Board cheese 1' }).first().click();
            await page.locator('.piece-acts').waitFor();
          } }, // prettier-ignore
        { name: 'growth', sees: 'What grows on it: by its look, and what to do.', reach: (page) => tap(page, 'What grows on it?') }, // prettier-ignore
        { name: 'brine', sees: 'The brine: its strength reckoned on, what to add, its book.', reach: async (page) => {
            await goTo(page, '/brine');
            await page.locator('.brine-strength').waitFor();
          } }, // prettier-ignore
      ],
    },
    {
      sizes: OTHER_SIZES,
      arrange: begin('/'),
      states: [
        { name: 'paper', sees: 'Paper: the sheets that there are, and the one looked at, as it prints.', reach: async (page) => {
            await toExample(page, '/paper/demo-ash/home');
            await page.locator('.paper-desk .paper').first().waitFor();
          } }, // prettier-ignore
        { name: 'share', sees: 'Sharing a make: files, a hand-out, a link.', reach: async (page) => {
            await goTo(page, '/share/stretched-ball');
            await page.locator('.share-ways').waitFor();
          } }, // prettier-ignore
        { name: 'write-up', sees: 'Writing a make up from its records: what was meant, what was seen.', reach: async (page) => {
            await goTo(page, '/record/demo-ash/write-up');
            await page.locator('.write-up-table').waitFor();
          } }, // prettier-ignore
        { name: 'write-up-rests', sees: 'What rests on one kitchen, and what becomes of it.', look: lookAt('.write-up-rests') }, // prettier-ignore
      ],
    },
  ],
};
