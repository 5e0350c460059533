import { ACID_STATE } from '../science/acidification.ts';
import { LACTOSE_G_PER_MOL } from '../science/milk.ts';
import { lossShare } from '../science/syneresis-balance.ts';
import { liquidKgPerL } from '../science/vat-liquid.ts';
import type { Vat } from './vat-state.ts';

/**
 * What curd and whey weigh and hold, from one state: the solvent water of each, its strength (what the milk's serum carries
 * beside lactose), lactose and lactate, and how much fat and casein the curd has lost. Lactose counts with the lactate made of
 * it. Left out: the water that splits lactose (5 % of what was split), and the water that takes the room of solids leached out.
 */
export interface Contents {
  readonly waterKg: number;
  readonly fatKg: number;
  readonly caseinKg: number;
  readonly lactoseKg: number;
  /** Table salt; the milk's own salts are under other. */
  readonly saltKg: number;
  readonly otherKg: number;
}

/** Places of what has left the vat, per litre of milk: serum, serum times its strength, lactose, lactate; and of fat and fines the share of their final loss. */
export const DRAWN = { serumL: 0, strongL: 1, lactoseMM: 2, lactateMM: 3, lossShare: 4 } as const;
export const DRAWN_SIZE = Object.keys(DRAWN).length;

/** What a curd's weight and moisture follow from. */
export interface CurdState {
  readonly wheyFraction: number;
  /** Solvent water, as a share of all the milk's. */
  readonly serumL: number;
  readonly strength: number;
  /** Lactose, with the lactate made of it, per litre of milk. */
  readonly lactoseMM: number;
}

export const NOTHING: Contents = { waterKg: 0, fatKg: 0, caseinKg: 0, lactoseKg: 0, saltKg: 0, otherKg: 0 };
export const SUBSTANCES = ['waterKg', 'fatKg', 'caseinKg', 'lactoseKg', 'saltKg', 'otherKg'] as const;

export const totalKgOf = ({ waterKg, fatKg, caseinKg, lactoseKg, saltKg, otherKg }: Contents): number =>
  waterKg + fatKg + caseinKg + lactoseKg + saltKg + otherKg;

/** Litres of milk (and bulk starter) in the vat: what the acid state's amounts per litre are per. */
export const milkLOf = (vat: Vat): number => vat.milkKg / vat.inputs.ground.densityKgPerL;

/** All the milk's solvent water [kg]: one litre of serum per litre of milk, in the acid state's measure, is so much water. */
export const solventKgOf = (vat: Vat): number => (vat.milkKg / 100) * vat.inputs.basis.solventWaterKg;

/** Lactose, and what lactate was made of, from both in mmol per litre of milk. */
const inLactoseMM = (vat: Vat, lactoseMM: number, lactateMM: number): number =>
  lactoseMM + lactateMM / vat.inputs.acid.culture.lactatePerLactose;

const lactoseKg = (vat: Vat, lactoseMM: number): number => milkLOf(vat) * lactoseMM * 1e-6 * LACTOSE_G_PER_MOL;

/** Writes down the curd as it is now. */
export function noteCurd(vat: Vat, into: { -readonly [K in keyof CurdState]: CurdState[K] }): void {
  const { acid } = vat;
  into.wheyFraction = vat.wheyFraction;
  into.serumL = vat.conditions.curdSerumL;
  into.strength = acid[ACID_STATE.curdStrength] ?? 1;
  into.lactoseMM = inLactoseMM(vat, acid[ACID_STATE.curdLactoseMM] ?? 0, acid[ACID_STATE.curdLactateMM] ?? 0);
}

export function curdNow(vat: Vat): CurdState {
  const curd = { wheyFraction: 0, serumL: 0, strength: 0, lactoseMM: 0 };
  noteCurd(vat, curd);
  return curd;
}

/** Water of a curd that holds so much of the milk's solvent water, the bound water with it [kg]. */
export const curdWaterKg = (vat: Vat, serumL: number): number =>
  (vat.milkKg / 100) * (vat.inputs.basis.solventWaterKg * serumL + vat.inputs.basis.boundWaterKg);

/** What solvent water carries beside lactose [kg]. */
const carriedKg = (vat: Vat, strongL: number): number =>
  solventKgOf(vat) * strongL * vat.inputs.basis.otherPerSolventWater;

/** Curd in the vat, before the cut all of it, with the salt mixed in [kg]. */
export const curdKgOf = (vat: Vat): number => curdKgAt(vat, curdNow(vat));

