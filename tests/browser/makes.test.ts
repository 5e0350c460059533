import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { SIZES, visit } from './chromium.ts';
import { browser, server } from './standing.ts';

describe('choosing a make', () => {
  it('ranks by milk and hours, says what rules the others out, and takes milk and hours into the plan', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.phone });
    await page.goto(`${server.url}/makes`);
    await page.getByRole('textbox', { name: 'Milk', exact: true }).fill('8');
    await page.getByLabel('Free from').fill('09:00');
    await page.getByLabel('Done by').fill('14:00');
    await page.getByText(': 5 h.').waitFor();
    const row = page.locator('.makes-row', { has: page.getByRole('link', { name: 'Stretched ball', exact: true }) });
    await expect.poll(() => row.innerText()).toMatch(/Needs .+ more: allow .+, which 18 such makes in 20 keep\./);
    await page.getByLabel('Done by').fill('20:00');
    await expect.poll(() => row.innerText()).toMatch(/to spare .*made for this milk/);
    await page.getByLabel('Find a make by any of its names').fill('fior di');
    await page.getByText('found as “fior di latte”').waitFor();
    expect(await violations(page)).toEqual([]);
    await row.getByRole('button', { name: 'Plan Stretched ball' }).click();
    await page.getByText('Light the burner at').waitFor();
    expect(await page.getByRole('textbox', { name: 'Milk', exact: true }).inputValue()).toBe('8');
    expect(await page.getByLabel('Time', { exact: true }).inputValue()).toBe('20:00');
    await page.getByRole('link', { name: 'The whole buying list, to print' }).click();
    await page.getByRole('heading', { name: 'To buy: Stretched ball' }).waitFor();
    expect(await page.getByRole('region', { name: 'Buying list' }).innerText()).toMatch(
      /9\sL\s*\(2\.4 gal\) cow's milk/,
    );
    await page.getByText('What can stand in').first().click();
    await page.getByText(/Bulk starter: 40\smL/).waitFor();
    expect(await violations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is of one’s own makes too, written in a form that the forecast contradicts as it is typed', async () => {
    const { context, page, complaints } = await visit({ browser, size: SIZES.desk });
    await page.goto(`${server.url}/makes/stretched-ball`);
    await page.getByText('Keep warm and turn').first().waitFor();
    await page.getByRole('link', { name: 'Write your own from it' }).click();
    await page.getByLabel('Name', { exact: true }).first().fill('Evening ball');
    await page.getByRole('button', { name: /^16\s*Keep warm and turn/ }).click();
    await page.getByLabel('a time', { exact: true }).fill('10');
    await page.getByText(/“Keep warm and turn” says 10\smin; the forecast expects about/).waitFor();
    await page.getByText('Keep warm and turn, time: 10, not 70.').waitFor();
    await page.getByLabel('a time', { exact: true }).fill('ten');
    await page.getByText('1 thing is still to be put right before it can be saved.').waitFor();
    await page.getByRole('button', { name: 'Save as a draft' }).click();
    await page.getByRole('alert').getByText('16. Keep warm and turn, time: A number is wanted here').waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByLabel('a time', { exact: true }).fill('75');
    await page.getByText('It can be saved.').waitFor();
    await page.getByRole('button', { name: 'Save as a draft' }).click();
    await page.waitForURL(/\/makes\/evening-ball[^/]*$/);
    await page.reload();
    await page.getByRole('heading', { name: 'Evening ball' }).waitFor();
    await page.getByRole('link', { name: 'All makes' }).click();
    await page.getByRole('button', { name: 'Plan Evening ball' }).click();
    await page.getByRole('radio', { name: /Evening ball/ }).waitFor();
    await page.getByText('Light the burner at').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
