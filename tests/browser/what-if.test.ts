import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { LEAST_ROOM, SIZES, visit } from './chromium.ts';
import { button, goOn, later, planAndGetReady, usual, verb, walkTo } from './maker.ts';
import { standAt } from './stand-at.ts';
import { browser, server } from './standing.ts';

const SHOTS = process.env['VATSIDE_SHOTS'];

/** Keeps a picture to look at, where a folder for them is named. */
async function picture(page: Page, name: string, fullPage = true): Promise<void> {
  if (SHOTS !== undefined) await page.screenshot({ path: `${SHOTS}/${name}.png`, fullPage });
}

async function clean(page: Page, width: number, more: readonly string[] = []): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  expect(await violations(page, more)).toEqual([]);
}

describe('what if, on the plan', () => {
  it.each(LEAST_ROOM)('%s: old and new stand together until one is kept', async (name) => {
    const size = SIZES[name];
    const { context, page, complaints } = await visit({ browser, size });
    await page.goto(`${server.url}/plan`);
    await page.getByText('The one answer that would narrow').waitFor();
    const start = await settled(page.locator('.start-line-time'));
    expect(await page.locator('.timeline-ghost, .plot-ghost, .held-bar, .was').count()).toBe(0);

    const milk = page.getByRole('textbox', { name: 'Milk', exact: true });
    await milk.fill('7');
    const bar = page.getByRole('group', { name: 'What is being tried' });
    await bar.waitFor();
    expect(await bar.innerText()).toMatch(/Milk 7\s*L, was 10\s*L\./);
    await expect.poll(() => page.locator('.start-line .was').count()).toBeGreaterThan(0);
    expect(await page.locator('.start-line').innerText()).toContain(`was ${start}`);
    expect(await page.locator('.plot-ghost path').count()).toBe(3);
    expect(await page.locator('.timeline-ghost').count()).toBeGreaterThan(3);
    await page.waitForTimeout(1500);
    await picture(page, `plan-${name}`);
    await picture(page, `plan-${name}-fold`, false);
    await clean(page, size.width);

    // A second change keeps what stood first.
    await page.getByRole('textbox', { name: 'Pot', exact: true }).fill('14');
    await expect.poll(() => bar.innerText()).toMatch(/Pot/);
    expect(await page.locator('.start-line').innerText()).toContain(`was ${start}`);

    await button(page, 'Go back').click();
    await expect.poll(() => page.locator('.start-line-time').innerText()).toBe(start);
    expect(await milk.inputValue()).toBe('10');
    expect(await page.locator('.timeline-ghost, .plot-ghost, .held-bar, .was').count()).toBe(0);

    await milk.fill('7');
    await bar.waitFor();
    await button(page, 'Keep the new').click();
    expect(await milk.inputValue()).toBe('7');
    expect(await page.locator('.timeline-ghost, .plot-ghost, .held-bar, .was').count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

/** To the warm rest under the whey, and the sheet open over it. */
async function atTheVat(page: Page): Promise<void> {
  await planAndGetReady(page, { url: server.url, pHMeter: false });
  await goOn(page);
  await walkTo(page, 'Rest in the whey', usual);
  await later(page, 10);
}

/** What stands there once the longer run of the forecast has changed it no more. */
async function settled(locator: Locator): Promise<string> {
  for (let last = ''; ; await locator.page().waitForTimeout(2000)) {
    const now = await locator.innerText();
    if (now === last) return now;
    last = now;
  }
}

async function openSheet(page: Page): Promise<void> {
  await page.keyboard.press('w');
  await page.getByRole('heading', { name: 'The whole make' }).waitFor();
  await button(page, 'What if').click();
  await page.clock.fastForward(500);
  await page.getByRole('heading', { name: 'What if' }).waitFor();
  await page.locator('.whatif-figures:not([data-stale])').waitFor();
}

const tap = async (page: Page, name: string): Promise<void> => {
  await button(page, name).click();
  await page.clock.fastForward(500);
};
const figure = (page: Page, name: string) =>
  page
    .locator('.whatif-figure')
    .filter({ hasText: new RegExp(`^${name}`) })
    .innerText();

describe('what if, at the vat', () => {
  it('on the phone: old and new bands and figures together, then done, and the make follows', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await atTheVat(page);
    await openSheet(page);
    expect(await page.locator('.plot-ghost, .timeline-ghost, .whatif .was').count()).toBe(0);
    expect(await page.locator('.whatif-acts .vat-main').isDisabled()).toBe(true);
    await clean(page, SIZES.phone.width, ['target-size']);

    // A cooler rest: later, and said so beside what it was.
    for (let taps = 0; taps < 6; taps++) await tap(page, 'less: Keep the resting curd at');
    await expect.poll(() => figure(page, 'It stretches')).toMatch(/\d\d:\d\d[\s\S]*(9 times in 10 between|hardly before)[\s\S]*was \d\d:\d\d, (9 times in 10|Expect)/); // prettier-ignore
    expect(await page.locator('.plot-ghost').count()).toBe(2);
    expect(await page.locator('.timeline-ghost').count()).toBeGreaterThan(2);
    // Each tap is answered; the last answer is the one to read.
    await expect.poll(() => page.getByRole('status').first().innerText()).toMatch(/Done about \d\d:\d\d instead of \d\d:\d\d/); // prettier-ignore
    expect(await page.getByRole('group', { name: 'Keep the resting curd at' }).innerText()).toMatch(/36\s*°C[\s\S]*was 39\s*°C/); // prettier-ignore
    await clean(page, SIZES.phone.width, ['target-size']);
    await picture(page, 'vat-phone');
    await picture(page, 'vat-phone-fold', false);

    // Back to where it stands: no change, no ghost. Something being tried is not taken away by the clock.
    for (let taps = 0; taps < 6; taps++) await tap(page, 'more: Keep the resting curd at');
    await expect.poll(() => page.locator('.plot-ghost, .timeline-ghost').count()).toBe(0);
    for (let taps = 0; taps < 4; taps++) await tap(page, 'less: Keep the resting curd at');
    await page.clock.fastForward(60_000);
    await page.locator('.plot-ghost').first().waitFor();

    await page.locator('.whatif-figures:not([data-stale])').waitFor();
    await tap(page, 'Do it');
    await expect.poll(() => verb(page)).toBe('Rest in the whey');
    await page.getByText(/Noted: Keep the resting curd at 37\s*°C instead of 39\s*°C/).waitFor();
    await openSheet(page);
    expect(await page.getByRole('group', { name: 'Keep the resting curd at' }).innerText()).toMatch(/37\s*°C/);
    await tap(page, 'Back to the vat');
    await page.keyboard.press('w');
    await page.getByRole('link', { name: 'Open the record' }).click();
    await page.getByRole('heading', { name: 'What happened' }).waitFor();
    const record = await page.locator('.record').innerText();
    expect(record).toMatch(/Choice: Keep the resting curd at 37\s*°C instead of 39\s*°C/);
    expect(record).not.toMatch(/NaN|undefined|Infinity|vat:|record:|solve:/);
    expect(complaints).toEqual([]);
    await context.close();
  }, 600_000);

  it.each(LEAST_ROOM.filter((name) => name !== 'phone'))(
    '%s: fits, and nothing for axe',
    async (name) => {
      const size = SIZES[name];
      const { context, page, complaints } = await visit({ browser, size, ...(name === 'desk' ? { units: 'us' } : {}) });
      await standAt(page, { url: server.url, name, stepId: 'rest-in-whey', minutes: 10, pHMeter: false });
      await openSheet(page);
      for (let taps = 0; taps < 7; taps++) await tap(page, 'less: Keep the resting curd at');
      await expect.poll(() => page.locator('.plot-ghost').count(), { timeout: 10_000 }).toBe(2);
      await tap(page, '6 more').catch(() => undefined);
      await clean(page, size.width, ['target-size']);
      await picture(page, `vat-${name}`);
      if (name === 'desk') expect(await page.locator('.whatif-settings').innerText()).toMatch(/°F/);
      expect(complaints).toEqual([]);
      await context.close();
    },
    600_000,
  );
});
