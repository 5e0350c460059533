/** The results of a calibration as a file, and as lines on a terminal. */
import { readFileSync } from 'node:fs';
import { format } from 'prettier';
import { z } from 'zod';
import type { Results } from './results.ts';

export const RESULTS = new URL('../../docs/calibration/results.json', import.meta.url);

const number = z
  .number()
  .nullable()
  .transform((value) => value ?? Infinity); // JSON has no infinity: what never comes is null
const count = z.int();
const coverage = { of: count, covered: z.number() };

const resultsSchema = z.strictObject({
  model: z.string(),
  makes: count, members: count, otherMakes: count, sharpnessMakes: count,
  quantities: z.array(
    z.strictObject({
      id: z.string(), makes: count, covered: z.number(), shownCovered: z.number(), bins: z.array(count),
      chiSquare: z.number(), chiSquareP: z.number(), distance: z.number(), distanceP: z.number(),
    }),
  ),
  methods: z.record(z.string(), count),
  leastEffective: z.number(),
  byNotes: z.array(z.strictObject({ notes: count, ...coverage })),
  otherModels: z.array(
    z.strictObject({
      id: z.string(), makes: count, all: z.strictObject(coverage),
      quantities: z.array(z.strictObject({ id: z.string(), ...coverage })),
    }),
  ),
  sharpness: z.array(
    z.strictObject({
      id: z.string(), makes: count, p25: z.number(), p50: z.number(), p75: z.number(),
      never: z.strictObject({ before: z.number(), after: z.number() }).optional(),
    }),
  ),
  replayed: z.array(
    z.strictObject({
      id: z.string(), targetPH: z.number(), targetMin: z.number(),
      forecasts: z.array(z.strictObject({ readings: count, p5: number, p50: number, p95: number })),
    }),
  ),
}); // prettier-ignore

/** What the last calibration stored. */
export const storedResults = (): Results => resultsSchema.parse(JSON.parse(readFileSync(RESULTS, 'utf8')));

/** Four figures are more than so many makes can tell. */
const rounded = (_key: string, value: unknown): unknown =>
  typeof value === 'number' && Number.isFinite(value) ? Number(value.toPrecision(4)) : value;

export const resultsText = (results: Results): Promise<string> =>
  format(JSON.stringify(results, rounded), { parser: 'json', printWidth: 120 });

const percent = (value: number): string => `${(100 * value).toFixed(1)} %`;

export function toldResults(results: Results): string[] {
  const { quantities, byNotes, otherModels, sharpness, replayed } = results;
  return [
    ...quantities.map(
      ({ id, makes, covered, shownCovered, chiSquareP, distanceP }) =>
        `${id.padEnd(16)} ${makes} makes, members hold ${percent(covered)}, shown bands ${percent(shownCovered)};` +
        ` even ranks: chi-square p ${chiSquareP.toFixed(3)}, distance p ${distanceP.toFixed(3)}`,
    ),
    ...byNotes.map(({ notes, of, covered }) => `${String(notes)} notes          ${of} bands, ${percent(covered)}`),
    ...otherModels.map(
      ({ id, makes, all, quantities: each }) =>
        `${id.padEnd(16)} ${makes} makes: ${percent(all.covered)}; ${each.map((one) => `${one.id} ${percent(one.covered)}`).join(', ')}`,
    ),
    ...sharpness.map(
      ({ id, makes, p25, p50, p75 }) =>
        `${id.padEnd(16)} ${makes} makes: band ${p50.toFixed(2)} of before (${p25.toFixed(2)}-${p75.toFixed(2)})`,
    ),
    ...replayed.map(({ id, targetMin, forecasts }) => {
      const each = forecasts.map(({ readings, p5, p50, p95 }) => `${readings}: ${p50.toFixed(0)} (${p5.toFixed(0)}-${p95.toFixed(0)})`);
      return `${id.padEnd(4)} ${targetMin} min; after so many readings ${each.join(', ')}`;
    }),
  ];
} // prettier-ignore
