import { brotliCompressSync } from 'node:zlib';
import type { CDPSession, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { routeCode } from './route-code.ts';
import { DEVICES, openAt } from '../browser/tasks/place.ts';
import { seedMake } from '../browser/tasks/seeded.ts';
import { countBands, markBands, readTrace, traced, type BandUpdate } from './trace.ts';
import { browser, server } from '../browser/standing.ts';

/** What the screen beside the vat may cost: design, acceptance numbers 4.3. */
const CODE_KB = 180;
const FONTS_KB = 70;
const INTERACTIVE_MS = 2000;
const LAYOUT_SHIFT = 0.02;
const BAND_UPDATE_MS = 8;
const SLOWER = 4;
/** Within so much of the quickest yardstick nothing else had the processor: our own choice. */
const UNDISTURBED = 1.2;
/** Enough updates that one moment of the machine is not the one in twenty; each pot is watched for less than the 90 minutes after which its silence is asked about. */
const POTS = ['Cedar', 'Rowan', 'Alder'];
const LEAPS = 20;
/** How often the clock alone asks for a new forecast (`use-batch.ts`). */
const EVERY_MS = 120_000;

const phone = DEVICES[0] ?? { name: 'phone', size: { width: 390, height: 844 }, hasTouch: true };
const kB = (bytes: number): number => bytes / 1000;

/** Everything that the page fetched, as it would be sent: compressed where the server compresses. */
function fetched(page: Page): { readonly path: string; readonly bytes: Promise<Buffer> }[] {
  const seen: { path: string; bytes: Promise<Buffer> }[] = [];
  page.on('response', (response) => {
    if (response.ok()) seen.push({ path: new URL(response.url()).pathname, bytes: response.body().catch(() => Buffer.alloc(0)) }); // prettier-ignore
  });
  return seen;
}

async function sum(
  files: readonly { readonly path: string; readonly bytes: Promise<Buffer> }[],
  kind: RegExp,
  packed: boolean,
): Promise<number> {
  const own = files.filter(({ path }) => kind.test(path));
  const sizes = await Promise.all(own.map(async ({ bytes }) => (packed ? brotliCompressSync(await bytes).length : (await bytes).length))); // prettier-ignore
  return kB(sizes.reduce((all, size) => all + size, 0));
}

const slow = async (page: Page): Promise<CDPSession> => {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  return session;
};

describe('the screen beside the vat costs little', () => {
  it(`in code at most ${CODE_KB} kB compressed for its first answer, in fonts at most ${FONTS_KB} kB`, async () => {
    const make = await seedMake({ url: server.url, stepId: 'ripen' });
    const { page, context } = await openAt({ browser, place: phone, at: make.at });
    const files = fetched(page);
    await page.goto(server.url + make.path);
    await page.locator('.vat-until').waitFor();
    const parts = routeCode('vat-screen');
    const code = parts.reduce((all, { kB: one }) => all + one, 0);
    const fonts = await sum(files, /\.woff2$/, false);
    const worker = await sum(files, /worker-.*\.js$/, true);
    // Nothing that the page fetched before its answer was forgotten in the sum.
    expect(parts.length).toBeGreaterThan(5);
    console.log(`vat route: code ${code.toFixed(1)} kB, of workers beside it ${worker.toFixed(1)} kB, fonts ${fonts.toFixed(1)} kB`); // prettier-ignore
    expect(code).toBeGreaterThan(50);
    expect(code).toBeLessThanOrEqual(CODE_KB);
    expect(fonts).toBeGreaterThan(0);
    expect(fonts).toBeLessThanOrEqual(FONTS_KB);
    await context.close();
  });

  it(`in patience: installed, the next action is there within ${INTERACTIVE_MS} ms on a processor ${SLOWER} times slower, and nothing moves under the finger`, async () => {
    const make = await seedMake({ url: server.url, stepId: 'heal', name: 'Birch' });
    const { page, context } = await openAt({ browser, place: phone, at: make.at });
    await page.goto(server.url + make.path);
    await page.locator('.vat-until').waitFor();
    await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    await page.waitForTimeout(1500);
    await slow(page);
    const tookMs: number[] = [];
    const shifts: number[] = [];
    for (let visit = 0; visit < 5; visit++) {
      const from = Date.now();
      await page.reload({ waitUntil: 'commit' });
      await page.locator('.vat-main').waitFor();
      await page.evaluate(() => new Promise((done) => setTimeout(done, 0)));
      tookMs.push(Date.now() - from);
      await page.locator('.vat-until').waitFor();
      await page.waitForTimeout(2500);
      shifts.push(await layoutShift(page));
    }
    const middle = [...tookMs].sort((a, b) => a - b)[2] ?? Number.NaN;
    console.log(
      `interactive after ${tookMs.join(', ')} ms; layout shift ${shifts.map((one) => one.toFixed(4)).join(', ')}`,
    );
    expect(middle).toBeLessThanOrEqual(INTERACTIVE_MS);
    expect(Math.max(...shifts)).toBeLessThanOrEqual(LAYOUT_SHIFT);
    await context.close();
  });

  it(`in work: a new band takes the page's own thread at most ${BAND_UPDATE_MS} ms, nineteen times in twenty`, async () => {
    const bands: BandUpdate[] = [];
    for (const name of POTS) bands.push(...(await bandsOf(name)));
    expect(bands.length).toBeGreaterThanOrEqual(100);
    const told = (values: readonly number[]): string => values.map((ms) => ms.toFixed(1)).join(', ');
    console.log(`band updates: ${bands.length}, work ${told(bands.map(({ workMs }) => workMs))} ms; yardsticks ${told(bands.map(({ yardstickMs }) => yardstickMs))} ms; with what other programs took ${told(bands.map(({ wallMs }) => wallMs))} ms`); // prettier-ignore
    // A machine that others share is slower at times: what counts was done while it was as quick as it can be.
    const quickest = Math.min(...bands.map(({ yardstickMs }) => yardstickMs).filter((ms) => ms > 0));
    const undisturbed = bands.filter(({ yardstickMs }) => yardstickMs > 0 && yardstickMs <= UNDISTURBED * quickest);
    const [all, quiet] = [bands, undisturbed].map((some) => some.map(({ workMs }) => workMs).sort((a, b) => a - b));
    const at = (sorted: readonly number[] = [], share: number): number => sorted[Math.ceil(sorted.length * share) - 1] ?? Number.NaN; // prettier-ignore
    for (const [name, some] of [['all', all], ['undisturbed', quiet]] as const) console.log(`${name}, ${some?.length}: half of them at most ${at(some, 0.5).toFixed(1)} ms, nineteen in twenty at most ${at(some, 0.95).toFixed(1)} ms`); // prettier-ignore
    expect(undisturbed.length, 'too few undisturbed: run it again on a quieter machine').toBeGreaterThanOrEqual(20);
    expect(at(quiet, 0.95)).toBeLessThanOrEqual(BAND_UPDATE_MS);
  });
});

/** One pot's updates while its curd rests: every two minutes the clock alone asks for a new forecast, and two answers come. */
async function bandsOf(name: string): Promise<readonly BandUpdate[]> {
  const make = await seedMake({ url: server.url, stepId: 'rest-drained', name });
  const { page, context } = await openAt({ browser, place: phone, at: make.at });
  await markBands(page);
  await page.goto(server.url + make.path);
  await page.locator('.vat-until').waitFor();
  await page.waitForTimeout(4000);
  const before = await countBands(page);
  const events = await traced(page, async () => {
    for (let update = 0; update < LEAPS; update++) {
      // What else the leap in time sets going is over by then.
      await page.clock.fastForward(await page.evaluate((every) => every - 1500 - (Date.now() % every), EVERY_MS));
      // Asking the page is work for its thread too: not while it has work of its own.
      await page.waitForTimeout(4000);
      // A busy machine takes longer to answer.
      await expect.poll(() => countBands(page), { timeout: 10_000, interval: 2000 }).toBeGreaterThanOrEqual(before + 2 * (update + 1)); // prettier-ignore
    }
  });
  await context.close();
  return readTrace(events);
}

/** The sum of layout shifts since the page was opened, without those that a tap asked for. */
function layoutShift(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((done) => {
        let total = 0;
        const count = (list: PerformanceObserverEntryList): void => {
          for (const entry of list.getEntries()) {
            const shift = entry as PerformanceEntry & { value: number; hadRecentInput: boolean };
            if (!shift.hadRecentInput) total += shift.value;
          }
        };
        new PerformanceObserver(count).observe({ type: 'layout-shift', buffered: true });
        setTimeout(() => done(total), 300);
      }),
  );
}
