import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { button, goOn, later, planAndGetReady, usual, verb, walkTo } from './maker.ts';
import { browser, server } from './standing.ts';

const SHOTS = process.env['VATSIDE_SHOTS'];

/** A second pot of the same milk, packet and bottle, begun beside the first. */
async function anotherPot(page: Page): Promise<void> {
  await page.goto(`${server.url}/plan`);
  await page.getByText('Light the burner at').waitFor();
  for (let tries = 0; tries < 20 && !page.url().includes('/vat/'); tries++) {
    await button(page, 'Get ready').click({ timeout: 1000 }).catch(() => undefined); // prettier-ignore
    await page.waitForURL(/\/vat\//, { timeout: 1500 }).catch(() => undefined);
  }
  await button(page, 'Start the make').waitFor();
  await goOn(page);
}

/** The flecks after so many minutes of setting. */
async function flecksAfter(page: Page, minutes: number): Promise<void> {
  await walkTo(page, 'Leave it to set', usual);
  await later(page, minutes);
  await button(page, 'Flecks').click();
  await page.getByText(/Cut about \d\d:\d\d by the fleck time/).waitFor();
  await later(page, 1);
}

const expected = (page: Page) => page.locator('.vat-until').innerText();
/** Width in minutes of "9 times in 10 between 10:05 and 10:25". */
function widthMin(text: string): number {
  const [, from = '', to = ''] = /between (\d\d:\d\d) and (\d\d:\d\d)/.exec(text) ?? [];
  const minutes = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
  return minutes(to) - minutes(from);
}

describe('pots that share a milk, a packet and a bottle', () => {
  it('the second pot has learned from the first before its own flecks, and its cut is foreseen more narrowly', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await planAndGetReady(page, { url: server.url, pHMeter: false });
    await goOn(page);
    await walkTo(page, 'Leave it to set', usual);
    await later(page, 2);
    const alone = widthMin(await expected(page));
    expect(await page.locator('.vat-sisters').count()).toBe(0);
    await later(page, 11);
    await button(page, 'Flecks').click();
    await page.getByText(/Cut about \d\d:\d\d by the fleck time/).waitFor();

    await anotherPot(page);
    await walkTo(page, 'Leave it to set', usual);
    await later(page, 2);
    await page.locator('.vat-sisters').waitFor();
    const line = await page.locator('.vat-sisters').innerText();
    expect(line).toMatch(/Learned from \S+ \(flecks after \d+\s*min\): “It breaks clean” expected \d\d:\d\d to \d\d:\d\d\./); // prettier-ignore
    await expect.poll(async () => widthMin(await expected(page)), { timeout: 20_000 }).toBeLessThan(0.8 * alone);
    expect(await violations(page, ['target-size', 'color-contrast-enhanced'])).toEqual([]);
    if (SHOTS !== undefined) await page.screenshot({ path: `${SHOTS}/sisters-phone.png` });
    expect(complaints).toEqual([]);
    await context.close();
  }, 600_000);

  it('a third pot that sets in half the time stands out, and is asked for its rennet', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.tablet });
    await planAndGetReady(page, { url: server.url, pHMeter: false });
    await goOn(page);
    await flecksAfter(page, 13);
    await anotherPot(page);
    await flecksAfter(page, 13);
    await anotherPot(page);
    await flecksAfter(page, 4);
    await expect.poll(() => verb(page)).toBe('Leave it to set');
    await page.getByText(/This pot stands out from .* Rennet: double or half the dose/).waitFor();
    expect(await violations(page, ['target-size'])).toEqual([]);
    if (SHOTS !== undefined) await page.screenshot({ path: `${SHOTS}/sisters-tablet.png` });
    expect(complaints).toEqual([]);
    await context.close();
  }, 600_000);
});
