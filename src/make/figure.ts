import { z } from 'zod';

/**
 * A figure and where it comes from. In a make file no number stands without one of these beside it:
 * an index into the make's `sources`, or the words `common practice`.
 */
export const sourceSchema = z.union([z.int().min(0), z.literal('common practice')]);
export type Source = z.infer<typeof sourceSchema>;

/** One number with its source. The unit is in the name of the field that holds it. */
export const figureSchema = z.strictObject({ value: z.number(), source: sourceSchema });
export type Figure = z.infer<typeof figureSchema>;

/** A figure that is aimed at, with the range inside which the cheese is still the cheese meant. */
export const rangeFigureSchema = z.strictObject({
  low: z.number(),
  aim: z.number(),
  high: z.number(),
  source: sourceSchema,
});
export type RangeFigure = z.infer<typeof rangeFigureSchema>;

/** A model parameter as the make states it: mean and standard deviation. */
export const parameterSchema = z.strictObject({ mean: z.number(), spread: z.number().min(0), source: sourceSchema });
export type Parameter = z.infer<typeof parameterSchema>;
