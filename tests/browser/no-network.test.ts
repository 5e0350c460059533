import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SIZES, visit } from './chromium.ts';
import { button, goOn, later, planAndGetReady, tickAll, usual, verb, walkTo, weigh } from './maker.ts';
import { browser, server } from './standing.ts';

const strip = (page: Page) => page.locator('.vat-strip').innerText();

/** The tab is gone without a word, as when a system wants its memory back; another opens at the same place. */
async function killedAndOpened(page: Page): Promise<Page> {
  const address = page.url();
  const at = await page.evaluate(() => Date.now());
  const context = page.context();
  await page.close({ runBeforeUnload: false });
  const next = await context.newPage();
  await next.clock.install({ time: at + 60_000 });
  await next.goto(address);
  return next;
}

describe('a make without a network from the first step to the last', () => {
  it('comes to its record on a tablet, through a reload and a killed tab, and is on the other computer once the network is back', async () => {
    const { context, page: first, complaints } = await visit({ browser, size: SIZES.tablet });
    await planAndGetReady(first, { url: server.url, pHMeter: false });
    await first.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    await expect.poll(() => strip(first), { timeout: 10_000 }).toContain('Saved twice');
    await context.setOffline(true);
    await tickAll(first);
    await goOn(first);
    await expect.poll(() => verb(first)).toBe('Warm the milk');
    await expect.poll(() => strip(first)).toContain('Saved here');
    await walkTo(first, 'Let it ripen', usual);
    const page = await killedAndOpened(first);
    await expect.poll(() => verb(page), { timeout: 20_000 }).toBe('Let it ripen');
    await walkTo(page, 'Leave it to set', usual);
    await page.reload();
    await expect.poll(() => verb(page), { timeout: 20_000 }).toBe('Leave it to set');
    await later(page, 12);
    await button(page, 'Flecks').click();
    await page.getByText(/Cut about \d\d:\d\d by the fleck time/).waitFor();
    await walkTo(page, 'Drain and weigh', usual);
    await weigh(page, { coarse: '1.6_', fine: '1.65' });
    await walkTo(page, 'Keep warm and turn', usual);
    await later(page, 50);
    await page.getByText(/\d+ of 20 say ready by \d\d:\d\d/).waitFor();
    await walkTo(page, 'Weigh, label, close', usual);
    await button(page, 'Weigh the cheese').click();
    await button(page, /^Weight, kg 1\.4_$/).click();
    await page.clock.fastForward(500);
    await button(page, '1.46').click();
    await button(page, 'Keep this label').click();
    await page.clock.fastForward(500);
    await button(page, 'Close the batch').click();
    await page.clock.fastForward(500);
    await button(page, 'Yes, the make is over').click();
    await page.getByRole('link', { name: 'Open the record' }).click();
    await page.getByRole('heading', { name: 'What happened' }).waitFor();
    expect(await page.locator('.record').innerText()).toMatch(/Cheese\s+1\.46\s*kg/);
    const batch = page.url();
    expect(complaints.filter((line) => !/ERR_INTERNET_DISCONNECTED|Failed to fetch/.test(line))).toEqual([]);

    // Another device has the whole make, last weight and all, once the first has a network again.
    await context.setOffline(false);
    await page.clock.fastForward(60_000);
    const other = await visit({ browser, size: SIZES.desk });
    const seen = async (): Promise<string> => {
      await other.page.goto(batch);
      return other.page.locator('.record').innerText({ timeout: 4000 }).catch(() => ''); // prettier-ignore
    };
    await expect.poll(seen, { timeout: 60_000, interval: 1000 }).toMatch(/Cheese\s+1\.46\s*kg/);
    await other.context.close();
    await context.close();
  }, 600_000);
});
