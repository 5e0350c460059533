import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';

const PLACES = [
  process.env['VATSIDE_CHROMIUM'],
  '/usr/bin/chromium-headless-shell',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/**
 * Starts a real Chromium.
 * @param more switches besides the usual ones
 * @throws Error with one line saying what to install where none is found; a run without a browser is a failed run
 */
export async function launchChromium(more: readonly string[] = []): Promise<Browser> {
  const executablePath = PLACES.find((place) => place !== undefined && place !== '' && existsSync(place));
  if (executablePath === undefined) {
    throw new Error(
      'The browser tests need Chromium: install the package "chromium" (Debian: apt-get install chromium) or set VATSIDE_CHROMIUM to a Chromium or Chrome binary.',
    );
  }
  return chromium.launch({
    executablePath,
    // Without hinting a line breaks at the same word with and without a window: prints are alike.
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--font-render-hinting=none',
      ...more,
    ],
  });
}

/** The sizes that people hold: a phone, a tablet on its side, a desk. */
export const SIZES = {
  phone: { width: 390, height: 844 },
  small: { width: 360, height: 740 },
  tablet: { width: 820, height: 1180 },
  desk: { width: 1280, height: 900 },
} as const;

/** The lights that a screen is looked at in at every size: each in the whole run; else Day alone, and the walks of `conditions` do the rest. */
export const LIGHTS =
  process.env['VATSIDE_MATRIX'] === 'all' ? (['day', 'steam', 'dark'] as const) : (['day'] as const);

/** The sizes of what differs little between them: a tablet's only in the whole run. */
export const DEVICES_MOST_UNLIKE =
  process.env['VATSIDE_MATRIX'] === 'all' ? (['phone', 'tablet', 'desk'] as const) : (['phone', 'desk'] as const);

/** What the usability script and the walks of `conditions` do at every size already: on a phone, and everywhere in the whole run. */
export const LEAST_ROOM =
  process.env['VATSIDE_MATRIX'] === 'all' ? (['phone', 'tablet', 'desk'] as const) : (['phone'] as const);

export interface Visit {
  readonly context: BrowserContext;
  readonly page: Page;
  /** What the page complained of since it was opened; empty on a good day. */
  readonly complaints: string[];
}

/** A first visit from a fresh profile, in UK English and London time unless another clock is wanted. */
export async function visit(input: {
  readonly browser: Browser;
  readonly size: { readonly width: number; readonly height: number };
  readonly light?: 'day' | 'steam' | 'dark';
  readonly units?: 'metric' | 'us';
  readonly language?: 'en-GB' | 'en-US';
}): Promise<Visit> {
  const { browser, size, light = 'day', units = 'metric', language = 'en-GB' } = input;
  const context = await browser.newContext({ viewport: { ...size }, locale: language, timezoneId: 'Europe/London' });
  await context.addInitScript((settings) => {
    if (localStorage.getItem('vatside.device') === null) localStorage.setItem('vatside.device', settings);
  }, JSON.stringify({ light, language, units }));
  context.setDefaultTimeout(20_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  return { context, page, complaints };
}
