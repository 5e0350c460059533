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

/**
 * Where the screens are walked under these conditions: on a phone, which has the least room; in the whole matrix
 * (`npm run browser:all`) on every device besides.
 */
export function placesUnder(names: readonly string[]): readonly (readonly [string, Place])[] {
  const places = HARDER.filter(({ name }) => names.includes(name));
  const more = process.env['VATSIDE_MATRIX'] !== 'all' ? [] : places.filter(({ name }) => name !== NARROW).flatMap((place) => DEVICES.slice(1).map((device) => ({ ...place, ...device, name: `${place.name}, ${device.name}` }))); // prettier-ignore
  return [...places, ...more].map((place) => [place.name, place] as const);
}

/** Goes to every screen once, each from the one before, and tells what is wrong there. */
export async function walkScreens(input: {
  readonly browser: Browser;
  readonly url: string;
  readonly place: Place;
  readonly at: number;
}): Promise<void> {
  const { browser, url, place, at } = input;
  const opened = await openAt({ browser, place, at });
  const { page, context, complaints } = opened;
  const hand = new Hand(page);
  await page.goto(url);
  await page.locator(SCREENS[0]?.shows ?? 'h1').waitFor({ timeout: 60_000 });
  if (place.isOffline === true) {
    await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    await context.setOffline(true);
  }
  await isUnder(page, place);
  const wrong: string[] = [];
  for (const screen of SCREENS) {
    const began = Date.now();
    const found: string[] = [];
    try {
      await goOnTo(hand, screen);
      found.push(...(await misfits(page)));
      await isInOrder(page, screen.isVat === true ? AT_THE_VAT : []);
    } catch (error) {
      found.push((error instanceof Error ? error.message : String(error)).slice(0, 600));
    }
    if (found.length > 0) wrong.push(`${screen.name}: ${found.join('; ')}`);
    if (found.length > 0) await picture(page, { folder: FAILED, name: `${place.name}-${screen.name}` });
    if (SHOTS !== undefined) {
      await picture(page, { folder: SHOTS, name: `${place.name}-${screen.name}` });
      console.log(`${place.name} ${screen.name}: ${Date.now() - began} ms`);
    }
  }
  expect(wrong).toEqual([]);
  expect(complaints).toEqual([]);
  await context.close();
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
