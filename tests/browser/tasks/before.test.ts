import { describe, expect, it } from 'vitest';
import { NINE } from '../../walked-make.ts';
import { AT_THE_VAT, Hand, isInOrder } from './hand.ts';
import { goTo, openAt, PLACES } from './place.ts';
import { browser, server } from '../standing.ts';

describe.each(PLACES)('before the make, $name', (place) => {
  it('task 1: 20 litres of cow’s milk, done by half past five: a plan from a blank profile', async () => {
    const opened = await openAt({ browser, place, at: NINE - 2 * 3_600_000 });
    const { page, complaints } = opened;
    const began = Date.now();
    await goTo({ opened, place, url: server.url });
    await page.getByRole('link', { name: 'Plan a make' }).first().click();
    await page.getByRole('textbox', { name: 'Milk', exact: true }).fill('20');
    await page.getByRole('textbox', { name: 'Pot', exact: true }).fill('25');
    await page.getByLabel('Time', { exact: true }).fill('17:30');
    const start = page.locator('.start-line-time');
    await start.waitFor();
    const outcome = page.getByRole('region', { name: 'What you will get' });
    await expect.poll(() => outcome.innerText()).toMatch(/Cheese\s+[\d.]+\s*kg\s+9 times in 10 between [\d.]+ and [\d.]+\s*kg/); // prettier-ignore
    expect(await page.getByRole('region', { name: 'Amounts' }).innerText()).toMatch(/Rennet[\s\S]*[\d.]+\s*mL/);
    expect(Date.now() - began).toBeLessThan(60_000);
    await isInOrder(page);

    // An hour and a half sooner: the start moves with it, between one picture and the next few.
    await page.evaluate(() => {
      // The page's clock is faked; an event's own stamp is not.
      const now = (): number => new Event('now').timeStamp;
      const marks: number[] = [];
      (globalThis as unknown as { marks: number[] }).marks = marks;
      const line = document.querySelector('.start-line-time');
      document.addEventListener('input', () => (marks[0] ??= now()), { capture: true });
      if (line !== null) new MutationObserver(() => (marks[1] ??= now())).observe(line, { subtree: true, characterData: true, childList: true }); // prettier-ignore
    });
    const before = await start.innerText();
    await page.getByLabel('Time', { exact: true }).fill('16:00');
    await expect.poll(() => start.innerText(), { timeout: 2000 }).not.toBe(before);
    const tookMs = await page.evaluate(() => {
      const { marks } = globalThis as unknown as { marks: number[] };
      return (marks[1] ?? Number.NaN) - (marks[0] ?? Number.NaN);
    });
    expect(tookMs).toBeLessThan(200);
    expect(complaints).toEqual([]);
    await opened.context.close();
  });

  it('task 2: get everything ready: few items at a pause, the thermometer doubted, what is open stays pinned', async () => {
    const opened = await openAt({ browser, place, at: NINE - 2 * 3_600_000 });
    const { page, complaints } = opened;
    const hand = new Hand(page);
    await goTo({ opened, place, url: `${server.url}/plan` });
    await page.locator('.start-line-time').waitFor();
    await expect
      .poll(
        async () => {
          await page.getByRole('button', { name: 'Get ready' }).click({ timeout: 1000 }).catch(() => undefined); // prettier-ignore
          return page.url();
        },
        { timeout: 30_000 },
      )
      .toMatch(/\/vat\//);
    const items = page.locator('.pause-item');
    for (let pause = 0; pause < 2; pause++) {
      await items.first().waitFor();
      expect(await items.count()).toBeLessThanOrEqual(9);
      await isInOrder(page, AT_THE_VAT);
      if ((await items.filter({ hasText: 'Thermometer in ice' }).count()) > 0) break;
      for (const item of await items.all()) {
        await item.click();
        await page.clock.fastForward(500);
      }
      await page.getByText('All ready').waitFor({ timeout: 3000 }).catch(() => undefined); // prettier-ignore
    }
    await items.filter({ hasText: 'Thermometer in ice' }).click();
    await page.clock.fastForward(500);
    await hand.tap(/^Thermometer in ice water, °C 1\._$/);
    await hand.tap('1.4');
    await page.getByText('take 1.4 off every reading').first().waitFor();
    await hand.tap('Start the make');
    await expect.poll(() => page.locator('h1').first().innerText()).toBe('Warm the milk');
    expect(await page.locator('.vat-deferred').innerText()).toContain('Hands washed');
    expect(complaints).toEqual([]);
    await opened.context.close();
  });
});
