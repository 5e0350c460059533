import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { LEAST_ROOM, LIGHTS, SIZES, visit } from './chromium.ts';
import { browser, server } from './standing.ts';

describe('a first plan', () => {
  it('stands at once, with a start, amounts and what the milk will give, and no sign-up', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    const began = Date.now();
    await page.goto(server.url);
    await page.getByText('All stays on this device.').waitFor();
    await page.getByRole('link', { name: 'Plan a make' }).first().click();
    await page.getByRole('textbox', { name: 'Milk', exact: true }).fill('20');
    await page.getByRole('textbox', { name: 'Milk that one packet treats' }).fill('20');
    await page.getByRole('textbox', { name: 'Pot', exact: true }).fill('25');
    await page.getByLabel('Time', { exact: true }).fill('17:30');
    await page.getByText('Light the burner at').waitFor();
    const outcome = page.getByRole('region', { name: 'What you will get' });
    expect(await outcome.innerText()).toMatch(/Cheese\s+[\d.]+\s*kg\s+9 times in 10 between [\d.]+ and [\d.]+\s*kg/);
    const amounts = await page.getByRole('region', { name: 'Amounts' }).innerText();
    expect(amounts).toMatch(/Culture[\s\S]*the whole packet/);
    expect(amounts).toMatch(/Rennet[\s\S]*mL[\s\S]*drops/);
    expect(await page.getByRole('region', { name: 'Shopping list' }).innerText()).toMatch(/UHT/);
    expect(await page.getByText('The filled pot weighs up to').innerText()).toMatch(/scalds at a touch/);
    await page.getByText('The one answer that would narrow the finish most').waitFor();
    expect(Date.now() - began).toBeLessThan(60_000);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('starts earlier when it must be done earlier, and says what it was', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk });
    await page.goto(`${server.url}/plan`);
    const start = page.locator('.start-line-time');
    await start.waitFor();
    const before = await start.innerText();
    await page.getByLabel('Time', { exact: true }).fill('16:00');
    await expect.poll(() => start.innerText(), { timeout: 2000 }).not.toBe(before);
    await page.getByRole('textbox', { name: 'Milk that one packet treats' }).fill('30');
    await page.getByText(/^was /).first().waitFor({ timeout: 5000 });
    await context.close();
  });

  it('names the field of a bad answer, says what would do, and loses nothing', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/plan`);
    await page.locator('.start-line-time').waitFor();
    const milk = page.getByRole('textbox', { name: 'Milk', exact: true });
    for (const typed of ['0', '-3']) {
      await milk.fill(typed);
      await page.getByRole('alert').getByText(`Milk: ${typed}`).waitFor();
      expect(await milk.inputValue()).toBe(typed);
      expect(await milk.getAttribute('aria-invalid')).toBe('true');
    }
    expect(await page.getByRole('region', { name: 'Amounts' }).count()).toBe(1);
    await milk.fill('10');
    await page.getByRole('textbox', { name: 'Fat of the milk' }).fill('80');
    await page.getByText(/Fat of the milk: 80/).waitFor();
    await page.getByRole('textbox', { name: 'Fat of the milk' }).fill('3.6');
    await page.getByRole('textbox', { name: 'Milk comes at' }).fill('37');
    await page.getByText(/If you meant 37 °F/).waitFor();
    await page.getByRole('button', { name: 'Get ready' }).click();
    await page.getByRole('heading', { name: 'There is a problem' }).waitFor();
    await page.getByRole('button', { name: 'It is right: keep 37' }).click();
    await expect.poll(() => page.getByRole('alert').count()).toBe(0);
    await context.close();
  });

  it('keeps what was half typed through a reload', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/plan`);
    await page.getByRole('textbox', { name: 'Milk', exact: true }).fill('17');
    await page.reload();
    expect(await page.getByRole('textbox', { name: 'Milk', exact: true }).inputValue()).toBe('17');
    await context.close();
  });

  it('says when no time is early enough, and what would do', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.clock.install({ time: new Date('2026-03-04T15:00:00Z') });
    await page.goto(`${server.url}/plan`);
    await page.getByLabel('Day', { exact: true }).selectOption({ label: 'today' });
    await page.getByText('No time is early enough').waitFor();
    await context.close();
  });

  it('becomes a batch and goes to its vat', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/plan`);
    await page.locator('.start-line-time').waitFor();
    await page.getByText('The one answer that would narrow').waitFor();
    await page.getByRole('button', { name: 'Get ready' }).click();
    await page.waitForURL(/\/vat\/[0-9a-f-]+$/);
    await page.goto(server.url);
    await page.getByRole('link', { name: 'Go to the vat' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('opens the worked example from Today: one pot under way, three records, one plan', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk });
    await page.goto(server.url);
    await page.getByRole('button', { name: 'Open the Larkenshaw example' }).click();
    await page.getByRole('heading', { name: 'Running' }).waitFor();
    await page.getByRole('heading', { name: 'Planned' }).waitFor();
    await page.getByRole('link', { name: 'Open the record' }).first().waitFor();
    expect(await page.getByRole('link', { name: 'Open the record' }).count()).toBe(3);
    await context.close();
  });

  it('reads in US units where the device is set so', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk, units: 'us', language: 'en-US' });
    await page.goto(`${server.url}/plan`);
    await page.locator('.start-line-time').waitFor();
    expect(await page.getByRole('region', { name: 'What you will get' }).innerText()).toMatch(/\d\s*lb/);
    expect(await page.getByText(/turn the burner off at/).innerText()).toMatch(/°F/);
    await context.close();
  });
});

describe('the page', () => {
  for (const light of LIGHTS) {
    for (const size of LEAST_ROOM) {
      it(`has nothing for axe and no sideways scroll: ${light}, ${SIZES[size].width} px`, async () => {
        const { context, page } = await visit({ browser, size: SIZES[size], light });
        for (const path of ['/', '/plan']) {
          await page.goto(server.url + path);
          if (path === '/plan') await page.locator('.start-line-time').waitFor();
          expect(await violations(page)).toEqual([]);
          const width = await page.evaluate(() => document.documentElement.scrollWidth);
          expect(width).toBeLessThanOrEqual(SIZES[size].width);
        }
        await context.close();
      });
    }
  }

  it('works without a network after the first visit, also at a deep address', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(server.url);
    await page.evaluate(async () => {
      const late = new Promise((_resolve, reject) => setTimeout(() => reject(new Error('no service worker')), 20_000));
      await Promise.race([navigator.serviceWorker.ready, late]);
    });
    await context.setOffline(true);
    await page.goto(`${server.url}/plan`);
    await page.locator('.start-line-time').waitFor();
    await page.reload();
    await page.locator('.start-line-time').waitFor();
    await context.close();
  });
});
