import { additionKg } from '../../../src/science/standardise.ts';
import { type PublishedRow, readPublished, type PublishedValues } from '../rows.ts';

const x = (row: PublishedRow): number => Number(row.columns['x']);
const none = { caseinPercent: 0 };

const MODELS: Readonly<Record<string, (row: PublishedRow) => number>> = {
  skim: (row) =>
    additionKg({
      milk: { massKg: x(row), fatPercent: 40, ...none },
      addition: { fatPercent: 0, ...none },
      targetFatPercent: 32,
    }),
  cream: (row) =>
    additionKg({
      milk: { massKg: x(row), fatPercent: 4, ...none },
      addition: { fatPercent: 35, ...none },
      targetFatPercent: 10,
    }),
};

export const values: PublishedValues = Object.fromEntries(
  readPublished('standardise.csv').map((row) => {
    const model = MODELS[row.columns['model'] ?? ''];
    if (model === undefined) throw new Error(`${row.id}: no model ${row.columns['model'] ?? '?'}`);
    return [row.id, () => model(row)];
  }),
);