export function curdKgAt(vat: Vat, curd: CurdState): number {
  const { basis } = vat.inputs;
  const gelKg = (vat.milkKg / 100) * (basis.gelSolidsKg + (1 - lossShare(curd.wheyFraction)) * basis.lossKg);
  const serumKg = curdWaterKg(vat, curd.serumL) + carriedKg(vat, curd.strength * curd.serumL);
  return gelKg + serumKg + lactoseKg(vat, curd.lactoseMM) + vat.saltMixedKg;
}

/** Water in the curd [%]. */
export const curdMoistureOf = (vat: Vat): number => curdMoistureAt(vat, curdNow(vat));

export const curdMoistureAt = (vat: Vat, curd: CurdState): number =>
  (100 * curdWaterKg(vat, curd.serumL)) / curdKgAt(vat, curd);

/** Fat, casein and minerals bound to it, where the curd has lost this share of what it will lose [kg]. */
function lostOf(vat: Vat, share: number): Pick<Contents, 'fatKg' | 'caseinKg' | 'otherKg'> {
  const { milk, recovery } = vat.inputs.basis;
  const perPart = (share * vat.milkKg) / 100;
  const caseinKg = perPart * (1 - recovery.caseinRecovery) * milk.caseinKg;
  return {
    fatKg: perPart * (1 - recovery.fatRecovery) * milk.fatKg,
    caseinKg,
    otherKg: recovery.mineralsPerCasein * caseinKg,
  };
}

/** What the curd holds. */
export function curdContents(vat: Vat): Contents {
  const { milk, recovery } = vat.inputs.basis;
  const curd = curdNow(vat);
  const lost = lostOf(vat, lossShare(curd.wheyFraction));
  const boundKg = (vat.milkKg / 100) * recovery.mineralsPerCasein * milk.caseinKg;
  return {
    waterKg: curdWaterKg(vat, curd.serumL),
    fatKg: (vat.milkKg / 100) * milk.fatKg - lost.fatKg,
    caseinKg: (vat.milkKg / 100) * milk.caseinKg - lost.caseinKg,
    lactoseKg: lactoseKg(vat, curd.lactoseMM),
    saltKg: vat.saltMixedKg,
    otherKg: carriedKg(vat, curd.strength * curd.serumL) + boundKg - lost.otherKg,
  };
}

/** Fat and fines afloat in the free whey, as a share of their final loss. */
export const lossInWhey = (vat: Vat): number =>
  vat.conditions.phase === 'curd-in-whey' ? lossShare(vat.wheyFraction) - (vat.drawn[DRAWN.lossShare] ?? 0) : 0;

/** What the free whey in the vat holds. */
export function wheyContents(vat: Vat): Contents {
  const { acid, conditions } = vat;
  return serumContents(vat, {
    serumL: conditions.wheyL,
    strongL: conditions.wheyL * (acid[ACID_STATE.wheyStrength] ?? 1),
    lactoseMM: acid[ACID_STATE.wheyLactoseMM] ?? 0,
    lactateMM: acid[ACID_STATE.wheyLactateMM] ?? 0,
    lossShare: lossInWhey(vat),
  });
}

/** What has left the vat as whey holds. */
export function drawnContents(vat: Vat): Contents {
  const at = (place: keyof typeof DRAWN): number => vat.drawn[DRAWN[place]] ?? 0;
  return serumContents(vat, {
    serumL: at('serumL'),
    strongL: at('strongL'),
    lactoseMM: at('lactoseMM'),
    lactateMM: at('lactateMM'),
    lossShare: at('lossShare'),
  });
}

function serumContents(vat: Vat, serum: Record<keyof typeof DRAWN, number>): Contents {
  const lost = lostOf(vat, serum.lossShare);
  return {
    waterKg: solventKgOf(vat) * serum.serumL,
    fatKg: lost.fatKg,
    caseinKg: lost.caseinKg,
    lactoseKg: lactoseKg(vat, inLactoseMM(vat, serum.lactoseMM, serum.lactateMM)),
    saltKg: 0,
    otherKg: carriedKg(vat, serum.strongL) + lost.otherKg,
  };
}

/** Cream or milk that goes onto the drained curd and stays there; null where the make has none. */
export function dressingContents(vat: Vat): Contents | null {
  const { dressing } = vat.inputs.ground;
  if (dressing === null) return null;
  const { milk, kg } = dressing;
  const share = kg / 100;
  return {
    waterKg: share * milk.waterPercent,
    fatKg: share * milk.fatPercent,
    caseinKg: share * milk.caseinPercent,
    lactoseKg: share * milk.lactosePercent,
    saltKg: 0,
    otherKg: share * (milk.solidsNotFatPercent - milk.caseinPercent - milk.lactosePercent),
  };
}

/** Litres that whey of this content fills. */
export const wheyLitres = (whey: Contents): number =>
  totalKgOf(whey) / liquidKgPerL({ liquid: 'whey', temperatureC: 37 });
