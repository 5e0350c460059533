import type { History } from '../make/history.ts';
import { SALT_FACTOR } from '../science/acidification.ts';
import { DRY_SALT_RETENTION, saltSlowsKernel } from '../science/dry-salting.ts';
import { curdWaterKg } from './contents.ts';
import { cultureKindOf } from './inputs.ts';
import type { Vat } from './vat-state.ts';

const KEPT_SD = 0.045; // 0.45 to 0.60 stays, `science/dry-salting.ts`, read as nine curds in ten (ours)

/**
 * Salt weighed and mixed into the drained curd: it is in there from now on, less what runs off with the whey, and slows the
 * culture. Each reading is a further portion. Salt for the brine says nothing of the cheese.
 */
export function observeSalt(input: { vat: Vat; reading: History['readings'][number] }): void {
  const { vat, reading } = input;
  if (reading.sample !== 'curd' && reading.sample !== 'cheese') return;
  if (vat.conditions.phase !== 'drained') return;
  mixSalt(vat, reading.value / 1000);
}

/** Salt goes into the drained curd [kg]. */
export function mixSalt(vat: Vat, saltKg: number): void {
  vat.saltMixedKg += saltKg;
  slowBySalt(vat);
}

/** Slows the culture by the salt that the curd keeps, in the water that it has now: the more of it the press takes, the more. */
export function slowBySalt(vat: Vat): void {
  const kind = cultureKindOf(vat.inputs.ground.plan.make);
  const isMesophilic = kind === 'mesophilic' || kind === 'mesophilic-aromatic' || kind === 'kefir';
  vat.conditions.saltFactor = saltSlowsKernel(
    (100 * saltKeptKg(vat)) / curdWaterKg(vat, vat.conditions.curdSerumL),
    isMesophilic ? SALT_FACTOR.mesophilic : SALT_FACTOR.thermophilic,
  );
}

/** Salt that this member's curd kept of what was mixed in [kg]. */
export const saltKeptKg = (vat: Vat): number => vat.saltMixedKg * keptShare(vat);

/** Share of dry salt that this member's cheese keeps. */
export function keptShare(vat: Vat): number {
  const { saltKeptFraction, saltKeptZ } = vat.inputs;
  return Number.isNaN(saltKeptFraction) ? DRY_SALT_RETENTION + KEPT_SD * saltKeptZ : saltKeptFraction;
}
