import { describe, expect, it } from 'vitest';
import { MISHAPS, mishapsFor } from './mishaps.ts';
import { words } from '../../../../tests/walked-make.ts';

describe('mishaps', () => {
  it('offers at most eight for a step, two at the least with a way on, each with a source and words', () => {
    for (const verb of ['warm', 'set', 'cut', 'wash', 'restToAcid', 'stretch', 'brine'] as const) {
      const { first, others } = mishapsFor(verb);
      expect(first.length).toBeLessThanOrEqual(8);
      expect(first.length + others.length).toBe(MISHAPS.length);
      expect(first.length).toBeGreaterThan(2);
    }
    for (const mishap of MISHAPS) {
      expect(mishap.source.length).toBeGreaterThan(5);
      for (const key of ['name', ...mishap.choices.flatMap((choice) => [choice.id, `${choice.id}Brings`])]) {
        expect(words.exists(`vat:mishap.${mishap.id}.${key}`), `${mishap.id}.${key}`).toBe(true);
      }
    }
  });
});
