import { z } from 'zod';

/**
 * Something that moved the milk or the curd beside the plan, in elapsed minutes since the batch's zero. What a mishap or a
 * remedy means to the vat, without saying whose fault or whose idea it was.
 */
export const disturbanceSchema = z.discriminatedUnion('kind', [
  /** The vat stood at this temperature, by the maker's thermometer; no minutes: it was brought to it and left to itself. */
  z.strictObject({
    kind: z.literal('temperature'),
    elapsedMin: z.number(),
    minutes: z.number().min(0),
    temperatureC: z.number(),
  }),
  /** Nothing warmed it: no burner, no bath, nobody looking. */
  z.strictObject({ kind: z.literal('noHeat'), elapsedMin: z.number(), minutes: z.number().min(0) }),
  /** The curd in its whey was cut or broken to this size. */
  z.strictObject({ kind: z.literal('cut'), elapsedMin: z.number(), cubeMm: z.number().positive() }),
]);
export type Disturbance = z.infer<typeof disturbanceSchema>;
