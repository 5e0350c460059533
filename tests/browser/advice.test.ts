import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { DEVICES_MOST_UNLIKE, SIZES, visit } from './chromium.ts';
import { button, goOn, later, verb } from './maker.ts';
import { standAt } from './stand-at.ts';
import { browser, server } from './standing.ts';
import { says } from './tasks/hand.ts';

const SHOTS = process.env['VATSIDE_SHOTS'];
const NUMBERS = /Done about \d\d:\d\d.*9 times in 10 between \d\d:\d\d and \d\d:\d\d/;

/** Keeps a picture to look at, where a folder for them is named. */
async function picture(page: Page, name: string): Promise<void> {
  if (SHOTS !== undefined) await page.screenshot({ path: `${SHOTS}/${name}.png`, fullPage: true });
}

/** A tap, and the half second after which the next one counts. */
async function tap(page: Page, name: string | RegExp): Promise<void> {
  await button(page, name).first().click();
  await page.clock.fastForward(500);
}

/** The choices as they stand, once they answer what was asked last. */
async function choices(page: Page): Promise<string[]> {
  await page.getByRole('heading', { name: 'What you can do' }).waitFor();
  await page.locator('.choices[aria-busy=false]').waitFor();
  return (await page.locator('.choices[aria-busy=false] > .choice').allInnerTexts()).map((text) => text.replaceAll(/\s+/g, ' ')); // prettier-ignore
}

async function clean(page: Page, width: number): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  expect(await violations(page, ['target-size', 'color-contrast-enhanced'])).toEqual([]);
}

describe('something goes wrong at the vat', () => {
  it.each(DEVICES_MOST_UNLIKE)(
    '%s: three taps to choices with numbers, and no axe',
    async (name) => {
      const size = SIZES[name];
      const { context, page, complaints } = await visit({ browser, size });
      await standAt(page, { url: server.url, name, stepId: 'warm', minutes: 20, pHMeter: false });
      await tap(page, 'Something is wrong');
      await picture(page, `${name}-1-wrong`);
      await clean(page, size.width);
      await tap(page, 'Too hot');
      await page.getByText('Answer above, and each choice gets its numbers.').waitFor();
      expect(await page.locator('.told-tile[aria-pressed=true]').count()).toBe(0);
      await picture(page, `${name}-2-asking`);
      await tap(page, /^46\s*°C$/);
      const ways = await choices(page);
      await page.getByText('Taken as 10 min until you say.').waitFor();
      expect(ways.length).toBeGreaterThanOrEqual(2);
      for (const choice of ways) expect(choice).toMatch(NUMBERS);
      await button(page, 'Stop and throw away').waitFor();
      await picture(page, `${name}-3-choices`);
      await clean(page, size.width);
      expect(complaints).toEqual([]);
      await context.close();
    },
    600_000,
  );

  it('the choice taken moves the make, and stands in the record with its reason', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await standAt(page, { url: server.url, name: 'Ash', stepId: 'rest-in-whey', minutes: 10, pHMeter: false });
    await tap(page, 'Something is wrong');
    await tap(page, 'Too hot');
    await tap(page, 'hotter');
    await tap(page, /^57\s*°C$/);
    const first = await choices(page);
    for (const choice of first) expect(choice).toMatch(/in 10 for the acid|in 20 for the acid/);
    await page.getByText('hardly known').waitFor();
    await page.getByText(/What it means: Done about \d\d:\d\d instead of \d\d:\d\d\./).waitFor();
    await tap(page, /^40\s*min$/);
    await expect.poll(async () => (await choices(page)).join() === first.join(), { timeout: 20_000 }).toBe(false);
    await tap(page, /^Do this Stand the pot in cold water/);
    await page.getByText(/Noted: Stand the pot in cold water/).waitFor();
    await expect.poll(() => verb(page)).toBe('Rest in the whey');
    await later(page, 1);
    await picture(page, 'phone-4-card');

    await tap(page, 'Something is wrong');
    await tap(page, 'Nothing wrong: show me choices');
    expect((await choices(page))[0]).toMatch(/^Go on as planned/);
    await picture(page, 'phone-5-choices');
    await clean(page, SIZES.phone.width);
    await page.keyboard.press('Escape');
    await page.clock.fastForward(500);
    await page.keyboard.press('w');
    await page.getByRole('link', { name: 'Open the record' }).click();
    await page.getByRole('heading', { name: 'What happened' }).waitFor();
    const record = await page.locator('.record').innerText();
    expect(record).toMatch(/Went wrong: Too hot, 57\s*°C for 40\s*min/);
    expect(record).toMatch(/Choice: Stand the pot in cold water.*\(Too hot\)/);
    expect(record).not.toMatch(/NaN|undefined|Infinity|vat:|record:|advice:/);
    expect(complaints).toEqual([]);
    await context.close();
  }, 600_000);

  it('chills the curd tonight when nobody can wait: the plan has a night in it, and the card says so', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await standAt(page, { url: server.url, name: 'Birch', stepId: 'rest-drained', minutes: 20, pHMeter: false });
    // Crumbles, long after it should stretch: nobody wants to wait, so the choices are asked for.
    await page.keyboard.press('t');
    await page.keyboard.press('1');
    await later(page, 40);
    await tap(page, 'Something is wrong');
    await tap(page, 'Nothing wrong: show me choices');
    const course = await choices(page);
    expect(course.some((choice) => choice.includes('go on tomorrow') && choice.includes('tomorrow, 9 times in 10'))).toBe(true); // prettier-ignore
    await page.keyboard.press('Escape');
    await page.clock.fastForward(500);
    await tap(page, 'Something is wrong');
    await tap(page, 'I must leave');
    await tap(page, /^2\s*h$/);
    const ways = await choices(page);
    expect(ways.find((choice) => choice.startsWith('Cover it well and leave it for 2'))).toMatch(NUMBERS);
    await tap(page, /^Do this Once drained: chill the curd/);
    await later(page, 1);
    await goOn(page);
    await expect.poll(() => verb(page)).toBe('Chill the curd');
    await later(page, 60);
    await page.reload();
    await expect.poll(() => verb(page), { timeout: 10_000 }).toBe('Chill the curd');
    await says(page, /^Then /);
    await picture(page, 'chill-card');
    await tap(page, 'Whole make');
    await page.getByRole('heading', { name: 'The whole make' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  }, 600_000);

  it('says where the sums end, and reckons nothing there', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await standAt(page, { url: server.url, name: 'Cedar', stepId: 'ripen', minutes: 5, pHMeter: true });
    await page.keyboard.press('p');
    await page.locator('.wrong-causes').waitFor();
    await page.keyboard.press('1');
    for (let row = 0; row < 2; row++) await tap(page, 'hotter');
    await tap(page, /^70\s*°C$/);
    await page.getByText(/Outside what the sums hold for \(70\s*°C; they hold from 1\s*°C to 60\s*°C\)/).waitFor();
    await page.getByText('What is known:').waitFor();
    expect(await page.getByText('Done about').count()).toBe(0);
    await clean(page, SIZES.phone.width);
    await tap(page, 'Only note it');
    await page.getByText('Noted: Too hot').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  }, 600_000);
});
