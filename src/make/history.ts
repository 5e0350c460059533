import { z } from 'zod';
import type { Disturbance } from './disturbance.ts';
import { judgedSchema } from './judgement.ts';
import { sampleSchema, ingredientSchema } from './step.ts';

/** Quantities that a person or a probe can note during a make. */
export const readingQuantities = [
  'pH', 'temperatureC', 'titratableAcidityD', 'flocculationMin', 'massKg', 'wheyL', 'saltG', 'iceWaterC',
] as const; // prettier-ignore
export const readingQuantitySchema = z.enum(readingQuantities);
export type ReadingQuantity = z.infer<typeof readingQuantitySchema>;

/** A value somebody or something measured, in the canonical unit of its quantity (`quantity.ts`). */
export const readingSchema = z.strictObject({
  quantity: readingQuantitySchema,
  value: z.number(),
  sample: sampleSchema,
  sampleTemperatureC: z.number().optional(),
  instrumentId: z.string().optional(),
});
export type Reading = z.infer<typeof readingSchema>;

/** The facts of one batch in elapsed minutes since its start, as the simulator takes them. */
export interface History {
  /** Now, in minutes since the batch's zero (planned or actual start of the first step). */
  readonly nowMin: number;
  readonly steps: readonly { readonly stepId: string; readonly startedMin: number; readonly endedMin?: number }[];
  readonly readings: readonly (Reading & { readonly elapsedMin: number })[];
  readonly judgements: readonly (z.infer<typeof judgedSchema> & { readonly elapsedMin: number })[];
  /** What went in. What goes in after the step of its ingredient is over comes on top. */
  readonly additions: readonly {
    readonly ingredient: z.infer<typeof ingredientSchema>;
    /** Share of the planned amount that really went in; 1 = as planned. */
    readonly fractionOfPlan: number;
    readonly elapsedMin: number;
  }[];
  /** What moved the vat beside the plan; none where left out. */
  readonly disturbances?: readonly Disturbance[];
  /** Nobody noted a step since this minute: the plan is taken to have been kept from then on. Left out while the make is followed. */
  readonly assumedFromMin?: number;
}

/** Nothing has happened yet. */
export const NO_HISTORY: History = { nowMin: 0, steps: [], readings: [], judgements: [], additions: [] };
