import { lookAt, VAT_SIZES, OTHER_SIZES, type Beginning, type Group } from './sitting.ts';

const morning = (path: string) => (): Promise<Beginning> => Promise.resolve({ at: Date.UTC(2026, 2, 4, 8, 0), path });

/** The plan, and the bench beside it. */
export const PLANNING: Group = {
  title: 'Plan and bench',
  sittings: [
    {
      sizes: VAT_SIZES,
      arrange: morning('/plan'),
      states: [
        { name: 'plan', sees: 'The plan: one sentence with blanks, and the start worked back from when it must be done.', reach: async (page) => {
            await page.getByText('Light the burner at').waitFor();
            await page.getByText('The one answer that would narrow').waitFor();
          } }, // prettier-ignore
        { name: 'plan-amounts', sees: 'The amounts, as weighed and as spooned.', look: lookAt('[aria-labelledby="amounts"]') }, // prettier-ignore
      ],
    },
    {
      sizes: OTHER_SIZES,
      arrange: morning('/plan'),
      states: [
        { name: 'plan-what-if', sees: 'A changed answer is held: old and new together until one is kept.', reach: async (page) => {
            await page.getByText('The one answer that would narrow').waitFor();
            await page.getByRole('textbox', { name: 'Milk', exact: true }).fill('7');
            await page.getByRole('group', { name: 'What is being tried' }).waitFor();
            await page.waitForTimeout(1500);
          } }, // prettier-ignore
      ],
    },
    {
      sizes: OTHER_SIZES,
      arrange: morning('/plan'),
      states: [
        { name: 'plan-aim', sees: 'What must come out: answered with a chance and what it costs.', reach: async (page) => {
            await page.locator('.start-line-time').waitFor();
            const card = page.getByRole('region', { name: 'What must come out' });
            await card.getByLabel('I want').selectOption({ label: 'salt in the moisture' });
            await card.getByLabel('Lowest').fill('1.9');
            await card.getByLabel('Highest').fill('2.8');
            await card.locator('.aim-verdict').getByText(/in 10 to have/).waitFor({ timeout: 60_000 });
          },
          look: (page) => page.getByRole('region', { name: 'What must come out' }).evaluate((one) => one.scrollIntoView({ block: 'start' })) }, // prettier-ignore
      ],
    },
    {
      sizes: OTHER_SIZES,
      arrange: morning('/plan'),
      states: [
        { name: 'plan-pots', sees: 'One plan for several pots, one after the other.', reach: async (page) => {
            await page.getByText('Light the burner at').waitFor();
            await page.getByLabel('How many pots').selectOption('3');
            await page.getByText(/3 pots of/).waitFor();
          },
          look: (page) => page.getByLabel('How many pots').evaluate((one) => one.scrollIntoView({ block: 'center' })) }, // prettier-ignore
      ],
    },
    {
      sizes: OTHER_SIZES,
      arrange: morning('/bench'),
      states: [
        { name: 'bench', sees: 'The bench: sums by what one wants to know.' },
        { name: 'bench-sum', sees: 'One sum: its sentence, its answer and what was assumed.', reach: async (page) => {
            await page.goto(new URL('/bench/brine-time', page.url()).href);
            await page.getByRole('region', { name: 'The answer' }).waitFor();
          } }, // prettier-ignore
        { name: 'cup', sees: 'The cup test of a rennet bottle.', reach: async (page) => {
            await page.goto(new URL('/bench/rennet-test', page.url()).href);
            await page.getByRole('textbox', { name: 'Name of the bottle' }).fill('Brown bottle');
          } }, // prettier-ignore
        { name: 'cup-running', sees: 'The cup test under way.', reach: async (page) => {
            await page.getByRole('button', { name: 'Start' }).click();
            await page.clock.fastForward(4 * 60_000);
          } }, // prettier-ignore
        { name: 'cup-result', sees: 'What the bottle is worth today.', reach: async (page) => {
            await page.clock.fastForward(7 * 60_000);
            await page.getByRole('button', { name: 'Flecks now' }).click();
            await page.getByText('Working strength of the bottle').waitFor();
          } }, // prettier-ignore
        { name: 'lots', sees: 'Milk, packets and bottles that are kept, and what each has told.', reach: async (page) => {
            await page.goto(new URL('/bench/lots', page.url()).href);
            await page.getByRole('heading', { name: 'Brown bottle' }).waitFor();
          } }, // prettier-ignore
      ],
    },
  ],
};
