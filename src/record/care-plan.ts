/** What a cheese wants while it ages, as days: stays one after the other, each with its rhythm. A date is hung on it later. */
import { z } from 'zod';

export const RINDS_KEPT = ['bare', 'mould', 'washed', 'waxed', 'vacuum'] as const;
export const rindSchema = z.enum(RINDS_KEPT);

/** What is done again and again, in the order of a hand at the shelf. */
export const RHYTHM_JOBS = ['look', 'brush', 'wash', 'turn', 'weigh'] as const;
export type RhythmJob = (typeof RHYTHM_JOBS)[number];
/** What is done once, at the beginning of a stay. */
export const ONCE_JOBS = ['wax', 'pack', 'move'] as const;
export type OnceJob = (typeof ONCE_JOBS)[number];
export type CareJob = RhythmJob | OnceJob | 'taste';

const everyDays = z.number().min(0.5).max(90);

export const staySchema = z.strictObject({
  /** How long it lasts [d]; the last one may go on until the cheese is eaten. */
  days: z.number().positive().max(1500).optional(),
  temperatureC: z.number().min(-5).max(40).optional(),
  humidityPercent: z.number().min(0).max(100).optional(),
  every: z.strictObject({ look: everyDays.optional(), brush: everyDays.optional(), wash: everyDays.optional(), turn: everyDays.optional(), weigh: everyDays.optional() }),
  once: z.array(z.enum(ONCE_JOBS)).max(3).optional(),
  /** What it is washed with, waxed in or packed in, in plain words. */
  with: z.string().max(120).optional(),
}); // prettier-ignore
export type Stay = z.infer<typeof staySchema>;

export const careSchema = z.strictObject({
  stays: z.array(staySchema).min(1).max(12),
  /** Days after making on which it is tasted. */
  tasteDays: z.array(z.number().positive().max(1500)).max(12),
  /** When it is usually eaten, days after making. */
  readyDays: z
    .strictObject({ from: z.number().nonnegative().max(1500), to: z.number().positive().max(2000) })
    .optional(),
  /** Where the rhythm and the days are from. */
  source: z.string().max(400),
});
export type Care = z.infer<typeof careSchema>;
