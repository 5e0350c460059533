import { cautionsFor } from '../../../src/science/cautions.ts';
import { legalPairs } from '../../../src/science/pasteurisation.ts';
import { scaldTimes } from '../../../src/science/scald.ts';
import { staphLogs, staphRatePerH } from '../../../src/science/staph.ts';
import { type PublishedRow, readPublished, type PublishedValues } from '../rows.ts';

const x = (row: PublishedRow): number => Number(row.columns['x']);
const t = (row: PublishedRow): number => Number(row.columns['t']);

const shown = (code: string, field: string, situation: Parameters<typeof cautionsFor>[0]): number =>
  Number(cautionsFor(situation).find((finding) => finding.code === code)?.fields[field]);

const MODELS: Readonly<Record<string, (row: PublishedRow) => number>> = {
  'scald-deep': (row) => scaldTimes({ waterC: x(row) }).secondsToDeepBurn ?? Number.NaN,
  'scald-blister': (row) => scaldTimes({ waterC: x(row) }).secondsToBlister ?? Number.NaN,
  'scald-shown': (row) => shown('stretch-hands', 'secondsToDeepBurn', { isHandWorked: true, curdC: x(row) }),
  'staph-rate': (row) => staphRatePerH(x(row)),
  'staph-logs': (row) =>
    staphLogs({ readings: [0, 60 * t(row)].map((minute) => ({ minute, temperatureC: x(row), pH: null })) }),
  'staph-two': (row) => (2 * Math.LN10) / staphRatePerH(x(row)),
  'legal-c': (row) => legalPairs({ fatPercent: x(row) })[t(row)]?.temperatureC ?? Number.NaN,
  calcium: (row) => shown('calcium-max', 'percentOfLegalMaximum', { addedCalciumGPerKg: x(row) }),
  'date-7': () => {
    let days = 0;
    while (!cautionsFor({ useByDays: days + 1, moisturePercent: 57 }).some(({ code }) => code === 'date-7')) days++;
    return days;
  },
};

export const values: PublishedValues = Object.fromEntries(
  readPublished('safety.csv').map((row) => {
    const model = MODELS[row.columns['model'] ?? ''];
    if (model === undefined) throw new Error(`${row.id}: no model ${row.columns['model'] ?? '?'}`);
    return [row.id, () => model(row)];
  }),
);
