import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from '../chromium.ts';
import { startTestServer, type TestServer } from '../server.ts';
import { misfits } from './fits.ts';
import { AT_THE_VAT, Hand, isInOrder } from '../tasks/hand.ts';
import { goTo, HARDER, openAt } from '../tasks/place.ts';
import { goOnTo, SCREENS } from './screens.ts';
import { seedMake } from '../tasks/seeded.ts';

/** Every screen once where it is harder: without a network, on the narrowest phone, in each light, in large type. */

let browser: Browser;
let server: TestServer;
let at: number;
beforeAll(async () => {
  browser = await launchChromium();
  server = await startTestServer();
  const { url } = server;
  const ash = await seedMake({ url, name: 'Ash', stepId: 'draw-whey' });
  await seedMake({ url, name: 'Birch', stepId: 'set', besides: (walk) => void walk.press(10) });
  await seedMake({ url, name: 'Elm', stepId: null });
  await seedMake({ url, name: 'Cedar', stepId: 'store', besides: (walk) => void walk.press(1) });
  ({ at } = ash);
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

const SHOTS = process.env['VATSIDE_SHOTS'];

describe.each(HARDER)('every screen, $name', (place) => {
  it('is in order: nothing for axe, nothing sideways, every word whole and in its place', async () => {
    const opened = await openAt({ browser, place, at });
    const { page, context, complaints } = opened;
    const hand = new Hand(page);
    await goTo({ opened, place, url: server.url });
    await page.locator('h1').first().waitFor();
    if (place.textPercent !== undefined) expect(await page.evaluate(() => parseFloat(getComputedStyle(document.documentElement).fontSize))).toBe((16 * place.textPercent) / 100); // prettier-ignore
    const wrong: string[] = [];
    for (const screen of SCREENS) {
      const began = Date.now();
      try {
        await goOnTo(hand, screen);
        if (SHOTS !== undefined) await page.screenshot({ path: `${SHOTS}/${place.name}-${screen.name}.png` });
        const found = await misfits(page);
        if (found.length > 0) wrong.push(`${screen.name}: ${found.join('; ')}`);
        await isInOrder(page, screen.isVat === true ? AT_THE_VAT : []);
      } catch (error) {
        const message = error instanceof Error ? error.message : String(error);
        wrong.push(`${screen.name}: ${message.slice(0, 600)}`);
      }
      if (SHOTS !== undefined) console.log(`${place.name} ${screen.name}: ${Date.now() - began} ms`);
    }
    expect(wrong).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
