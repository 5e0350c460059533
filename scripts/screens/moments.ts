import { PHONE, tap, typeTemperature, VAT_SIZES, type Group, type Sitting } from './sitting.ts';
import { fakeSerial, sayOnWire, unplug } from '../../tests/browser/fake-instruments.ts';
import { notedTwice } from './met.ts';
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
      arrange: (server) => potAt(server, 'ripen', { minutes: 43.5, pHMeter: false }),
      states: [
        {
          name: 'due-two',
          sees: 'Two things due at once: on a phone the second is one line, and the numbers stay in sight.',
          reach: async (page) => {
            await page.locator('.vat-until').waitFor();
            await page.mouse.click(3, 300);
            await tap(page, 'Set a timer');
            await tap(page, /^2.min$/);
            await page.clock.fastForward(150_000);
            await page.locator('.bell-due', { hasText: 'Timer: 2' }).waitFor();
          },
          look: (page) => page.locator('.vat-scroll').evaluate((one) => one.scrollTo(0, 0)),
        },
      ],
    },
    {
      sizes: VAT_SIZES,
      arrange: notedTwice,
      states: [{ name: 'twice', sees: 'Two devices noted the same step while apart: asked which it was, nothing held up.', reach: (page) => page.locator('.vat-silence').waitFor() }], // prettier-ignore
    },
    {
      sizes: VAT_SIZES,
      arrange: (server) => potAt(server, 'warm', { minutes: 6 }),
      // Run as it stands here, the stand-in asks for the namer that its translation put into it.
      before: async (context) => {
        await context.addInitScript('globalThis.__name ??= (one) => one;');
        await fakeSerial(context);
      },
      states: [
        {
          name: 'probe',
          sees: 'A probe on a wire: its value large on the card, noted by itself.',
          reach: async (page) => {
            await tap(page, 'Whole make');
            await page.getByRole('link', { name: 'Readings from instruments' }).click();
            await page.getByRole('button', { name: 'Connect a probe on a wire' }).click();
            await page.getByText('is connected and has said nothing yet').waitFor();
            await sayOnWire(page, 'T=14.6 C\r\n');
            await page.getByRole('link', { name: 'To the vat' }).click();
            await page.locator('.live').getByText('14.6').waitFor();
            await page.waitForTimeout(1500);
          },
        },
        {
          name: 'probe-gone',
          sees: 'The probe has gone: a note, and the way to connect it again.',
          reach: async (page) => {
            await unplug(page);
            await page.locator('.live').getByText('The probe has gone').waitFor();
          },
        },
      ],
    },
    {
      sizes: VAT_SIZES,
      keepsNothing: true,
      arrange: (server) => potAt(server, 'heal'),
      before: (context) => context.route(/\/assets\/vat-pages-[^/]*\.js$/, (route) => route.abort()),
      states: [
        {
          name: 'lost-part',
          sees: 'A part of the page did not arrive: the record is safe, the card is one tap away.',
          reach: async (page) => {
            await page.locator('.vat-main').waitFor();
            await tap(page, 'Note a reading');
            await page.locator('.lost-part').waitFor();
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
