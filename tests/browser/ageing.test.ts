import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { button } from './maker.ts';
import { browser, server } from './standing.ts';

const MORNING = new Date('2026-11-25T09:00:00Z');
const TARGETS = ['target-size'];

describe('the ageing room on a phone, without a network', () => {
  it('takes a box and a cheese, walks the round, weighs in two taps, cuts it in two, and looks up what grows', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await page.clock.install({ time: MORNING });
    await page.goto(`${server.url}/ageing`);
    await page.getByText('Nothing ageing').waitFor();
    await page.getByRole('link', { name: 'Put a cheese on a shelf' }).click();
    await page.getByRole('textbox', { name: 'Name' }).last().fill('Blue box');
    await button(page, 'Keep it').click();
    await page.getByRole('combobox', { name: 'Where it lies' }).waitFor();
    await page.getByRole('textbox', { name: 'Name' }).fill('Wheel 7');
    await page.getByLabel('Made on').fill('2026-11-21');
    await page.getByLabel('Aged as').selectOption({ label: 'tomme, natural rind' });
    await page.getByRole('textbox', { name: 'Each weighs' }).fill('0.84');
    expect(await violations(page, TARGETS)).toEqual([]);
    await button(page, 'Put it there').click();

    await page.getByRole('heading', { name: "Today's round" }).first().waitFor();
    // Every part of the page is on the device once its worker is.
    await page.evaluate(async () => navigator.serviceWorker.ready.then(() => null));
    await context.setOffline(true);
    expect(await page.evaluate(() => document.documentElement.dataset['light'])).toBe('day'); // chosen by this device
    const turn = button(page, 'Turn: Wheel 7');
    expect(await turn.getAttribute('aria-pressed')).toBe('false');
    expect(await page.getByText('missed 3 turns').count()).toBe(1);
    expect(await violations(page, TARGETS)).toEqual([]);
    await button(page, 'All done').click();
    await expect.poll(() => turn.getAttribute('aria-pressed')).toBe('true');
    await page.clock.fastForward(1000);
    await turn.click();
    await expect.poll(() => turn.getAttribute('aria-pressed')).toBe('false');

    await page.getByRole('link', { name: 'Wheel 7' }).first().click();
    await page.getByRole('heading', { name: 'Wheel 7' }).waitFor();
    await page.getByRole('button', { name: 'Weigh', exact: true }).click();
    await page.clock.fastForward(500);
    await button(page, 'Weight, g 82_').click();
    await page.clock.fastForward(500);
    await button(page, '826').click();
    await page.getByText('Wheel 7 weighs 826').waitFor();
    expect(await violations(page, TARGETS)).toEqual([]);
    await page.clock.fastForward(500);
    await button(page, 'What grows on it?').click();
    await page.clock.fastForward(500);
    await button(page, /^Pink or rust red/).click();
    await page.getByText('Do not taste it. Bag it').waitFor();
    expect(await violations(page, TARGETS)).toEqual([]);
    await page.getByRole('button', { name: 'Back', exact: true }).click();
    await page.clock.fastForward(500);
    await page.getByRole('button', { name: 'Cut', exact: true }).click();
    await button(page, 'Cut it').click();
    await page.getByText('What lies on now:').waitFor();
    expect(await page.getByRole('link', { name: /Wheel 7, half [ab]/ }).count()).toBe(2);
    await page.getByRole('link', { name: 'Back to the round' }).click();
    await page.getByRole('link', { name: 'Wheel 7, half b' }).first().waitFor();
    expect(complaints.filter((line) => !/ERR_INTERNET|Failed to fetch/.test(line))).toEqual([]);
    await context.close();
  });

  it('plans days away, and says what cannot wait', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/`);
    await page.evaluate(() => localStorage.setItem('vatside.device', JSON.stringify({ light: 'auto', language: 'en-GB', units: 'metric' }))); // prettier-ignore
    await page.reload();
    await button(page, 'Open the Larkenshaw example').click();
    await page.getByRole('link', { name: 'Ageing', exact: true }).click();
    await page.getByRole('link', { name: 'White discs' }).first().waitFor();
    await button(page, 'Plan days away').click();
    // Where the device follows the system, the ageing room is dark.
    expect(await page.evaluate(() => document.documentElement.dataset['light'])).toBe('dark');
    const day = (ahead: number): string => new Date(Date.now() + ahead * 86_400_000).toISOString().slice(0, 10);
    await page.getByLabel('Away from').fill(day(1));
    await page.getByLabel('to, with this day').fill(day(9));
    await page.getByText('This cannot wait').waitFor();
    expect(await page.locator('.away-preview').innerText()).toMatch(/White discs: turn on/);
    expect(await violations(page, TARGETS)).toEqual([]);
    await button(page, 'Plan it so').click();
    await page.getByText(/the round is planned anew/).waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(SIZES.phone.width);

    await page.goto(`${server.url}/brine`);
    await button(page, 'Note a check').click();
    await button(page, 'Strength, % 18._').click();
    await button(page, '18.2').click();
    await page.getByText('as read').waitFor();
    expect(await page.locator('.brine-number').innerText()).toBe('18.2');
    expect(await violations(page, TARGETS)).toEqual([]);
    await context.close();
  });
});

describe('the store at the desk', () => {
  it('counts what is left of any ingredient', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk });
    await page.goto(`${server.url}/bench/lots`);
    const add = button(page, 'Add to the list');
    await add
      .or(page.getByRole('textbox', { name: 'Name' }))
      .first()
      .waitFor();
    await page.getByRole('textbox', { name: 'Name' }).focus({ timeout: 2000 }).catch(() => add.click()); // prettier-ignore
    await page.getByRole('radio', { name: 'Something else' }).check();
    await page.getByRole('textbox', { name: 'Name' }).fill('Sack of salt');
    await page.getByRole('textbox', { name: 'How much came' }).fill('5');
    await page.getByRole('textbox', { name: 'All of it cost' }).fill('4.50');
    await button(page, 'Keep it').click();
    await page.getByText('5\u202Fkg left.').waitFor();
    await button(page, 'Count what is left').first().click();
    await page.getByRole('textbox', { name: 'Left now' }).fill('3.2');
    await button(page, 'Counted').click();
    await page.getByText('3.20\u202Fkg left.').waitFor();
    expect(await violations(page)).toEqual([]);
    await context.close();
  });
});
