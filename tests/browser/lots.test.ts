import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { button } from './maker.ts';
import { browser, server } from './standing.ts';

const MORNING = new Date('2026-11-25T09:00:00Z');
const name = (page: Page) => page.getByRole('textbox', { name: 'Name' });
const assumed = (page: Page) => page.getByRole('region', { name: 'Assumed, because you did not say' });
/** Labels of the rows of what was assumed, as they stand. */
const rows = (page: Page): Promise<string[]> => page.locator('.assumed-row .field-label').allInnerTexts();

/** What the plan measures out of the bottle. */
async function rennetMl(page: Page): Promise<number> {
  const row = page.getByRole('region', { name: 'Amounts' }).locator('.plan-row', { hasText: 'Rennet' }).first();
  return Number.parseFloat(/([\d.]+)\s*mL/.exec(await row.innerText())?.[1] ?? '');
}

describe('packets and bottles on a phone', () => {
  it('are kept, tested in a cup and carried into a plan by one tap, with nothing that axe finds wrong', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await page.clock.install({ time: MORNING });
    await page.goto(`${server.url}/bench`);
    await page.getByRole('link', { name: /Packets and bottles/ }).click();
    await page.getByRole('radio', { name: 'A culture' }).check();
    await name(page).fill('Blue packet');
    await page.getByRole('textbox', { name: 'One packet treats' }).fill('ten');
    await button(page, 'Keep it').click();
    expect(await page.getByRole('alert').innerText()).toContain('ten does not fit');
    await page.getByRole('textbox', { name: 'One packet treats' }).fill('20');
    await button(page, 'Keep it').click();
    await page.getByRole('heading', { name: 'Blue packet' }).waitFor();
    await button(page, 'Add to the list').click();
    await name(page).fill('Brown bottle');
    await button(page, 'Keep it').click();
    await page.getByRole('heading', { name: 'Brown bottle' }).waitFor();
    expect(await violations(page)).toEqual([]);

    await page.getByRole('link', { name: 'Test it in a cup' }).click();
    await page.getByLabel('Bottle', { exact: true }).selectOption({ label: 'Brown bottle' });
    await button(page, 'Start').click();
    await page.clock.fastForward(15 * 60_000);
    await button(page, 'Flecks now').click();
    await page.getByText('Working strength of the bottle').waitFor();
    expect(await violations(page)).toEqual([]);
    await button(page, 'Use in a make').click();

    await page.getByText('Taken into the plan: Brown bottle.').waitFor();
    expect(await page.getByLabel('Rennet', { exact: true }).innerText()).toContain('Brown bottle');
    await page.getByText('Light the burner at').waitFor();
    const told = await assumed(page).innerText();
    expect(told).toMatch(/From Brown bottle:[\s\S]*by the cup test of[\s\S]*9 times in 10 between/);
    const tested = await rennetMl(page);
    expect(await violations(page)).toEqual([]);

    await page.getByLabel('Packet of culture').selectOption({ label: 'Blue packet' });
    await expect.poll(() => page.getByRole('textbox', { name: 'Milk that one packet treats' }).inputValue()).toBe('20');
    await page.getByLabel('Rennet', { exact: true }).selectOption({ label: 'some rennet' });
    await expect.poll(() => rennetMl(page)).not.toBe(tested);
    await page.reload();
    await page.getByText('Light the burner at').waitFor();
    expect(await page.getByLabel('Packet of culture').inputValue()).toMatch(/^lot:/);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('leave the list when they are used up, and come back when that is taken back', async () => {
    const { context, page } = await visit({ browser, size: SIZES.small });
    await page.goto(`${server.url}/bench/lots`);
    // Another device of the same house may have filled the list already; an empty one shows its form at once.
    const add = button(page, 'Add to the list');
    await add.or(name(page)).first().waitFor();
    // The form of an empty list stays once a hand is in it; a list that arrives sooner has a button for it.
    await name(page).focus({ timeout: 3000 }).catch(() => add.click()); // prettier-ignore
    await name(page).fill('Last drops');
    await button(page, 'Keep it').click();
    await page.getByRole('heading', { name: 'Last drops' }).waitFor();
    await page.locator('.lots-list .card', { hasText: 'Last drops' }).getByRole('button', { name: 'Opened today' }).click(); // prettier-ignore
    await page.getByText(/opened on/).waitFor();
    const card = page.locator('.lots-list .card', { hasText: 'Last drops' });
    await card.getByRole('button', { name: 'Used up' }).click();
    await page.getByRole('heading', { name: 'Last drops' }).waitFor({ state: 'detached' });
    await button(page, 'Undo').click();
    await page.getByRole('heading', { name: 'Last drops' }).waitFor();
    await card.getByRole('button', { name: 'Change' }).click();
    await name(page).fill('Very last drops');
    await button(page, 'Keep it').click();
    await page.getByRole('heading', { name: 'Very last drops' }).waitFor();
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(width).toBeLessThanOrEqual(SIZES.small.width);
    await context.close();
  });

  it('take the figures of any other sum into the plan too, and leave the worked example behind', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/bench/milk`);
    await page.getByRole('region', { name: 'The answer' }).waitFor();
    expect(await button(page, 'Use in a make').count()).toBe(0);
    await page.getByRole('textbox', { name: /^Fat/ }).first().fill('4.2');
    await button(page, 'Use in a make').click();
    await page.getByText('Taken into the plan: Fat of the milk 4.2').waitFor();
    await page.getByText('Light the burner at').waitFor();
    expect(await page.getByRole('textbox', { name: 'Fat of the milk' }).inputValue()).toBe('4.2');
    await context.close();
  });
});

describe('what was assumed, on a phone', () => {
  it('keeps its order when a row is answered, and shows an error in front of the bar', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/plan`);
    await page.getByText('The one answer that would narrow').waitFor();
    const before = await rows(page);
    await page.getByLabel('Kept warm by').selectOption({ label: 'lid and towels' });
    await button(page, 'Assume it again').waitFor();
    expect(await rows(page)).toEqual(before);
    const room = page.getByRole('textbox', { name: 'Room' });
    await room.evaluate((field) => field.scrollIntoView({ block: 'end' }));
    await room.fill('banana');
    const error = page.getByText(/^Room: banana does not fit/);
    await error.waitFor();
    expect(await rows(page)).toEqual(before);
    const [told, bar] = [await error.boundingBox(), await page.locator('.ready-bar').boundingBox()];
    expect((told?.y ?? 0) + (told?.height ?? 0)).toBeLessThanOrEqual(bar?.y ?? 0);
    await context.close();
  });

  it('stands two abreast on the Bench and in the plan', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    for (const [path, row] of [
      ['bench/rennet', '.assumed-fields li'],
      ['plan', '.assumed-row'],
    ] as const) {
      // prettier-ignore
      await page.goto(`${server.url}/${path}`);
      await page.locator(row).nth(1).waitFor();
      const tops = await page.locator(row).evaluateAll((found) => found.slice(0, 2).map((one) => one.getBoundingClientRect().top)); // prettier-ignore
      expect(tops[1], path).toBe(tops[0]);
    }
    await context.close();
  });
});

