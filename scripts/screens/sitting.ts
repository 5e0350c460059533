import type { BrowserContext, Page } from 'playwright-core';
import type { Place } from '../../tests/browser/tasks/place.ts';
import type { TestServer } from '../../tests/browser/server.ts';

/** The sizes that a screen is pictured at. */
export const SIZES = {
  phone: { width: 390, height: 844 },
  small: { width: 320, height: 700 },
  tablet: { width: 820, height: 1180 },
  wide: { width: 1180, height: 820 },
  desk: { width: 1280, height: 900 },
} as const;
export type SizeName = keyof typeof SIZES;

/** What is held beside a vat, and what the other screens are read on. */
export const VAT_SIZES: readonly SizeName[] = ['phone', 'tablet', 'wide', 'desk'];
export const OTHER_SIZES: readonly SizeName[] = ['phone', 'desk'];
export const PHONE: readonly SizeName[] = ['phone'];

/** Where a sitting begins: the clock, and the page to open. */
export interface Beginning {
  readonly at: number;
  readonly path: string;
}

/** One state of a screen: its file's name, what one sees in it, and how it is reached from the state before it. */
export interface State {
  readonly name: string;
  readonly sees: string;
  readonly reach?: (page: Page, context: BrowserContext) => Promise<void>;
  /** Brings what is meant into sight, once more at every size. */
  readonly look?: (page: Page) => Promise<void>;
}

/** States that follow from one another on one page, in a dairy of their own. */
export interface Sitting {
  readonly sizes: readonly SizeName[];
  readonly place?: Partial<Place>;
  /** The browser keeps no parts of the page, as on a plain address of the house's network. */
  readonly keepsNothing?: boolean;
  /** The server has a door to the network, under this name. */
  readonly sharedAs?: typeof SHARED_AS;
  readonly arrange: (server: TestServer) => Promise<Beginning>;
  /** Before the page's code runs. */
  readonly before?: (context: BrowserContext) => Promise<unknown>;
  readonly states: readonly State[];
}

/** A name of a machine on the house's network; the browser that takes the pictures finds this one under it. */
export const SHARED_AS = 'dairy.local';

export interface Group {
  readonly title: string;
  readonly sittings: readonly Sitting[];
}

/** One tap, and the half second in which the same button hears no second one. */
export async function tap(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole('button', { name }).first().click();
  await page.clock.fastForward(500);
}

/** Notes a temperature by its digits, kept where the pad doubts it. */
export async function typeTemperature(page: Page, digits: string): Promise<void> {
  await tap(page, 'Note a reading');
  await tap(page, /^Temperature, °C, type it/);
  await page.keyboard.type(digits);
  await page.keyboard.press('Enter');
  await page.clock.fastForward(500);
  const keep = page.getByRole('button', { name: /^Keep \d/ });
  if ((await keep.count()) > 0) await tap(page, /^Keep \d/);
  await page.waitForTimeout(1500);
}

/** Brings a heading or a text to the top of the page, under what sticks there. */
export const lookAt =
  (selector: string) =>
  async (page: Page): Promise<void> => {
    await page
      .locator(selector)
      .first()
      .evaluate((one) => {
        one.scrollIntoView({ block: 'start' });
        scrollBy(0, -80);
      });
  };
