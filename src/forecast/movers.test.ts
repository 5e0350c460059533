import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, underWay } from '../../tests/makes.ts';
import { moversOf } from './movers.ts';

const answers = { milk: { volumeL: 12 } };
const ids = (quantity: Parameters<typeof moversOf>[0]['aims'][number]['quantity'], more: object = {}): string[] =>
  moversOf({ plan: planFor(), answers, aims: [{ quantity }], ...more }).map(({ id }) => id);

describe('what is worth changing for an aim', () => {
  it('is the time in the bath for salt, the milk for the weight, warmth and culture before the cut for the end', () => {
    // The make leaves the bath when the salt is in: a stronger brine or smaller pieces only shorten it.
    expect(ids('saltInMoisturePercent')[0]).toBe('brine-minutes');
    expect(ids('cheeseKg')[0]).toBe('milk');
    const end = ids('endMin');
    expect(end.indexOf('culture-dose')).toBeLessThan(end.indexOf('cube'));
    expect(end.indexOf('rest-warmth')).toBeLessThan(end.indexOf('stir-minutes'));
  });

  it('is, under way, only what is not yet decided', () => {
    const history = underWay({ nowMin: 270, ended: TO_DRAINED_REST, running: 'rest-drained' });
    expect(ids('saltInMoisturePercent', { history })).not.toContain('cube');
  });
});
