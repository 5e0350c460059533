import { expect } from 'vitest';
import type { Page } from 'playwright-core';
import { violations } from '../axe.ts';

/** A hand that finds things as a person does, by what they are and say, and counts its taps. */
export class Hand {
  readonly page: Page;
  #taps: string[] = [];

  constructor(page: Page) {
    this.page = page;
  }

  /** What was tapped since the last count began. */
  get taps(): readonly string[] {
    return this.#taps;
  }

  countFromHere(): void {
    this.#taps = [];
  }

  /** One tap on a button of this name; the half second after it passes, as a wet finger's does. */
  async tap(name: string | RegExp): Promise<void> {
    await this.page.getByRole('button', { name }).first().click();
    this.#taps.push(String(name));
    await this.page.clock.fastForward(500);
  }

  /** One tap on a link of this name. */
  async follow(name: string | RegExp): Promise<void> {
    await this.page.getByRole('link', { name }).first().click();
    this.#taps.push(String(name));
  }

  /** At most so many taps since the count began; the log of them is the failure's message. */
  atMost(taps: number): void {
    expect(this.#taps.length, this.#taps.join(' · ')).toBeLessThanOrEqual(taps);
  }
}

/** Waits until the page says this; where it never does, the failure tells what it said instead. */
export async function says(page: Page, words: RegExp): Promise<void> {
  const said = page.getByText(words).first();
  await said.waitFor().catch(async (error: unknown) => {
    throw new Error(`${String(words)} was never said; the page says: ${await page.innerText('body')}`, {
      cause: error,
    });
  });
}

/** Nothing for axe, no way to scroll sideways, and no catalogue code or broken number anywhere. */
export async function isInOrder(page: Page, more: readonly string[] = []): Promise<void> {
  expect((await violations(page, more)).join('\n')).toBe('');
  const found = await page.evaluate(() => ({
    wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    text: document.body.innerText,
  }));
  expect(found.wide).toBeLessThanOrEqual(0);
  expect(found.text).not.toMatch(/\bNaN\b|undefined|Infinity|\b[a-z]+:[a-z]+\.[a-z]/);
}

/** The stricter rules of the vat: targets, and contrast of seven to one. */
export const AT_THE_VAT = ['target-size', 'color-contrast-enhanced'];
