import type { Browser, BrowserContext, Page } from 'playwright-core';
import { SIZES, visit, type Visit } from './chromium.ts';
import { button, goOn, planAndGetReady, tickAll, usual, walkTo } from './maker.ts';

/** What the bell's tests see and hear of a page, and a make whose bell is soon to ring. */

export const due = (page: Page) => page.locator('.bell-due');
export const act = (page: Page) => page.locator('.bell-act');
export const now = (page: Page): Promise<number> => page.evaluate(() => Date.now());

/** Every tone that the page starts, by its first frequency and the page's clock. */
export interface Tone {
  readonly hz: number;
  readonly at: number;
}
export async function spyOnSound(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const heard: Tone[] = [];
    const swept: number[] = [];
    // What is on screen before anything taps: the driver's own looking counts as a tap to the browser.
    const silent: { at: number; gone: number | null } = { at: -1, gone: null };
    Object.assign(globalThis, { heard, swept, silent });
    new MutationObserver(() => {
      const isShown = document.querySelector('.bell-arm') !== null;
      if (isShown && silent.at < 0) silent.at = performance.timeOrigin + performance.now();
      if (!isShown && silent.at >= 0) silent.gone ??= performance.timeOrigin + performance.now();
    }).observe(document, { childList: true, subtree: true });
    globalThis.AudioContext = class extends AudioContext {
      override createOscillator(): OscillatorNode {
        const tone = super.createOscillator();
        const set = tone.frequency.setValueAtTime.bind(tone.frequency);
        tone.frequency.setValueAtTime = (hz, at) => {
          heard.push({ hz, at: Date.now() });
          return set(hz, at);
        };
        const sweep = tone.frequency.exponentialRampToValueAtTime.bind(tone.frequency);
        tone.frequency.exponentialRampToValueAtTime = (hz, at) => {
          swept.push(hz);
          return sweep(hz, at);
        };
        return tone;
      }
    };
  });
}
export const heard = (page: Page): Promise<Tone[]> =>
  page.evaluate(() => (globalThis as unknown as { heard: Tone[] }).heard);
export const swept = (page: Page): Promise<number[]> =>
  page.evaluate(() => (globalThis as unknown as { swept: number[] }).swept);
/** Whether the page said that its bell was silent, and whether it has stopped saying so. */
export const saidSilent = (page: Page): Promise<{ at: number; gone: number | null }> =>
  page.evaluate(() => (globalThis as unknown as { silent: { at: number; gone: number | null } }).silent);

/** Seconds pass one by one, as they do on a page in sight. */
export async function watch(page: Page, seconds: number): Promise<void> {
  for (let second = 0; second < seconds; second++) {
    await page.clock.runFor(1000);
    await page.waitForTimeout(20);
  }
}

export async function readTooHot(page: Page): Promise<void> {
  await button(page, 'Note a reading').click();
  await page.clock.fastForward(500);
  await button(page, 'Temperature, °C, type it').click();
  await page.keyboard.type('520');
  await page.keyboard.press('Enter');
  await button(page, /^Keep 52/).click();
  await page.clock.fastForward(500);
}

/** A fresh make whose ripening has just begun. */
export async function ripening(input: { readonly browser: Browser; readonly url: string }): Promise<Visit> {
  const { browser, url } = input;
  const seen = await visit({ browser, size: SIZES.phone });
  await spyOnSound(seen.context);
  await planAndGetReady(seen.page, { url, pHMeter: false });
  await tickAll(seen.page);
  await goOn(seen.page);
  await walkTo(seen.page, 'Let it ripen', usual);
  return seen;
}
