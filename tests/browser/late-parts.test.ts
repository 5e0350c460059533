import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { DEVICES, openAt } from './tasks/place.ts';
import { seedMake } from './tasks/seeded.ts';
import { browser, server } from './standing.ts';

const phone = DEVICES[0] ?? { name: 'phone', size: { width: 390, height: 844 }, hasTouch: true };
const lost = (page: Page) => page.locator('.lost-part');
const again = (page: Page) => lost(page).getByRole('button', { name: 'Try again' });

/** A make under way, and a part of the page that is not to be had. */
async function without(name: string, part: RegExp): Promise<{ page: Page; give: () => Promise<void> }> {
  const make = await seedMake({ url: server.url, stepId: 'heal', name });
  const { page, context } = await openAt({ browser, place: phone, at: make.at, keepsNothing: true });
  await context.route(part, (route) => route.abort());
  await page.goto(server.url + make.path);
  return { page, give: () => context.unroute(part) };
}

describe('where a part of the page does not arrive', () => {
  it('the card stays, the page over it says that the record is safe, and it opens once it is there', async () => {
    const { page, give } = await without('Rowan', /\/assets\/vat-pages-[^/]*\.js$/);
    await page.locator('.vat-main').waitFor();
    await page.getByRole('button', { name: 'Note a reading' }).click();
    await lost(page).waitFor();
    expect(await lost(page).innerText()).toContain('The record is safe on this device');
    expect(await violations(page, ['target-size', 'color-contrast-enhanced'])).toEqual([]);
    // There is a way back to the card, and from it the tap asks anew.
    await lost(page).getByRole('button', { name: 'Back' }).click();
    await page.locator('.vat-main').waitFor();
    await page.getByRole('button', { name: 'Note a reading' }).click();
    await lost(page).waitFor();
    await give();
    await again(page).click();
    await page.getByRole('button', { name: 'Temperature' }).first().waitFor();
    expect(await lost(page).count()).toBe(0);
    await page.context().close();
  });

  it('nor the screen itself, it says so, says so again while it is away, and opens once it is there', async () => {
    const { page, give } = await without('Alder', /\/assets\/vat-screen-[^/]*\.js$/);
    await lost(page).waitFor();
    expect(await lost(page).innerText()).toContain('A part of the page did not arrive');
    await again(page).click();
    await expect.poll(() => lost(page).innerText()).toContain('It is still not there');
    await give();
    await again(page).click();
    await page.locator('.vat-main').waitFor();
    await page.context().close();
  });
});
