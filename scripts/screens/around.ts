import { lookAt, tap, typeTemperature, VAT_SIZES, type Group } from './sitting.ts';
import { potAt } from './walked.ts';

/** What lies over the card, and comes back to it. */
export const AROUND: Group = {
  title: 'The pages of the vat',
  sittings: [
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'rest-in-whey', { minutes: 15 }),
      states: [
        { name: 'pad', sees: 'The pad, coarse: nothing is chosen beforehand.', reach: (page) => tap(page, 'Note a reading') }, // prettier-ignore
        { name: 'pad-fine', sees: 'The pad, fine: the second tap keeps the value.', reach: async (page) => {
            await page.locator('.pad-tile').nth(2).click();
            await page.clock.fastForward(500);
          } }, // prettier-ignore
        { name: 'pad-typed', sees: 'A value being typed.', reach: async (page) => {
            await tap(page, 'type it');
            await page.keyboard.type('61');
          } }, // prettier-ignore
        { name: 'pad-impossible', sees: 'A value that cannot be is named, and what was meant is offered.', reach: async (page) => {
            await page.keyboard.press('Backspace');
            await page.keyboard.press('Backspace');
            await page.keyboard.type('999');
            await page.keyboard.press('Enter');
            await page.clock.fastForward(500);
          } }, // prettier-ignore
      ],
    },
    {
      sizes: ['phone'],
      arrange: (server) => potAt(server, 'warm', { minutes: 12 }),
      states: [
        { name: 'pad-unit', sees: 'The pad in the unit that the instrument shows: °F.', reach: async (page) => {
            await tap(page, 'Note a reading');
            await tap(page, /°F/);
          } }, // prettier-ignore
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'set', { minutes: 30 }),
      states: [{ name: 'judge-break', sees: 'Judging the break by drawings of a cut.', reach: (page) => page.keyboard.press('t') }], // prettier-ignore
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'rest-drained', { minutes: 60 }),
      states: [{ name: 'judge-stretch', sees: 'Judging the stretch.', reach: (page) => tap(page, 'Test it') }],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'stir', { minutes: 20 }),
      states: [{ name: 'judge-grip', sees: 'Judging the grip of a handful.', reach: async (page) => {
            await tap(page, 'Note a reading');
            await tap(page, 'How does a handful hold?');
          } }], // prettier-ignore
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'rest-in-whey', { minutes: 15 }),
      states: [
        { name: 'wrong', sees: 'Something is wrong: people first, then eight causes for this step.', reach: (page) => tap(page, 'Something is wrong') }, // prettier-ignore
        { name: 'wrong-asked', sees: 'Too hot: how hot, and for how long.', reach: (page) => tap(page, 'Too hot') },
        { name: 'wrong-choices', sees: 'What it means, and the choices with their numbers.', reach: async (page) => {
            await tap(page, 'hotter');
            await tap(page, /^57\s*°C$/);
            await page.getByRole('heading', { name: 'What you can do' }).waitFor();
            await page.locator('.choices[aria-busy=false]').waitFor({ timeout: 60_000 });
          },
          look: lookAt('.choices') }, // prettier-ignore
        { name: 'doubted', sees: 'After a mishap nothing foresaw, the card says so.', reach: async (page) => {
            await page.keyboard.press('Escape');
            await page.clock.fastForward(500);
            await page.keyboard.press('Escape');
            await page.clock.fastForward(500);
            await page.keyboard.press('Escape');
            await page.clock.fastForward(500);
            await typeTemperature(page, '520');
          } }, // prettier-ignore
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'rest-in-whey', { minutes: 15 }),
      states: [
        { name: 'wrong-outside', sees: 'A mishap that the sums do not know: what the trade does.', reach: async (page) => {
            await tap(page, 'Something is wrong');
            await tap(page, 'All causes');
            await tap(page, 'Smell or look is odd');
          } }, // prettier-ignore
        { name: 'wrong-other', sees: 'Nothing wrong: the choices of this moment.', reach: async (page) => {
            await page.keyboard.press('Escape');
            await page.clock.fastForward(500);
            await tap(page, 'Nothing wrong: show me choices');
            await page.locator('.choices[aria-busy=false]').waitFor({ timeout: 60_000 });
          } }, // prettier-ignore
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'rest-drained', { minutes: 30 }),
      states: [
        { name: 'whole-make', sees: 'The whole make: time line, pH and temperature foreseen, leave-by.', reach: (page) => tap(page, 'Whole make') }, // prettier-ignore
        { name: 'what-if', sees: 'What if: one thing tried, old and new side by side.', reach: async (page) => {
            await tap(page, 'What if');
            await page.locator('.whatif-tap:enabled').first().click();
            await page.clock.fastForward(500);
            await page.waitForTimeout(1500);
          } }, // prettier-ignore
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'finished', { minutes: 5 }),
      states: [
        { name: 'finish-pieces', sees: 'Weighing piece by piece.', reach: async (page) => {
            await tap(page, /^Weigh piece by piece/);
            await page.locator('.pad-tile').nth(2).click();
            await page.clock.fastForward(500);
            await page.locator('.pad-tile').nth(4).click();
            await page.clock.fastForward(500);
          } }, // prettier-ignore
        { name: 'finish-left', sees: 'Where the whey goes, and what is left to do.', look: lookAt('.finish-left') },
      ],
    },
  ],
};
