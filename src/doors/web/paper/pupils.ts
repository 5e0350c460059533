import { z } from 'zod';
import type { UnitSystem } from '../../../exchange/written.ts';
import { convert } from '../../../numbers/units.ts';

/** One pupil as typed; what is empty prints a blank. Kept on this device alone. */
export const pupilSchema = z.object({
  name: z.string().max(60),
  weightG: z.string().max(12),
  homeMilk: z.string().max(12),
  units: z.enum(['metric', 'us']),
});
export type Pupil = z.infer<typeof pupilSchema>;

const pupilsSchema = z.object({ leftColdAt: z.string().max(5), pupils: z.array(pupilSchema).min(1).max(40) });
export type Pupils = z.infer<typeof pupilsSchema>;

/** The first row, in the teacher's own units. */
export const onePupil = (units: UnitSystem): Pupil => ({ name: '', weightG: '', homeMilk: '', units });

/** A piece lighter than a crumb, or milk for more than a kitchen, is a slip of the pen: our own choice. */
const WEIGHT_G = { low: 5, high: 50_000 } as const;
const MILK_L = { low: 0.5, high: 50 } as const;

const numberOf = (typed: string): number => Number(typed.trim().replace(',', '.'));

/** Weight of a piece as typed, g; null for a blank, NaN for what cannot be. */
export function weightOf(typed: string): number | null {
  if (typed.trim() === '') return null;
  const value = numberOf(typed);
  return value >= WEIGHT_G.low && value <= WEIGHT_G.high ? value : Number.NaN;
}

/** Milk for the pot at home as typed in the pupil's units, L; null for a blank, NaN for what cannot be. */
export function homeMilkOf({ homeMilk, units }: Pupil): number | null {
  if (homeMilk.trim() === '') return null;
  const typed = numberOf(homeMilk);
  const volumeL = units === 'us' ? convert({ value: typed, from: 'us-quart', to: 'L' }) : typed;
  return volumeL >= MILK_L.low && volumeL <= MILK_L.high ? volumeL : Number.NaN;
}

const key = (streamId: string): string => `vatside.pupils.${streamId}`;

/** What was typed of a batch's pupils on this device. */
export function keptPupils(streamId: string, units: UnitSystem): Pupils {
  try {
    return pupilsSchema.parse(JSON.parse(localStorage.getItem(key(streamId)) ?? ''));
  } catch {
    return { leftColdAt: '', pupils: [onePupil(units)] };
  }
}

export const keepPupils = (streamId: string, pupils: Pupils): void =>
  localStorage.setItem(key(streamId), JSON.stringify(pupils));
