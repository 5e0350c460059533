import { lookAt, tap, VAT_SIZES, type Group, type Sitting } from './sitting.ts';
import { potAt } from './walked.ts';

/** One step on the card. */
const step = (id: string, sees: string, input: Parameters<typeof potAt>[2] = {}): Sitting => ({
  sizes: VAT_SIZES,
  arrange: (server) => potAt(server, id, input),
  states: [{ name: `vat-${id}`, sees }],
});

/** The card at every kind of step. */
export const STEPS: Group = {
  title: 'At the vat, step by step',
  sittings: [
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'opened', { minutes: -20 }),
      states: [
        { name: 'ready-full', sees: 'Get ready, the full list: one pause at a time, each item one tap.' },
        {
          name: 'ready-ice',
          sees: 'The thermometer held in ice water read 1.4 °C: what to take off every reading.',
          reach: async (page) => {
            for (let pause = 0; pause < 3; pause++) {
              const ice = page.locator('.pause-item').filter({ hasText: 'Thermometer in ice' });
              await page.locator('.pause-item').first().waitFor();
              if ((await ice.count()) > 0) break;
              for (const item of await page.locator('.pause-item').all()) {
                await item.click();
                await page.clock.fastForward(500);
              }
              await page.waitForTimeout(1500);
            }
            await page.locator('.pause-item').filter({ hasText: 'Thermometer in ice' }).click();
            await page.clock.fastForward(500);
            await tap(page, /^Thermometer in ice water, °C 1\._$/);
            await tap(page, '1.4');
            await page.getByText('take 1.4 off every reading').first().waitFor();
          },
        },
        {
          name: 'ready-short',
          sees: 'The short list, and what it leaves out and why.',
          reach: (page) => tap(page, 'Short list'),
        },
      ],
    },
    step('warm', 'Warming the milk: burner off below the target, because the pot coasts.', { minutes: 12 }),
    step('add-culture', 'Adding the culture: the amount as weighed and as spooned.'),
    step('ripen', 'Ripening: what is left, and the half-open minutes of the step.', { minutes: 15 }),
    step('add-rennet', 'Adding the rennet.'),
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'set', { minutes: 8 }),
      states: [
        { name: 'vat-set', sees: 'Setting, before the flecks: they are the next thing to note.' },
        {
          name: 'vat-set-flecks',
          sees: 'Setting, after the flecks: the cut by the fleck time.',
          reach: async (page) => {
            await page.clock.fastForward(3 * 60_000);
            await tap(page, 'Flecks');
            await page.getByText(/Cut about \d\d:\d\d by the fleck time/).waitFor();
            await page.clock.fastForward(120_000);
          },
        },
      ],
    },
    step('cut', 'Cutting: the size of the cubes.'),
    step('stir', 'Stirring.', { minutes: 6 }),
    step('draw-whey', 'Drawing off whey: how much, and by how far the level falls.'),
    step('wash', 'Washing with hot water, in portions.'),
    step('rest-in-whey', 'Resting in the whey.', { minutes: 20 }),
    step('drain', 'Draining and weighing.'),
    step('rest-drained', 'Keeping it warm until it will stretch: who is ready by when, and when to test.', { minutes: 20 }), // prettier-ignore
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'stretch'),
      states: [
        { name: 'vat-stretch', sees: 'Stretching in hot water.' },
        {
          name: 'vat-stretch-caution',
          sees: 'The burn caution of the hot bath, opened.',
          reach: async (page) => {
            await page.locator('details.vat-caution summary').first().click();
            await page.clock.fastForward(500);
          },
          look: lookAt('.vat-caution'),
        },
      ],
    },
    step('cool', 'Cooling in ice water.', { minutes: 8 }),
    step('brine', 'In the brine: when this size comes out.', { minutes: 10 }),
    step('pack', 'Packing and weighing.'),
    step('finished', 'After the last step: weigh, label, whey, what is left to do.', { minutes: 5 }),
  ],
};
