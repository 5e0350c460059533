import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { button, later } from './maker.ts';
import { standAt } from './stand-at.ts';
import { browser, server } from './standing.ts';

describe('a reading worth taking', () => {
  it('is asked for in one quiet line while the curd rests, two taps from kept, and not asked for again', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await standAt(page, { url: server.url, name: 'Ash', stepId: 'rest-drained', minutes: 10, pHMeter: true });
    const line = page.getByText(/^A pH of the curd now would narrow the end of this step from a span of/);
    await line.waitFor();
    expect(await violations(page, ['target-size'])).toEqual([]);

    await button(page, 'Read it').click();
    await page.locator('.pad-tile').nth(2).click();
    await page.clock.fastForward(500);
    await page.locator('.pad-tile').nth(4).click();
    await page.getByText(/^pH [\d.]+ at/).waitFor();
    await later(page, 1);
    expect(await line.count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
