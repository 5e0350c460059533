/** Published rows as tests: one test a row. */
import { describe, expect, it } from 'vitest';
import { checkRow, readPublished, type PublishedValues } from './rows.ts';

export * from './rows.ts';

/** One test a row; a row without our value, or a value without its row, fails too. */
export function describePublished(file: string, ours: PublishedValues): void {
  const rows = readPublished(file);
  describe(`published values in ${file}`, () => {
    for (const row of rows) {
      it(`${row.id}: ${row.case}`, () => {
        const value = ours[row.id];
        if (value === undefined) throw new Error(`${row.id} has no computed value`);
        checkRow(row, value());
      });
    }
    it('has a row for every value we compute', () => {
      expect(Object.keys(ours).sort()).toEqual(rows.map((row) => row.id).sort());
    });
  });
}
