import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { LEAST_ROOM, SIZES, visit } from './chromium.ts';
import { button } from './maker.ts';
import { browser, server } from './standing.ts';

const WILD = /NaN|undefined|Infinity|\bexplain:|\brecord:|returned an object/;
const section = (page: Page) => page.locator('.explain');

/** Opens the finished record of the worked example. */
async function openExample(page: Page): Promise<void> {
  await page.goto(server.url);
  await button(page, 'Open the Larkenshaw example').click();
  await page.locator('a[href*="/record/"]').first().click();
  await page.getByRole('heading', { name: 'What may have gone wrong' }).waitFor();
}

describe('a make that did not come out as meant', () => {
  it('asks before it blames anything, then ranks the causes and proposes one change, at every size', async () => {
    for (const size of LEAST_ROOM.map((device) => SIZES[device])) {
      const { context, page, complaints } = await visit({ browser, size });
      await openExample(page);
      await button(page, 'Too salty').click();
      await page.locator('.explain-tile[aria-pressed=true]', { hasText: 'Too salty' }).waitFor();
      await button(page, 'Look for what may have gone wrong').click();
      await page.locator('.explain-question-first').waitFor({ timeout: 60_000 });
      expect(await page.locator('.explain-row').count()).toBe(0);
      const first = await page.locator('.explain-question-text').innerText();
      await button(page, 'Not sure').click();
      await page.locator('.explain-answers').waitFor();
      await page.locator('.explain-question-text').filter({ hasNotText: first }).waitFor();
      await page.getByRole('button', { name: 'No', exact: true }).click();
      await page.locator('.explain-row').first().waitFor({ timeout: 60_000 });
      expect(await page.locator('.explain-answers li').count()).toBe(2);
      // Nothing unusual always stands among them, and all of it is in words.
      expect(await page.locator('.explain-row').count()).toBeGreaterThanOrEqual(2);
      expect(await page.locator('.explain-row[data-usual=true]').count()).toBe(1);
      const text = await section(page).innerText();
      expect(text).toMatch(/\d+ of 20|fewer than 1 in 20/);
      expect(text).toMatch(/Speaks for it/);
      expect(text).not.toMatch(WILD);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
      expect(await violations(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await context.close();
    }
  }, 240_000);

  it('carries one change into the next plan of that cheese, and takes it back', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await openExample(page);
    await button(page, 'Too salty').click();
    await button(page, 'Bitter').click();
    await button(page, 'Look for what may have gone wrong').click();
    for (let guard = 0; guard < 30 && (await button(page, 'Carry it into my next plan').count()) === 0; guard++) {
      const yes = page.locator('.explain-answering').getByRole('button', { name: 'Yes', exact: true });
      if ((await yes.count()) > 0) await yes.first().click();
      await page.waitForTimeout(500);
    }
    const change = await page.locator('.explain-change').innerText();
    await button(page, 'Carry it into my next plan').click();
    await page.getByText('Your next plan of this cheese will say it.').waitFor();
    const recordAt = page.url();
    await page.goto(`${server.url}/plan`);
    const left = page.getByText(/^Last time: .* Try: /);
    await left.waitFor();
    expect((await left.innerText()).toLowerCase()).toContain(change.toLowerCase().slice(0, 20));
    expect(await violations(page)).toEqual([]);
    await page.goto(recordAt);
    await button(page, 'Look for what may have gone wrong').click();
    await button(page, 'Take it back').click({ timeout: 60_000 });
    await button(page, 'Carry it into my next plan').waitFor();
    await page.goto(`${server.url}/plan`);
    await page.getByText('Light the burner at').waitFor();
    expect(await left.count()).toBe(0);
    await context.close();
  }, 120_000);

  it('is looked into while the make is still under way, stuck or not', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(server.url);
    await button(page, 'Open the Larkenshaw example').click();
    await page.locator('a[href*="/vat/"]').first().click();
    await page.waitForURL(/\/vat\//);
    await page.goto(page.url().replace('/vat/', '/record/'));
    await button(page, 'It never set').click();
    await button(page, 'Look for what may have gone wrong').click();
    await page.locator('.explain-question-first, .explain-verdict').first().waitFor({ timeout: 60_000 });
    expect(await section(page).innerText()).not.toMatch(WILD);
    await context.close();
  }, 120_000);

  it('keeps what was ticked and answered in the record, and asks nothing of an ordinary make', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await openExample(page);
    await button(page, 'Look for what may have gone wrong').click();
    await page.locator('.explain-verdict').waitFor({ timeout: 60_000 });
    expect(await page.locator('.explain-question-first').count()).toBe(0);
    expect(await page.locator('.explain-verdict').innerText()).toContain('nothing unusual');
    await button(page, 'Bitter').click();
    await page.locator('.explain-tile[aria-pressed=true]', { hasText: 'Bitter' }).waitFor();
    await page.reload();
    await page.locator('.explain-tile[aria-pressed=true]', { hasText: 'Bitter' }).waitFor();
    await button(page, 'Bitter').click();
    await page.locator('.explain-tile[aria-pressed=false]', { hasText: 'Bitter' }).waitFor();
    await context.close();
  }, 120_000);
});
