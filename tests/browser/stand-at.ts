import type { Page } from 'playwright-core';
import { seedSameMake } from './tasks/seeded.ts';

/**
 * The card of a make that was walked to a step by the forecast's own minutes, as another device would have noted it: for what
 * begins at that step. How one gets there by hand is walked in `vat`, `no-network` and `two-devices`.
 * @param input.name the pot's; one of its own for every test on the same server
 */
export async function standAt(
  page: Page,
  input: {
    readonly url: string;
    readonly name: string;
    readonly stepId: string;
    readonly minutes?: number;
    readonly pHMeter: boolean;
  },
): Promise<void> {
  const make = await seedSameMake(input);
  await page.clock.install({ time: make.at });
  await page.goto(input.url + make.path);
  await page.locator('.vat[data-stage=running]').waitFor();
  await page.getByText(/Being worked out|The forecast is being worked out/).waitFor({ state: 'detached' });
}
