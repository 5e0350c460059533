import { z } from 'zod';
import { sourceSchema } from './figure.ts';
import { settingsSchema } from './step.ts';

/** Settings of a step that are numbers. */
const NUMBERED = [
  'toC', 'atC', 'overMinutes', 'cubeMm', 'fractionOfVat', 'fractionOfWhey', 'waterC', 'stopAtC', 'curdTargetC',
  'sliceMm', 'pieceG', 'bathC', 'brinePercent', 'brineC', 'saltPercent', 'pressureKPa', 'pieceMm', 'waterFraction',
  'moisturePercent', 'humidityPercent',
] as const satisfies readonly (keyof typeof settingsSchema.shape)[]; // prettier-ignore

/**
 * Where a free input stands in the make. Minutes that a maker chooses become the step's only end; every other end
 * condition keeps its neighbours.
 */
export const placeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('setting'), step: z.string(), setting: z.enum(NUMBERED) }),
  z.strictObject({ kind: z.literal('minutes'), step: z.string() }),
  z.strictObject({
    kind: z.literal('until'),
    step: z.string(),
    condition: z.enum(['temperature', 'pH', 'coreTemperature', 'salt', 'flocculation', 'days', 'moisture', 'mass']),
  }),
]);
export type Place = z.infer<typeof placeSchema>;

/** What a number of a free input is: how it is written and rounded. */
export const freeUnitSchema = z.enum([
  'min',
  '°C',
  'mm',
  '%',
  'of the vat',
  'of the whey',
  'pH',
  'times',
  'g',
  'kPa',
  'days',
  'kg/L',
]);

/** One thing of the make that its maker may choose, and how far. */
export const freeInputSchema = z.strictObject({
  id: z.string().regex(/^[a-z][a-z0-9-]*$/),
  /** Ends where the number follows: "Brine for", "Cut cubes of". */
  name: z.string().min(1).max(48),
  unit: freeUnitSchema,
  /** The first is the input's own; the others move with it by the same difference. */
  places: z.array(placeSchema).min(1),
  low: z.number(),
  high: z.number(),
  /** Nobody sets it finer than this. */
  step: z.number().positive(),
  source: sourceSchema,
});
export type FreeInput = z.infer<typeof freeInputSchema>;
