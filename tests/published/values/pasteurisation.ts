import { legalPairs, type ThermometerScale } from '../../../src/science/pasteurisation.ts';
import { HEAT_TARGETS, secondsPerTenfold, tenfoldReductions } from '../../../src/science/pasteurisation-lethality.ts';
import { type PublishedRow, readPublished, type PublishedValues } from '../rows.ts';

const x = (row: PublishedRow): number => Number(row.columns['x']);
const t = (row: PublishedRow): number => Number(row.columns['t']);

/** Least temperature [°C] that the US text asks for a milk of this fat and a hold of so many seconds. */
const legalC = (row: PublishedRow, scale: ThermometerScale): number =>
  legalPairs({ fatPercent: x(row), rule: 'us', scale }).find(({ seconds }) => seconds === t(row))?.temperatureC ??
  Number.NaN;

/** Tenfold steps of a steady hold. */
const steps = (row: PublishedRow, target: (typeof HEAT_TARGETS)[keyof typeof HEAT_TARGETS]): number =>
  tenfoldReductions({ curves: [[0, t(row) / 60].map((minute) => ({ minute, temperatureC: x(row) }))], target });

const MODELS: Readonly<Record<string, (row: PublishedRow) => number>> = {
  'legal-us': (row) => legalC(row, 'C'),
  'legal-us-f': (row) => 32 + 1.8 * legalC(row, 'F'),
  coxiella: (row) => steps(row, HEAT_TARGETS.coxiellaBurnetii),
  listeria: (row) => steps(row, HEAT_TARGETS.listeriaMonocytogenes),
  'listeria-d': (row) => secondsPerTenfold({ target: HEAT_TARGETS.listeriaMonocytogenes, temperatureC: x(row) }),
};

export const values: PublishedValues = Object.fromEntries(
  readPublished('pasteurisation.csv').map((row) => {
    const model = MODELS[row.columns['model'] ?? ''];
    if (model === undefined) throw new Error(`${row.id}: no model ${row.columns['model'] ?? '?'}`);
    return [row.id, () => model(row)];
  }),
);
