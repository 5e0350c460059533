import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { launchChromium, SIZES, visit } from './chromium.ts';
import { button, verb } from './maker.ts';
import { startTestServer, type TestServer } from './server.ts';

/** A class of three pots on one clock, from the plan to a curd that is joined to another. */

let browser: Browser;
let server: TestServer;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
});
// Pots of one test would stand beside those of the next: each has a dairy of its own.
beforeEach(async () => {
  server = await startTestServer();
});
afterEach(async () => {
  await server?.close();
});

const SHOTS = process.env['VATSIDE_SHOTS'];
const shot = async (page: Page, name: string): Promise<void> => {
  if (SHOTS !== undefined) await page.screenshot({ path: `${SHOTS}/${name}.png` });
};
/** One tap, and the half second in which the same button hears no second one. */
async function tap(page: Page, name: string | RegExp): Promise<void> {
  await button(page, name).first().click();
  await page.clock.fastForward(500);
}
const minutesPass = (page: Page, minutes: number): Promise<void> => page.clock.fastForward(minutes * 60_000);
const head = (page: Page, pot: string) => page.locator('.pot-head').filter({ hasText: pot });

/** Opens so many pots for nine o'clock, as a teacher would the hour before. */
async function planClass(page: Page, input: { readonly count: number; readonly apart: string }): Promise<void> {
  await page.clock.install({ time: new Date('2026-03-04T08:55:00Z') });
  await page.goto(`${server.url}/plan`);
  await page.getByRole('textbox', { name: 'Milk', exact: true }).fill('12');
  await page.getByRole('textbox', { name: 'Milk that one packet treats' }).fill('12');
  await page.getByRole('textbox', { name: 'Pot', exact: true }).fill('16');
  await page.locator('select').filter({ hasText: 'I start at' }).selectOption('start-at');
  await page.getByLabel('Time', { exact: true }).fill('09:00');
  await page.getByLabel('Day', { exact: true }).selectOption('2026-03-04');
  await page.getByLabel('How many pots').selectOption(String(input.count));
  await page.getByLabel('From one start to the next').selectOption({ label: input.apart });
  await page.getByText('Light the burner at').waitFor();
  await page.getByText(`${input.count} pots of 12`).waitFor();
  for (let tries = 0; tries < 20 && !page.url().endsWith('/pots'); tries++) {
    await button(page, `Get ${input.count} pots ready`).click({ timeout: 1000 }).catch(() => undefined); // prettier-ignore
    await page.waitForURL(/\/pots$/, { timeout: 1500 }).catch(() => undefined);
  }
  await page.locator('.pots-next li').first().waitFor();
}

/** All pots have begun, so many minutes apart, by one entry; the clock stands after the last. */
async function beginAll(page: Page): Promise<void> {
  await minutesPass(page, 20);
  await tap(page, 'All pots at once');
  await tap(page, /^Start the make/);
  await tap(page, 'Note it for 3 pots');
  await page.getByRole('heading', { name: 'Noted: Start the make' }).waitFor();
}

