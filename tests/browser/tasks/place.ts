import type { Browser, BrowserContext, Page } from 'playwright-core';
import { NINE } from '../../walked-make.ts';

/** Where and how a task is done: the device in the hands, and what makes it harder. */
export interface Place {
  readonly name: string;
  readonly size: { readonly width: number; readonly height: number };
  readonly hasTouch: boolean;
  readonly light?: 'steam' | 'dark';
  readonly forcedColours?: boolean;
  readonly textPercent?: number;
  readonly isOffline?: boolean;
}

/** The three devices of the usability script. */
export const DEVICES: readonly Place[] = [
  { name: 'phone', size: { width: 390, height: 844 }, hasTouch: true },
  { name: 'tablet', size: { width: 1180, height: 820 }, hasTouch: true },
  { name: 'desk', size: { width: 1280, height: 900 }, hasTouch: false },
];

/** What makes it harder, each on a phone: it has the least room. */
export const HARDER: readonly Place[] = [
  { name: 'offline', size: { width: 390, height: 844 }, hasTouch: true, isOffline: true },
  { name: '320 px', size: { width: 320, height: 700 }, hasTouch: true },
  { name: 'Dark', size: { width: 390, height: 844 }, hasTouch: true, light: 'dark' },
  { name: 'Steam', size: { width: 390, height: 844 }, hasTouch: true, light: 'steam' },
  { name: 'forced colours', size: { width: 390, height: 844 }, hasTouch: true, forcedColours: true },
  { name: '200 % text', size: { width: 390, height: 844 }, hasTouch: true, textPercent: 200 },
];

/**
 * The two devices that stand beside a vat; the desk, which is as wide as the tablet, and everything harder too where the whole
 * matrix is asked for (`npm run browser:all`).
 */
export const PLACES: readonly Place[] =
  process.env['VATSIDE_MATRIX'] === 'all' ? [...DEVICES, ...HARDER] : DEVICES.filter(({ hasTouch }) => hasTouch);

export interface Opened {
  readonly context: BrowserContext;
  readonly page: Page;
  /** What the page complained of since it was opened, but for a network that is not there. */
  readonly complaints: string[];
}

/** A fresh profile at a place; the clock stands at `at` and is moved, not waited for. */
export async function openAt(input: {
  readonly browser: Browser;
  readonly place: Place;
  readonly at?: number;
  /** Done to the profile before its first page. */
  readonly before?: (context: BrowserContext) => Promise<void>;
  /** The browser keeps no parts of the page, as on a plain address of the house's network. */
  readonly keepsNothing?: boolean;
}): Promise<Opened> {
  const { browser, place, at = NINE, before, keepsNothing = false } = input;
  const context = await browser.newContext({
    viewport: { ...place.size },
    hasTouch: place.hasTouch,
    locale: 'en-GB',
    timezoneId: 'UTC',
    reducedMotion: 'reduce',
    ...(keepsNothing ? { serviceWorkers: 'block' as const } : {}),
    ...(place.forcedColours === true ? { forcedColors: 'active' as const } : {}),
  });
  context.setDefaultTimeout(20_000);
  await context.addInitScript(
    ({ light }) => {
      if (light !== undefined && localStorage.getItem('vatside.device') === null) {
        localStorage.setItem('vatside.device', JSON.stringify({ light }));
        localStorage.setItem('vatside.vat-light', light);
      }
    },
    { light: place.light },
  );
  await before?.(context);
  const page = await context.newPage();
  if (place.textPercent !== undefined) {
    // The browser's own setting of a reader who wants larger type.
    const session = await context.newCDPSession(page);
    await session.send('Page.setFontSizes', { fontSizes: { standard: (16 * place.textPercent) / 100 } });
  }
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    const text = message.text();
    if (message.type() === 'error' && !/ERR_INTERNET_DISCONNECTED|Failed to fetch/.test(text)) complaints.push(text);
  });
  await page.clock.install({ time: at });
  return { context, page, complaints };
}

/** Goes to an address, and takes the network away once the page is kept on the device, where the place has none. */
export async function goTo(input: {
  readonly opened: Opened;
  readonly place: Place;
  readonly url: string;
}): Promise<void> {
  const { opened, place, url } = input;
  await opened.page.goto(url);
  if (place.isOffline !== true) return;
  await opened.page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
  await opened.page.waitForTimeout(1000);
  await opened.context.setOffline(true);
}
