import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { DEVICES, openAt, type Place } from './tasks/place.ts';
import { seedMake } from './tasks/seeded.ts';
import { browser, server } from './standing.ts';

const phone = DEVICES[0] ?? { name: 'phone', size: { width: 390, height: 844 }, hasTouch: true };
const desk = DEVICES[2] ?? phone;

/** A profile that reads Spanish; `rtl` turns its pages round, as a language from the right would. */
const open = async (place: Place, at: number, rtl = false, keepsNothing = false): Promise<Page> => {
  const { page } = await openAt({
    browser,
    place,
    at,
    keepsNothing,
    before: async (context) => {
      await context.addInitScript((turned) => {
        localStorage.setItem('vatside.device', JSON.stringify({ light: 'auto', language: 'es', units: 'metric', hand: 'right', padUnits: {} })); // prettier-ignore
        if (!turned) return;
        const turn = (): void => document.documentElement.setAttribute('dir', 'rtl');
        new MutationObserver(() => document.documentElement.dir === 'rtl' || turn()).observe(document, { subtree: true, attributes: true, attributeFilter: ['dir'] }); // prettier-ignore
        document.addEventListener('DOMContentLoaded', turn);
      }, rtl);
    },
  });
  return page;
};

/** What sticks out of the page sideways, or is cut off in its own box. */
const cramped = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const root = document.documentElement;
    const wide = root.scrollWidth > innerWidth ? [`the page is ${root.scrollWidth} px wide`] : [];
    const cut = [...document.querySelectorAll('body *')].filter((one) => {
      if (one.closest('svg, .out-of-sight') !== null || one.childElementCount > 0 || one.textContent.trim() === '') return false; // prettier-ignore
      return /hidden|clip/.test(getComputedStyle(one).overflowX) && one.scrollWidth > one.clientWidth + 1;
    });
    return [...wide, ...cut.map((one) => `${one.className}: ${one.textContent}`)];
  });

describe('in Spanish', () => {
  it('the card beside the vat keeps its verb, its numbers and its main action in sight on a phone', async () => {
    const make = await seedMake({ url: server.url, stepId: 'rest-drained', name: 'Olmo' });
    const page = await open(phone, make.at, false, true);
    const fetched: string[] = [];
    page.on('request', (request) => fetched.push(new URL(request.url()).pathname));
    await page.goto(server.url + make.path);
    await page.locator('.vat-until').waitFor();
    expect(await page.evaluate(() => [document.documentElement.lang, document.documentElement.dir])).toEqual(['es', 'ltr']); // prettier-ignore
    expect(await page.locator('.vat-main').innerText()).toContain('Hila');
    expect(await page.locator('h1').innerText()).toContain('Mantener tibia y voltear');
    expect(await page.locator('.vat-number').first().innerText()).toMatch(/39,0\s*°C/);
    // Nothing of it is scrolled to.
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThanOrEqual(phone.size.height);
    for (const part of ['h1', '.vat-number', '.vat-main']) {
      const box = await page.locator(part).first().boundingBox();
      expect((box?.y ?? Infinity) + (box?.height ?? 0), part).toBeLessThanOrEqual(phone.size.height);
    }
    expect(await cramped(page)).toEqual([]);
    // Of the other languages nothing was fetched.
    expect(fetched.filter((path) => /\/assets\/es-/.test(path)).length).toBe(1);
    expect(fetched.filter((path) => /\/assets\/en-(gb|us)-/.test(path))).toEqual([]);
    await page.context().close();
  });

  it('the words change at once where another language is chosen, and the page says which it speaks', async () => {
    const page = await open(desk, Date.UTC(2026, 2, 2, 9));
    // Today would open a make that runs elsewhere, as soon as it has heard of it.
    await page.goto(`${server.url}/bench`);
    await page.getByRole('button', { name: 'Este aparato' }).click();
    await page.getByLabel('English (UK)').check();
    await page.getByRole('heading', { name: 'This device' }).waitFor();
    expect(await page.evaluate(() => document.documentElement.lang)).toBe('en-GB');
    await page.getByLabel('Español').check();
    await page.getByRole('heading', { name: 'Este aparato' }).waitFor();
    await page.context().close();
  });
});

describe('from right to left', () => {
  it('the main screens have no sideways scroll, and cut no word off', async () => {
    const make = await seedMake({ url: server.url, stepId: 'ripen', name: 'Tejo' });
    for (const place of process.env['VATSIDE_MATRIX'] === 'all' ? [phone, desk] : [phone]) {
      const page = await open(place, make.at, true);
      for (const [path, shown] of [
        [make.path, '.vat-until'],
        ['/', 'h1'],
        ['/plan', '.start-line-time'],
        ['/bench', 'h1'],
        ['/bench/rennet', '.answer-first'],
        ['/pots', '.vat'],
      ] as const) {
        await page.goto(server.url + path);
        await page.locator(shown).first().waitFor();
        expect(await page.evaluate(() => document.documentElement.dir), path).toBe('rtl');
        expect(await cramped(page), `${path} on the ${place.name}`).toEqual([]);
      }
      await page.context().close();
    }
  });
});
