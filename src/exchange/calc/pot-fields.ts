/** Fields and remarks that all sums with a pot share. */
import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { potForMilk, type Pot, type PotMaterial } from '../../science/pot.ts';
import { scaldTimes } from '../../science/scald.ts';
import { underContractNames } from './fields.ts';

export const liquid = z.enum(['milk', 'water', 'whey']);
export const potMaterial = z.enum(['steel', 'aluminium', 'copper', 'enamel']);
export const potKg = z.number().nonnegative().max(2000);
export const roomC = z.number().min(-5).max(45);

/** The pot for so much milk, problems named as the giver named the fields. */
export function potOf(input: {
  readonly volumeL: number;
  /** `volumeL` or `vatL`. */
  readonly volumeField: string;
  readonly potKg?: number | undefined;
  readonly potInsideMm?: number | undefined;
  readonly potMaterial?: PotMaterial;
}): Pot {
  const names = { milkL: input.volumeField, massKg: 'potKg', insideMm: 'potInsideMm' };
  return underContractNames(names, () =>
    potForMilk({
      milkL: input.volumeL,
      ...(input.potKg === undefined ? {} : { massKg: input.potKg }),
      ...(input.potInsideMm === undefined ? {} : { insideMm: input.potInsideMm }),
      ...(input.potMaterial === undefined ? {} : { material: input.potMaterial }),
    }),
  );
}

const LIFT_CAUTION_KG = 16; // UK manual handling filter (from memory)
const HOT_LIFT_C = 60;
const HOT_LIFT_L = 10; // common practice (no source)

/** A pot that is too heavy, or too hot and large, to be lifted by one person. */
export function hotLift(input: {
  readonly volumeL: number;
  readonly potKg: number;
  readonly temperatureC: number;
}): Finding[] {
  const massKg = input.volumeL * 1.03 + input.potKg;
  const isHot = input.temperatureC > HOT_LIFT_C && input.volumeL > HOT_LIFT_L;
  if (massKg <= LIFT_CAUTION_KG && !isHot) return [];
  return [
    {
      severity: 'caution',
      code: 'hot-lift',
      fields: { massKg },
      source:
        'UK manual handling filter, 16 kg (from memory); more than 10 L above 60 °C by hand: common practice (no source)',
      unconfirmed: true,
    },
  ];
}

const HANDS_FROM_C = 50; // curd at this warmth and water above: hands need protection, common practice (no source)

/** Water or curd that burns, with how soon it does. */
export function hotHands(input: { readonly code: 'hot-water' | 'stretch-hands'; readonly hotC: number }): Finding[] {
  const { code, hotC } = input;
  const times = scaldTimes({ waterC: hotC });
  if (hotC < HANDS_FROM_C || times.secondsToBlister === null || times.secondsToDeepBurn === null) return [];
  return [
    {
      severity: 'caution',
      code,
      fields: { hotC, secondsToBlister: times.secondsToBlister, secondsToDeepBurn: times.secondsToDeepBurn },
      source: 'Moritz & Henriques (1947), seen at second hand; above 60 °C a standards discussion of 1997',
    },
  ];
}

const CHECKED_L = { low: 2, high: 500 } as const;

/** A remark for pots outside the sizes that the loss model was looked at for. */
export function oddSize(input: { readonly field: string; readonly volumeL: number }): Finding[] {
  if (input.volumeL >= CHECKED_L.low && input.volumeL <= CHECKED_L.high) return [];
  return [
    {
      severity: 'caution',
      code: 'near-edge-of-validity',
      fields: { field: input.field, value: input.volumeL, ...CHECKED_L, unit: 'L' },
      source: 'loss model looked at for pots of 2 to 500 L',
    },
  ];
}
