import { describe, expect, it } from 'vitest';
import { MISHAPS } from '../../../make/mishaps.ts';
import { words } from '../../../../tests/walked-make.ts';

describe('mishaps', () => {
  it('have words for their names and their choices; what only the trade knows says what it brings', () => {
    for (const mishap of MISHAPS) {
      const told = mishap.choices.filter((choice) => choice.does === null).map((choice) => `${choice.id}Brings`);
      for (const key of ['name', ...mishap.choices.map((choice) => choice.id), ...told]) {
        expect(words.exists(`vat:mishap.${mishap.id}.${key}`), `${mishap.id}.${key}`).toBe(true);
      }
    }
  });
});
