import { PHONE, tap, typeTemperature, VAT_SIZES, type Group, type Sitting } from './sitting.ts';
import { potAt } from './walked.ts';

/** One card in another light, on glass or with eyes that want it otherwise. */
const seen = (name: string, sees: string, place: Sitting['place']): Sitting => ({
  sizes: PHONE,
  ...(place === undefined ? {} : { place }),
  arrange: (server) => potAt(server, 'rest-drained', { minutes: 20 }),
  states: [{ name, sees }],
});

/** What happens at a vat beside its steps. */
export const MOMENTS: Group = {
  title: 'Moments at the vat',
  sittings: [
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'ripen', { minutes: 110 }),
      states: [{ name: 'silence', sees: 'After an hour and a half without a note: taken as planned, and asked once.' }],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'ripen', { minutes: 30 }),
      // As a browser that plays nothing before the first tap.
      before: (context) =>
        context.addInitScript(() => {
          globalThis.AudioContext = class extends AudioContext {
            override get state(): AudioContextState {
              return 'suspended';
            }
          };
        }),
      states: [{ name: 'unarmed', sees: 'The bell may not sound yet: one tap lets it.' }],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'ripen', { minutes: 42 }),
      states: [
        {
          name: 'due',
          sees: 'Due: the step is over, the bell knocks.',
          reach: async (page) => {
            await page.mouse.click(3, 300);
            await page.clock.fastForward(4 * 60_000);
            await page.waitForTimeout(1500);
          },
        },
        {
          name: 'late-call',
          sees: 'After a sleep of the device: how late the call is.',
          reach: async (page) => {
            await page.clock.fastForward(25 * 60_000);
            await page.waitForTimeout(1500);
          },
        },
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'rest-in-whey', { minutes: 10 }),
      states: [
        {
          name: 'act',
          sees: 'Act: a reading far too hot takes the place of the numbers.',
          reach: async (page) => {
            await page.mouse.click(3, 300);
            await typeTemperature(page, '520');
          },
        },
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'cut', { minutes: 55 }),
      states: [{ name: 'late', sees: 'Late by more than the bands allow: how late, why, and the way to choices.' }],
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'rest-drained', { minutes: 10 }),
      states: [
        {
          name: 'invitation',
          sees: 'One reading would narrow the end of this step: one quiet line, no alarm.',
          reach: async (page) => {
            await page.getByRole('button', { name: 'Read it' }).waitFor();
            await page.mouse.click(3, 300);
            await page.waitForTimeout(500);
          },
        },
      ],
    },
    {
      sizes: PHONE,
      arrange: async (server) => {
        await potAt(server, 'cut', { name: 'Birch' });
        return potAt(server, 'set', { minutes: 4, name: 'Ash' });
      },
      states: [{ name: 'sisters', sees: 'What the pot beside it, of the same milk, has told.', reach: (page) => page.locator('.vat-sisters').waitFor().catch(() => undefined) }], // prettier-ignore
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'ripen', { minutes: 20 }),
      states: [
        {
          name: 'offline',
          sees: 'Without the network: noted and saved here.',
          reach: async (page, context) => {
            await page.locator('.vat-until').waitFor();
            await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
            await page.waitForTimeout(1500);
            await context.setOffline(true);
            await tap(page, 'Note a reading');
            await page.locator('.pad-tile').nth(2).click();
            await page.clock.fastForward(500);
            await page.locator('.pad-tile').nth(4).click();
            await page.clock.fastForward(500);
            await page.waitForTimeout(1500);
          },
        },
      ],
    },
    seen('steam', 'Steam: black on white, larger, fewer marks.', { light: 'steam' }),
    seen('dark', 'Dark.', { light: 'dark' }),
    seen('forced', 'Forced colours.', { forcedColours: true }),
    seen('text-200', 'Text at 200 %.', { textPercent: 200 }),
    {
      sizes: PHONE,
      arrange: (server) => potAt(server, 'rest-drained', { minutes: 20 }),
      before: (context) =>
        context.addInitScript(() => localStorage.setItem('vatside.device', JSON.stringify({ hand: 'left' }))),
      states: [{ name: 'left-hand', sees: 'For the left hand: the main action stands on its side.' }],
    },
    {
      sizes: ['small'],
      arrange: (server) => potAt(server, 'rest-drained', { minutes: 20 }),
      states: [{ name: 'narrow', sees: 'On the smallest phone.' }],
    },
  ],
};
