import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import { AT_THE_VAT, Hand, isInOrder } from '../tasks/hand.ts';
import { DEVICES, HARDER, openAt, type Place } from '../tasks/place.ts';
import { misfits } from './fits.ts';
import { goOnTo, SCREENS } from './screens.ts';

/** What went wrong is kept as a picture here; every screen is, where `VATSIDE_SHOTS` names a folder. */
const FAILED = fileURLToPath(new URL('../../../.build/conditions/', import.meta.url));
const SHOTS = process.env['VATSIDE_SHOTS'];
const NARROW = '320 px';
/** Letters of a failure that are told. */
const MOST_TOLD = 600;

/** A place, and what is put on top of it at each screen, with nothing loaded anew: another width, forced colours. */
interface Hardship {
  readonly place: Place;
  readonly besides: Place | null;
}

const named = (name: string): Place => {
  const place = HARDER.find((one) => one.name === name);
  if (place === undefined) throw new Error(`no condition is called ${name}`);
  return place;
};

/**
 * The walks through the screens under these conditions: on a phone, which has the least room; in the whole matrix
 * (`npm run browser:all`) on every device besides. A condition that the page takes on as it stands goes along with another.
 */
export function walksUnder(pairs: readonly (readonly [string, string?])[]): readonly (readonly [string, Hardship])[] {
  const hardships = pairs.flatMap(([first, second]): readonly Hardship[] => {
    const place = named(first);
    const besides = second === undefined ? null : named(second);
    if (process.env['VATSIDE_MATRIX'] !== 'all') return [{ place, besides }];
    const on = (one: Place, device: Place): Place => ({ ...one, ...device, name: `${one.name}, ${device.name}` });
    // The narrow phone is a device of its own.
    const larger = DEVICES.slice(1).map((device) => ({ place: on(place, device), besides: besides === null || besides.name === NARROW ? null : on(besides, device) })); // prettier-ignore
    return [{ place, besides }, ...larger];
  });
  return hardships.map((one) => [
    one.besides === null ? one.place.name : `${one.place.name}, then ${one.besides.name}`,
    one,
  ]);
}

/** Goes to every screen once, each from the one before, and tells what is wrong there. */
export async function walkScreens(input: {
  readonly browser: Browser;
  readonly url: string;
  readonly hardship: Hardship;
  readonly at: number;
}): Promise<void> {
  const { browser, url, at } = input;
  const { place, besides } = input.hardship;
  const opened = await openAt({ browser, place, at });
  const { page, context, complaints } = opened;
  const hand = new Hand(page);
  await page.goto(url);
  await page.locator(SCREENS[0]?.shows ?? 'h1').waitFor({ timeout: 60_000 });
  if (place.isOffline === true) {
    await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    await context.setOffline(true);
  }
  const places = besides === null ? [place] : [place, { ...place, name: besides.name, size: besides.size, forcedColours: besides.forcedColours === true }]; // prettier-ignore
  for (const one of [...places].reverse()) {
    await putUnder(page, one);
    await isUnder(page, one);
  }
  const wrong: string[] = [];
  for (const screen of SCREENS) {
    const began = Date.now();
    const went = await goOnTo(hand, screen).then(() => [], toldOf);
    wrong.push(...went.map((one) => `${screen.name}: ${one}`));
    for (const one of places) {
      if (one !== place) await putUnder(page, one);
      const found = await wrongAt(page, screen.isVat === true);
      wrong.push(...found.map((what) => `${one.name}, ${screen.name}: ${what}`));
      const folder = SHOTS ?? (found.length + went.length > 0 ? FAILED : null);
      if (folder !== null) await picture(page, { folder, name: `${one.name}-${screen.name}` });
    }
    if (besides !== null) await putUnder(page, place);
    if (SHOTS !== undefined) console.log(`${place.name} ${screen.name}: ${Date.now() - began} ms`);
  }
  expect(wrong).toEqual([]);
  expect(complaints).toEqual([]);
  await context.close();
}

/** Gives the page another width or the reader's own colours, and lets it settle. */
async function putUnder(page: Page, { size, forcedColours }: Place): Promise<void> {
  await page.setViewportSize({ ...size });
  await page.emulateMedia({ forcedColors: forcedColours === true ? 'active' : 'none' });
  await page.waitForTimeout(100);
}

const toldOf = (error: unknown): string[] => [(error instanceof Error ? error.message : String(error)).slice(0, MOST_TOLD)]; // prettier-ignore

async function wrongAt(page: Page, isVat: boolean): Promise<string[]> {
  const fits = await misfits(page).catch(toldOf);
  const order = await isInOrder(page, isVat ? AT_THE_VAT : []).then(() => [], toldOf);
  return [...fits, ...order];
}

/** The condition holds: a walk in broad daylight would pass for any of them. */
async function isUnder(page: Page, place: Place): Promise<void> {
  const found = await page.evaluate(() => ({
    textPx: parseFloat(getComputedStyle(document.documentElement).fontSize),
    isForced: matchMedia('(forced-colors: active)').matches,
    isOffline: !navigator.onLine,
    light: document.documentElement.dataset['light'],
    width: innerWidth,
  }));
  expect(found).toEqual({
    textPx: (16 * (place.textPercent ?? 100)) / 100,
    isForced: place.forcedColours === true,
    isOffline: place.isOffline === true,
    light: place.light ?? 'day',
    width: place.size.width,
  });
}

async function picture(page: Page, to: { readonly folder: string; readonly name: string }): Promise<void> {
  mkdirSync(to.folder, { recursive: true });
  await page.screenshot({ path: `${to.folder}/${to.name}.png` });
}