describe('a browser of the United States', () => {
  it('begins in gallons and Fahrenheit, and says no litre', async () => {
    const context = await browser.newContext({ viewport: { ...SIZES.phone }, locale: 'en-US', timezoneId: 'America/Chicago' }); // prettier-ignore
    const page = await context.newPage();
    await page.goto(`${server.url}/plan`);
    await page.getByText('Light the burner at').waitFor();
    expect(await page.getByRole('textbox', { name: 'Milk', exact: true }).inputValue()).toBe('2');
    const told = (await page.locator('main').innerText()).replaceAll(/^Source: .*$/gm, ''); // titles stay as printed
    expect(told).toMatch(/°F/);
    expect(told).not.toMatch(/°C|litre|8\.0 qt/);
    await context.close();
  });
});

describe('a plan for today', () => {
  it('says what to do now that the night for ice and brine is gone', async () => {
    const { context, page } = await visit({ browser, size: SIZES.phone });
    await page.clock.install({ time: MORNING });
    await page.goto(`${server.url}/plan`);
    await page.getByLabel('Done by or start at').selectOption({ label: 'I start at' });
    await page.getByLabel('Day', { exact: true }).selectOption({ label: 'today' });
    await page.getByLabel('Time', { exact: true }).fill('09:30');
    const meanwhile = page.getByRole('region', { name: 'Meanwhile' });
    await expect.poll(() => meanwhile.innerText()).toMatch(/now[\s\S]*No time to freeze it: buy the ice/);
    expect(await meanwhile.innerText()).not.toMatch(/^evening before$/m);
    await page.getByLabel('Day', { exact: true }).selectOption({ label: 'tomorrow' });
    await expect.poll(() => meanwhile.innerText()).toMatch(/^evening before$/m);
    await context.close();
  });
});
