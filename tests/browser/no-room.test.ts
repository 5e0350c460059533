import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SIZES, visit } from './chromium.ts';
import { button } from './maker.ts';
import { browser, server } from './standing.ts';
import { keptEvents } from './tasks/kept.ts';
import { seedMake } from './tasks/seeded.ts';

/** Notes a temperature by two tiles. */
async function noteTemperature(page: Page): Promise<void> {
  await button(page, /^Note a reading/).click();
  await page.clock.fastForward(500);
  await page.getByRole('region', { name: 'Temperature, °C' }).locator('.pad-tile').nth(2).click();
  await page.clock.fastForward(500);
  await page.locator('.pad-tile').nth(4).click();
  await page.clock.fastForward(500);
}
const readings = async (page: Page): Promise<number> => (await keptEvents(page)).filter(({ kind }) => kind === 'reading').length; // prettier-ignore

describe('a make while a disk is full', () => {
  it('goes on where the server’s is, and loses no reading where the tablet’s own is', async () => {
    const make = await seedMake({ url: server.url, stepId: 'set', minutes: 4, name: 'Ash' });
    const { page, context } = await visit({ browser, size: SIZES.phone });
    await page.clock.install({ time: make.at });
    let isFull = true;
    await page.route('**/api/events', (route) => (isFull ? route.fulfill({ status: 507, body: '{}' }) : route.continue())); // prettier-ignore
    await page.goto(server.url + make.path);
    await page.locator('.vat-until').waitFor();
    const before = await readings(page);
    await noteTemperature(page);
    await page.getByText('The server’s disk is full: make room there. 1 entry waits').waitFor();
    expect(await readings(page)).toBe(before + 1);
    isFull = false;
    await page.clock.fastForward(30_000);
    await page.getByText('Saved twice').waitFor();
    expect(await page.getByText('disk is full').count()).toBe(0);

    await page.evaluate(() => {
      const own = Object.getOwnPropertyDescriptor(IDBObjectStore.prototype, 'put') ?? {};
      addEventListener('room', () => Object.defineProperty(IDBObjectStore.prototype, 'put', own));
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('over the quota', 'QuotaExceededError');
      };
    });
    const at = await page.evaluate(() => Date.now());
    await noteTemperature(page);
    await page.getByText('No room is left on this device.').waitFor();
    expect(await page.locator('.vat-saved').innerText()).toBe('Not saved');
    const unsaved = await page.locator('.vat-act p').first().innerText();
    expect(unsaved).toMatch(/^Temperature \d/);
    expect(await readings(page)).toBe(before + 1);
    // Seen on Today too, and found at the vat again.
    await page.locator('.vat-pot').click();
    await page.getByRole('alert').getByText('Not saved on this device').waitFor();
    await page.getByRole('link', { name: 'Go to the vat' }).click();
    await page.getByText(unsaved).waitFor();
    await page.clock.fastForward(5 * 60_000);
    await page.evaluate(() => dispatchEvent(new Event('room')));
    await button(page, 'Save again').click();
    await page.getByText('Not saved on this device').waitFor({ state: 'detached' });
    expect(await readings(page)).toBe(before + 2);
    const answer = await fetch(`${server.url}/api/streams/${make.walk.streamId}/events`);
    const { events } = (await answer.json()) as { events: { event: { kind: string; happenedAt: number } }[] };
    // Noted at the moment at which it was read, not when there was room.
    const last = events.filter(({ event }) => event.kind === 'reading').at(-1);
    expect(Math.abs((last?.event.happenedAt ?? 0) - at)).toBeLessThan(60_000);
    await context.close();
  });
});