describe('three pots on two burners', () => {
  it('the queue names pot, verb and time, and a burner clash is flagged with a later start', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.desk });
    await planClass(page, { count: 3, apart: '5 min' });
    expect((await page.locator('.pots-next .pots-call').allInnerTexts())[0]).toBe('Ash: warm the milk, 09:00');
    expect(await page.locator('.pot-head-name').allInnerTexts()).toEqual(['Ash', 'Birch', 'Cedar']);
    await tap(page, '2 burners');
    await page.getByText(/Burners, 09:\d\d to 09:\d\d: Ash \(warm the milk\), Birch \(warm the milk\) and Cedar/).waitFor(); // prettier-ignore
    expect(await head(page, 'Cedar').innerText()).toContain('Starts 09:10');
    for (const [name, size] of Object.entries({ phone: SIZES.phone, tablet: SIZES.tablet, desk: SIZES.desk })) {
      await page.setViewportSize(size);
      expect(await violations(page, ['target-size', 'color-contrast-enhanced']), name).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), name).toBe(true);
    }
    const clash = page.locator('.pots-clash-list > li[data-kind=burners]').first();
    await clash.getByRole('button', { name: /^Start Cedar \d+\smin later$/ }).click();
    await page.clock.fastForward(500);
    await page.getByText(/Cedar starts \d+\smin later, at/).waitFor();
    await expect.poll(() => head(page, 'Cedar').innerText()).not.toContain('Starts 09:10');
    await page.getByText(/^Burners, 09:\d\d to 09:\d\d: Ash \(warm the milk\), Birch \(warm the milk\) and Cedar/).waitFor({ state: 'detached' }); // prettier-ignore
    await tap(page, 'Undo');
    await expect.poll(() => head(page, 'Cedar').innerText()).toContain('Starts 09:10');
    await page.goto(`${server.url}/`);
    await page.getByRole('link', { name: 'All pots on one clock' }).click();
    await page.locator('.pots-burners-are').waitFor();
    await page.goto(`${server.url}/pots/wall`);
    await page.locator('.wall-next li').first().waitFor();
    expect(await page.getByRole('button').count()).toBe(0);
    expect(await violations(page)).toEqual([]);
    await shot(page, 'pots-wall');
    expect(complaints).toEqual([]);
    await context.close();
  }, 300_000);

  it('one entry begins all pots, and one pot’s time is set right; all of it can be taken back', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await planClass(page, { count: 3, apart: '5 min' });
    await beginAll(page);
    const times = () => page.locator('.noted-time').allInnerTexts();
    const first = await times();
    await tap(page, /^Birch, .* set right$/);
    await tap(page, '1 min earlier');
    await expect.poll(async () => (await times())[1]).not.toBe(first[1]);
    expect((await times())[0]).toBe(first[0]);
    expect(await violations(page, ['target-size', 'color-contrast-enhanced'])).toEqual([]);
    await shot(page, 'pots-all');
    await tap(page, 'Done');
    await expect.poll(() => head(page, 'Ash').innerText()).toContain('Warm the milk');
    await expect.poll(() => head(page, 'Birch').innerText()).not.toMatch(/Starts|Should have begun/);
    await tap(page, 'All pots at once');
    await tap(page, /^It is warm: Ash, Birch and Cedar/);
    await tap(page, 'Note it for 3 pots');
    await tap(page, 'Take all back');
    await page.getByRole('heading', { name: 'All taken back' }).waitFor();
    await tap(page, 'Done');
    await expect.poll(() => head(page, 'Cedar').innerText()).toContain('Warm the milk');
    expect(complaints).toEqual([]);
    await context.close();
  }, 300_000);

  it('a reading for the third pot takes four taps at most, and one more moves it to the pot it was of', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await planClass(page, { count: 3, apart: '5 min' });
    await beginAll(page);
    await tap(page, 'Done');
    let taps = 0;
    const count = async (name: string | RegExp): Promise<void> => {
      await tap(page, name);
      taps += 1;
    };
    await count('Note something for Cedar');
    await page.locator('.pad-tile').nth(2).click();
    taps += 1;
    await page.clock.fastForward(500);
    await page.locator('.pad-tile').nth(4).click();
    taps += 1;
    await page.clock.fastForward(500);
    await page.getByText(/^Cedar: Temperature/).waitFor();
    expect(taps).toBeLessThanOrEqual(4);
    await tap(page, 'Other pot…');
    await page.locator('.other-pots').getByRole('button', { name: 'Birch' }).click();
    await page.clock.fastForward(500);
    await page.getByText(/moved to Birch/).waitFor();
    const birch = await head(page, 'Birch').locator('a').getAttribute('href');
    await page.goto(`${server.url}${birch?.replace('/vat/', '/record/') ?? ''}`);
    await page
      .getByText(/Temperature \d/)
      .first()
      .waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  }, 300_000);

  it('the round walks from pot to pot with two taps each, and ends with the list', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.tablet });
    await planClass(page, { count: 3, apart: '5 min' });
    await beginAll(page);
    await tap(page, 'Done');
    await tap(page, 'Round with the thermometer');
    const title = () => page.locator('.pad h1').innerText();
    const read = async (): Promise<void> => {
      await page.locator('.pad-tile').nth(2).click();
      await page.clock.fastForward(500);
      await page.locator('.pad-tile').nth(5).click();
      await page.clock.fastForward(500);
    };
    expect(await title()).toBe('Ash (1 of 3)');
    await read();
    await expect.poll(title).toBe('Birch (2 of 3)');
    await tap(page, 'Skip Birch');
    await expect.poll(title).toBe('Cedar (3 of 3)');
    expect(await violations(page, ['target-size', 'color-contrast-enhanced'])).toEqual([]);
    await read();
    await page.getByRole('heading', { name: 'The round' }).waitFor();
    const rows = await page.locator('.noted-list > li').allInnerTexts();
    expect(rows.map((row) => row.split('\n')[0])).toEqual(['Ash', 'Birch', 'Cedar']);
    expect(rows[0]).toMatch(/°C/);
    expect(rows[1]).toMatch(/left out/);
    expect(complaints).toEqual([]);
    await context.close();
  }, 300_000);

  it('a curd that failed is joined to another pot, which says from then on that its forecast is not exact', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await planClass(page, { count: 3, apart: '5 min' });
    await beginAll(page);
    await tap(page, 'Done');
    await head(page, 'Ash').locator('a').click();
    await tap(page, 'Something is wrong');
    await tap(page, 'Join this curd to another pot…');
    await page.getByText('local rules come first').waitFor();
    expect(await violations(page, ['target-size', 'color-contrast-enhanced'])).toEqual([]);
    await tap(page, /^Join to Birch/);
    await page.getByRole('heading', { name: /^The curd of Ash is in Birch since/ }).waitFor();
    await page.getByRole('link', { name: 'Go to Birch' }).click();
    await page.getByText(/With the curd of Ash since .*no longer exact/).waitFor();
    expect(await verb(page)).toBe('Warm the milk');
    await page.getByRole('link', { name: /All pots on one clock/ }).click();
    await page
      .getByText(/^Joined to Birch|Joined to Birch, /)
      .first()
      .waitFor();
    expect(await head(page, 'Birch').innerText()).toContain('forecast no longer exact');
    expect(await page.locator('.pot-head-name').allInnerTexts()).toEqual(['Birch', 'Cedar']);
    await shot(page, 'pots-joined');
    expect(complaints).toEqual([]);
    await context.close();
  }, 300_000);
});
