import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { DEVICES_MOST_UNLIKE, SIZES, visit } from './chromium.ts';
import { browser, server } from './standing.ts';

describe('what must come out', () => {
  for (const size of DEVICES_MOST_UNLIKE) {
    it(`is said, answered with a chance and a cost, taken by one tap and taken back: ${SIZES[size].width} px`, async () => {
      const { context, page, complaints } = await visit({ browser, size: SIZES[size] });
      await page.goto(`${server.url}/plan`);
      await page.locator('.start-line-time').waitFor();
      const card = page.getByRole('region', { name: 'What must come out' });
      await card.getByLabel('I want').selectOption({ label: 'salt in the moisture' });
      expect(await card.getByLabel('Lowest').inputValue()).toBe('1.2');
      await card.getByLabel('Lowest').fill('1.9');
      await card.getByLabel('Highest').fill('2.8');
      const verdict = card.locator('.aim-verdict');
      await expect.poll(() => verdict.innerText(), { timeout: 60_000 }).toMatch(/^Brine for .* instead of about \d+\smin: [89] in 10 to have salt in the moisture between 1\.9 and 2\.8\s%\.$/); // prettier-ignore
      expect(await card.innerText()).toMatch(/Done about \d\d:\d\d instead of \d\d:\d\d/);
      expect(await violations(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(SIZES[size].width);
      const take = card.getByRole('button', { name: 'Take it into the plan' }).first();
      await take.click();
      await card.getByText(/^Into the plan: Brine for/).waitFor();
      await card.getByRole('heading', { name: 'Chosen otherwise than in the make' }).waitFor();
      await expect.poll(() => verdict.innerText(), { timeout: 60_000 }).toMatch(/^The plan as it stands will do: [89] in 10/); // prettier-ignore
      await card.getByRole('button', { name: 'Undo' }).click();
      await card.getByRole('heading', { name: 'Chosen otherwise than in the make' }).waitFor({ state: 'detached' });
      expect(complaints).toEqual([]);
      await context.close();
    });
  }

  it('that cannot be had is said so, and a slip is named beside its field', async () => {
    const { context, page } = await visit({ browser, size: SIZES.desk });
    await page.goto(`${server.url}/plan`);
    await page.locator('.start-line-time').waitFor();
    const card = page.getByRole('region', { name: 'What must come out' });
    await card.getByLabel('I want').selectOption({ label: 'moisture' });
    await card.getByLabel('Lowest').fill('40');
    await card.getByLabel('Highest').fill('39');
    await card.getByText('The first must be lower than the second').waitFor();
    await card.getByLabel('Highest').fill('43');
    await card.getByText('it cannot be had as often as 8 in 10').waitFor({ timeout: 60_000 });
    await card.getByText(/^In the way stands moisture between 40 and 43\s%/).waitFor();
    await context.close();
  });
});
