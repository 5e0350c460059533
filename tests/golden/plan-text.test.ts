import { describe, expect, it } from 'vitest';
import { run } from '../cli/run.ts';

/**
 * The whole sheet as a maker reads it, seeded. A change of a model shows here as changed figures: look at them as a
 * cheesemaker would, then keep them with `npx vitest run --project pure tests/golden -u`, in a commit that says why.
 */
describe('the plan as plain text', () => {
  it('reads as it did: 12 L of whole milk for a soft ball, done by five', async () => {
    const { code, out, err } = await run({ line: 'plan stretched-ball --milk 12L --done-by 17:00 --date 2026-03-02' });
    expect([code, err]).toEqual([0, '']);
    await expect(out).toMatchFileSnapshot('plan-stretched-ball.txt');
  });
});
