import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { button, later, usual, verb, walkTo } from './maker.ts';
import { standAt } from './stand-at.ts';
import { browser, server } from './standing.ts';

const question = (page: Page) => page.locator('.vat-silence');
/** Fogged hands and nobody at the screen: the page's clock is moved in pieces, as a tablet left alone would see it. */
async function leaveAlone(page: Page, minutes: number): Promise<void> {
  for (let gone = 0; gone < minutes; gone += 15) await later(page, Math.min(15, minutes - gone));
}

describe('ninety minutes without a note', () => {
  it('are taken as planned and asked about once; the answer is what is kept', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await standAt(page, { url: server.url, name: 'Ash', stepId: 'set', minutes: 0, pHMeter: false });
    await leaveAlone(page, 60);
    expect(await question(page).count()).toBe(0);
    expect(await verb(page)).toBe('Leave it to set');

    await leaveAlone(page, 45);
    await question(page).waitFor();
    expect(await question(page).innerText()).toMatch(/Nothing noted since \d\d:\d\d\. Assumed as planned: .* \d\d:\d\d; now: /); // prettier-ignore
    // The card shows where the make would be, and the way on is the answer.
    expect(await verb(page)).not.toBe('Leave it to set');
    expect(await page.locator('.vat-main').count()).toBe(0);
    expect(await violations(page, ['target-size'])).toEqual([]);
    for (const size of Object.values(SIZES)) {
      await page.setViewportSize(size);
      const box = await question(page).boundingBox();
      expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(size.width);
    }
    await page.setViewportSize(SIZES.phone);

    // No: it is still setting. Nothing was ended, and a reload asks no more.
    await button(page, 'No, still: Leave it to set').click();
    await question(page).waitFor({ state: 'detached' });
    await expect.poll(() => verb(page)).toBe('Leave it to set');
    await page.reload();
    await expect.poll(() => verb(page), { timeout: 10_000 }).toBe('Leave it to set');
    await later(page, 1);
    expect(await question(page).count()).toBe(0);

    // Cut after all; then nobody notes anything while it is stirred and washed.
    await later(page, 2);
    await walkTo(page, 'Stir, slowly', usual);
    await leaveAlone(page, 105);
    await question(page).waitFor();
    const assumed = await verb(page);
    await page.keyboard.press('Enter');
    await question(page).waitFor({ state: 'detached' });
    await expect.poll(() => verb(page)).toBe(assumed);
    await button(page, 'Whole make').click();
    await page.getByText('Draw off whey').first().waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
