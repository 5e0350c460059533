import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { launchChromium } from './chromium.ts';
import { button } from './maker.ts';
import { startTestServer, type TestServer } from './server.ts';

/** A class that is too short for its cheese, on the real page: what does not fit, the way out, and the pots made ready. */

let browser: Browser;
let server: TestServer;
let page: Page;
beforeAll(async () => {
  browser = await launchChromium();
  server = await startTestServer();
  page = await browser.newPage({ viewport: { width: 1280, height: 900 }, locale: 'en-GB' });
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const answer = (): Promise<string> => page.locator('.day-answer').innerText();

describe('the day', () => {
  it('plans a class, says what does not fit and offers what would', async () => {
    await page.clock.install({ time: new Date('2026-03-03T07:30:00Z') });
    await page.goto(`${server.url}/`);
    await page.getByRole('link', { name: 'Plan a whole day' }).click();
    await page.locator('.day-answer').waitFor();
    await page.getByLabel('Make', { exact: true }).selectOption('stretched-ball');
    await page.getByLabel('How the hours are meant').selectOption('between');
    await page.getByLabel('To', { exact: true }).fill('12:00');
    await page.getByLabel('Pupils who lend a hand').selectOption('6');
    await button(page, /^Make the curd/).waitFor();
    expect(await answer()).toContain('there are 3');
    await button(page, /^Make the curd/).click();
    await page.getByText('It does not all fit').waitFor({ state: 'detached' });
    expect(await answer()).toMatch(/until Wednesday 4 March, 1[01]:\d\d/);
  });

  it('draws a lane for each pot and burner and tells the day by the clock, for those who see and those who hear', async () => {
    expect(await page.locator('.day-part').count()).toBe(2);
    expect(await page.locator('.day-heads').first().innerText()).toMatch(/Ash\s+Birch\s+Burner 1/);
    await page.getByRole('cell', { name: 'Curd out of the fridge into warm water' }).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  });

  it('keeps what was wished over a reload, and makes the pots ready for their starts', async () => {
    await page.reload();
    await page.getByText('kept cold, worked within the hours').waitFor();
    await button(page, 'Get 2 pots ready').click();
    await page.waitForURL(/\/pots$/);
    await page.locator('.pots-next li').first().waitFor();
  });
});
