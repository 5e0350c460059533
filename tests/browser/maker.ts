import { expect } from 'vitest';
import type { Page } from 'playwright-core';

/** What a maker does at the vat, on the real page: plan, get ready, go on, note, weigh. The page's clock is moved, not waited for. */

const MORNING = new Date('2026-03-04T08:00:00Z');
export const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

/** Plans 12 litres as a first visitor would, and gets ready. */
export async function planAndGetReady(
  page: Page,
  input: { readonly url: string; readonly pHMeter: boolean },
): Promise<void> {
  await page.clock.install({ time: MORNING });
  await page.goto(`${input.url}/plan`);
  await page.getByRole('textbox', { name: 'Milk', exact: true }).fill('12');
  await page.getByRole('textbox', { name: 'Milk that one packet treats' }).fill('12');
  await page.getByRole('textbox', { name: 'Pot', exact: true }).fill('16');
  if (input.pHMeter) await haveMeter(page);
  await page.getByText('Light the burner at').waitFor();
  // Pressed too early, the bar says that it waits for the forecast; a person presses again.
  for (let tries = 0; tries < 20 && !page.url().includes('/vat/'); tries++) {
    await button(page, 'Get ready')
      .click({ timeout: 1000 })
      .catch(() => undefined);
    await page.waitForURL(/\/vat\//, { timeout: 1500 }).catch(() => undefined);
  }
  await button(page, 'Start the make').waitFor();
  await page.locator('.pause').waitFor();
}

/** One tap on what is assumed says that there is a meter. */
async function haveMeter(page: Page): Promise<void> {
  const meter = page.getByLabel(/pH meter/i).first();
  await meter.waitFor();
  if ((await meter.getAttribute('type')) === 'checkbox' || (await meter.getAttribute('type')) === 'radio')
    await meter.check();
  else await meter.selectOption({ label: 'yes' });
}

/** Minutes pass; the page's clock and the forecast catch up. */
export async function later(page: Page, minutes: number): Promise<void> {
  await page.clock.fastForward(Math.round(minutes * 60_000));
  await page.getByText(/Being worked out|The forecast is being worked out/).waitFor({ state: 'detached' });
}

export const verb = (page: Page) => page.locator('h1').first().innerText();

/** Presses the filled action; a pause before the next step is worked off first, item by item. */
export async function goOn(page: Page): Promise<void> {
  await page.keyboard.press('Enter');
  await page.clock.fastForward(500);
}

export async function tickAll(page: Page): Promise<void> {
  for (let guard = 0; guard < 40; guard++) {
    const open = page.locator('.pause-item[aria-pressed=false]').filter({ hasNotText: 'water reads' });
    const left = await open.count();
    if (left === 0) return;
    await open.first().click({ timeout: 2000 }).catch(() => undefined); // prettier-ignore
    await page.clock.fastForward(500);
    // A box that moved away under the finger is tapped again, as a hand would; too soon, that would take the tick back.
    await expect.poll(() => open.count(), { timeout: 6000 }).not.toBe(left).catch(() => undefined); // prettier-ignore
  }
  const left = await page.locator('.pause-item[aria-pressed=false]').allInnerTexts();
  throw new Error(`the pause before "${await verb(page)}" is never worked off; left: ${left.join('; ')}`);
}

/** Where the make stands: its stage, step and main action. */
const place = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const text = (selector: string): string => document.querySelector(selector)?.textContent ?? '';
    const stage = document.querySelector<HTMLElement>('.vat')?.dataset['stage'] ?? '';
    return `${stage} ${text('.vat-strip .pair')} ${text('.vat-main')}`;
  });

/** Walks the make to the step of this name, ending each step after some minutes. */
export async function walkTo(page: Page, name: string, minutes: (verb: string) => number): Promise<void> {
  for (let guard = 0; guard < 60; guard++) {
    const here = await verb(page);
    if (here === name) return;
    const isPause = (await page.locator('.pause').count()) > 0;
    if (isPause) await tickAll(page);
    else await later(page, minutes(here));
    const before = await place(page);
    await goOn(page);
    await expect.poll(() => place(page), { timeout: 5000 }).not.toBe(before);
  }
  throw new Error(`the make never came to "${name}"; it stands at "${await verb(page)}"`);
}

const MINUTES: Readonly<Record<string, number>> = {
  'Warm the milk': 30, 'Add the culture': 4, 'Let it ripen': 45, 'Add the calcium': 2, 'Add the rennet': 2, 'Leave it to set': 14,
  'Cut the curd': 8, 'Let it heal': 7, 'Stir, slowly': 25, 'Let it sink': 5, 'Draw off whey': 6, 'Wash with hot water': 8,
  'Stir in the warm': 10, 'Rest in the whey': 45, 'Drain and weigh': 12, 'Keep warm and turn': 50, 'Stretch in hot water': 12,
  'Shape the balls': 12, 'Cool in ice water': 25, 'Into the brine': 45, 'Pack and weigh': 10, 'Into the fridge': 2,
}; // prettier-ignore
export const usual = (name: string): number => MINUTES[name] ?? 5;

/** Notes a temperature or a pH by two tiles; three taps from the card. */
export async function note(page: Page, quantity: string, coarse: string, fine: string): Promise<number> {
  let taps = 0;
  const tap = async (name: string | RegExp): Promise<void> => {
    await button(page, name).first().click();
    taps += 1;
    await page.clock.fastForward(500);
  };
  await tap('Note a reading');
  await tap(`${quantity} ${coarse}`);
  await tap(fine);
  return taps;
}

/** Weighs the curd or the cheese on the pad. */
export async function weigh(page: Page, tiles: { readonly coarse: string; readonly fine: string }): Promise<void> {
  await button(page, 'Note a reading').click();
  await page.clock.fastForward(500);
  await button(page, 'Weight').click();
  await page.clock.fastForward(500);
  for (let guard = 0; guard < 6 && (await button(page, `Weight, kg ${tiles.coarse}`).count()) === 0; guard++) {
    await button(page, 'Weight, kg, lower').click();
    await page.clock.fastForward(500);
  }
  await button(page, `Weight, kg ${tiles.coarse}`).click();
  await page.clock.fastForward(500);
  await button(page, tiles.fine).click();
  await page.clock.fastForward(500);
}
