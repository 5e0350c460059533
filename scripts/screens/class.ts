import { tap, VAT_SIZES, type Beginning, type Group } from './sitting.ts';
import type { TestServer } from '../../tests/browser/server.ts';
import { potAt } from './walked.ts';

/** Six pots of one morning, each at another step; the clock is that of the latest. */
async function sixPots(server: TestServer): Promise<Beginning> {
  const steps = { Ash: 'draw-whey', Birch: 'stir', Cedar: 'stir', Elm: 'heal', Hazel: 'set', Willow: 'set' } as const;
  let at = 0;
  for (const [name, step] of Object.entries(steps)) at = Math.max(at, (await potAt(server, step, { name })).at);
  return { at, path: '/pots' };
}

/** Two pots of one morning whose ripening ends within the same minute. */
async function twoRipe(server: TestServer): Promise<Beginning> {
  const ash = await potAt(server, 'ripen', { name: 'Ash', minutes: 43.5, pHMeter: false });
  await potAt(server, 'ripen', { name: 'Birch', minutes: 43.5, pHMeter: false });
  return { at: ash.at, path: '/pots' };
}

/** A class of pots. */
export const CLASS: Group = {
  title: 'Several pots',
  sittings: [
    {
      sizes: VAT_SIZES,
      arrange: sixPots,
      states: [
        { name: 'pots', sees: 'Six pots on one clock: who needs hands next, and where two want them at once.', reach: async (page) => {
            await page.locator('.pots-next li').first().waitFor();
            await page.waitForTimeout(6000);
          } }, // prettier-ignore
        { name: 'pots-burners', sees: 'With two burners: the clashes, each with a later start.', reach: (page) => tap(page, '2 burners') }, // prettier-ignore
        { name: 'pots-all', sees: 'One entry for all pots.', reach: (page) => tap(page, 'All pots at once') },
        { name: 'round', sees: 'The round with the thermometer, pot by pot.', reach: async (page) => {
            await page.goto(new URL('/pots', page.url()).href);
            await tap(page, 'Round with the thermometer');
          } }, // prettier-ignore
        { name: 'join', sees: 'A curd joined to another pot: what that means, before it is done.', reach: async (page) => {
            await page.goto(new URL('/vat/ash', page.url()).href);
            await tap(page, 'Something is wrong');
            await tap(page, 'Join this curd to another pot…');
          } }, // prettier-ignore
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: twoRipe,
      states: [{ name: 'pots-due', sees: 'Two pots are due: their calls under their names, each with the way to its vat.', reach: async (page) => {
            await page.locator('.pots-next li').first().waitFor();
            await page.getByText('The forecasts are being worked out').waitFor({ state: 'detached', timeout: 60_000 });
            await page.locator('.pots-title').click();
            await page.clock.fastForward(150_000);
            await page.locator('.pot-bell').nth(1).waitFor();
          } }], // prettier-ignore
    },
    {
      sizes: ['tablet', 'wide', 'desk'],
      arrange: async (server) => ({ ...(await sixPots(server)), path: '/pots/wall' }),
      states: [{ name: 'wall', sees: 'On the wall, to be read across the room.', reach: async (page) => {
            await page.locator('.wall-next li').first().waitFor();
            await page.waitForTimeout(6000);
          } }], // prettier-ignore
    },
  ],
};
