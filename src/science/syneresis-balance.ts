/**
 * What stays in the curd and what leaves with the whey: a mass balance of 100 kg of milk that closes.
 *
 * Fat, casein and the minerals bound to casein are held by the gel, less what is lost at cutting; the serum (water,
 * lactose, whey protein, free salts) leaves unchanged with the whey. `curdAndWhey` leaves out the water that carries no
 * lactose, and washing; a vat that is washed keeps its solvent water and what is in it apart (`solventShareKernel`).
 */
import { requireWithin, type Validity } from '../numbers/validity.ts';
import type { MilkComposition } from './milk.ts';

/** Kilograms per 100 kg of milk. */
export interface Parts {
  readonly waterKg: number;
  readonly fatKg: number;
  readonly caseinKg: number;
  readonly wheyProteinKg: number;
  readonly lactoseKg: number;
  readonly saltsKg: number;
  readonly otherKg: number;
}

export type MilkParts = Pick<
  MilkComposition,
  'fatPercent' | 'proteinPercent' | 'caseinPercent' | 'lactosePercent' | 'ashPercent' | 'solidsNotFatPercent'
>;

/** How much of fat and casein the vat keeps, and minerals bound per kg of casein; families in `yield.ts`. */
export interface VatRecovery {
  readonly fatRecovery: number;
  readonly caseinRecovery: number;
  readonly mineralsPerCasein: number;
}

/** What a curd is made of, worked out once a milk. Kilograms per 100 kg of milk. */
export interface CurdBasis {
  readonly milk: Parts;
  readonly recovery: VatRecovery;
  /** Fat, casein and bound minerals that the gel keeps when all losses are over. */
  readonly gelSolidsKg: number;
  /** Fat, casein and bound minerals lost when all losses are over. */
  readonly lossKg: number;
  readonly serumKg: number;
  readonly waterInSerumFraction: number;
  /** Water that carries no lactose: it stays with the casein. */
  readonly boundWaterKg: number;
  /** The rest of the milk's water. */
  readonly solventWaterKg: number;
  /** Whey protein, free salts and what else the serum carries beside lactose, kg per kg of the milk's solvent water. */
  readonly otherPerSolventWater: number;
}

export interface CurdAndWhey {
  readonly curd: Parts;
  readonly whey: Parts;
  /** Per 100 kg of milk. */
  readonly curdKg: number;
  readonly wheyKg: number;
  readonly moisturePercent: number;
  readonly fatPercent: number;
  readonly fatInDryMatterPercent: number;
  readonly proteinPercent: number;
}

/** Losses of fat and fines happen at cutting and soon after: all are over when half the milk has left as whey. Our own choice. */
const LOSSES_OVER_AT = 0.5;
// A quarter of the water in a firm curd carries no lactose, about 0.4 kg per kg of casein; our own fit to lactose in Cheddar
// moisture (Hou et al. 2012, Int. Dairy J. 25:21, abstract seen).
const BOUND_WATER_PER_CASEIN = 0.4;
const LEAST_SOLVENT_SHARE = 0.01; // our own choice: no curd is pressed drier in a vat
const WHEY_DENSITY_KG_PER_L = 1.025; // at 20-35 °C; our own rounding of 1.02-1.03

export const balanceValidity: Validity = {
  wheyFraction: { low: 0, high: 0.97, unit: '', source: 'no more can leave than the serum (our own bound)' },
};

/** Splits a milk into what a gel holds and what is serum (kernel, unchecked). */
export function curdBasis(milk: MilkParts, recovery: VatRecovery): CurdBasis {
  const parts: Parts = {
    waterKg: 100 - milk.fatPercent - milk.solidsNotFatPercent,
    fatKg: milk.fatPercent,
    caseinKg: milk.caseinPercent,
    wheyProteinKg: milk.proteinPercent - milk.caseinPercent,
    lactoseKg: milk.lactosePercent,
    saltsKg: milk.ashPercent,
    otherKg: milk.solidsNotFatPercent - milk.proteinPercent - milk.lactosePercent - milk.ashPercent,
  };
  const gel = 1 + recovery.mineralsPerCasein;
  const serumKg = 100 - parts.fatKg - parts.caseinKg * gel;
  const boundWaterKg = BOUND_WATER_PER_CASEIN * parts.caseinKg;
  const solventWaterKg = parts.waterKg - boundWaterKg;
  return {
    milk: parts,
    recovery,
    gelSolidsKg: recovery.fatRecovery * parts.fatKg + recovery.caseinRecovery * parts.caseinKg * gel,
    lossKg: (1 - recovery.fatRecovery) * parts.fatKg + (1 - recovery.caseinRecovery) * parts.caseinKg * gel,
    serumKg,
    waterInSerumFraction: parts.waterKg / serumKg,
    boundWaterKg,
    solventWaterKg,
    otherPerSolventWater: (serumKg - parts.waterKg - parts.lactoseKg) / solventWaterKg,
  };
}

/**
 * Share of the final losses of fat and fines that has happened when this share of the milk's mass has left as whey
 * (kernel, unchecked).
 * @source our own choice: in step with the first half of the whey
 */
export function lossShare(wheyFraction: number): number {
  return wheyFraction >= LOSSES_OVER_AT ? 1 : wheyFraction / LOSSES_OVER_AT;
}

/**
 * Moisture of the curd [%] when this share of the milk's mass has left as whey (kernel, unchecked, allocates nothing).
 *
 * @param basis  from `curdBasis`
 * @param wheyFraction  share of the milk's mass expelled [-]
 * @source mass balance
 */
export function curdMoistureKernel(basis: CurdBasis, wheyFraction: number): number {
  const serumLeftKg = basis.serumKg - (100 * wheyFraction - basis.lossKg * lossShare(wheyFraction));
  return (basis.waterInSerumFraction * serumLeftKg) / (1 - wheyFraction);
}

/**
 * Share of the milk's mass that must have left as whey for a curd of this moisture (kernel, unchecked): the inverse of
 * `curdMoistureKernel` once the losses are over, so for curd below about 80 %.
 *
 * @param basis  from `curdBasis`
 * @param moisturePercent  of the curd [%]
 * @source mass balance
 */
export function wheyFractionForMoisture(basis: CurdBasis, moisturePercent: number): number {
  const a = basis.waterInSerumFraction;
  return (a * (basis.serumKg + basis.lossKg) - moisturePercent) / (100 * a - moisturePercent);
}

/**
 * Solvent water left in the curd, as a share of all the milk's (kernel, unchecked): the water of `curdMoistureKernel` less
 * what is bound to casein.
 *
 * @param basis  from `curdBasis`
 * @param wheyFraction  share of the milk's mass expelled [-]
 * @source mass balance; bound water our own fit to Hou et al. (2012), abstract seen
 */
export function solventShareKernel(basis: CurdBasis, wheyFraction: number): number {
  const serumLeftKg = basis.serumKg - (100 * wheyFraction - basis.lossKg * lossShare(wheyFraction));
  const solventKg = basis.waterInSerumFraction * serumLeftKg - basis.boundWaterKg;
  return Math.max(solventKg / basis.solventWaterKg, LEAST_SOLVENT_SHARE);
}

/**
 * Share of the milk's mass that must have left as whey for the curd to hold this share of the milk's solvent water (kernel,
 * unchecked): the inverse of `solventShareKernel` once the losses are over.
 *
 * @param basis  from `curdBasis`
 * @param solventShare  of the milk's solvent water [-]
 * @source mass balance
 */
export function wheyFractionForSolvent(basis: CurdBasis, solventShare: number): number {
  const waterKg = solventShare * basis.solventWaterKg + basis.boundWaterKg;
  return (basis.serumKg + basis.lossKg - waterKg / basis.waterInSerumFraction) / 100;
}

/**
 * What the curd and the whey are made of when this share of the milk's mass has left as whey.
 *
 * Serum out = whey less the fat and fines lost; each part of curd and whey adds up to the milk's.
 *
 * @param input.basis  from `curdBasis`
 * @param input.wheyFraction  [-], 0 to 0.97
 * @returns parts of curd and whey [kg per 100 kg of milk], masses and percents of the curd
 * Valid: as `balanceValidity`, and no more whey than there is serum. Uncertainty: the balance is exact; for the share of
 * whey see `CURD_MOISTURE_ERROR` in `syneresis.ts`.
 * @throws InputError outside the range
 * @source mass balance; recoveries as their family states
 */
export function curdAndWhey(input: { basis: CurdBasis; wheyFraction: number }): CurdAndWhey {
  requireWithin(balanceValidity, { wheyFraction: input.wheyFraction });
  const { basis, wheyFraction } = input;
  const { milk, recovery } = basis;
  const lost = lossShare(wheyFraction);
  const gel = 1 + recovery.mineralsPerCasein;
  const fatLostKg = lost * (1 - recovery.fatRecovery) * milk.fatKg;
  const caseinLostKg = lost * (1 - recovery.caseinRecovery) * milk.caseinKg;
  const serumOutKg = 100 * wheyFraction - fatLostKg - caseinLostKg * gel;
  const out = serumOutKg / basis.serumKg;
  const boundKg = recovery.mineralsPerCasein * milk.caseinKg;
  const whey: Parts = {
    waterKg: out * milk.waterKg,
    fatKg: fatLostKg,
    caseinKg: caseinLostKg,
    wheyProteinKg: out * milk.wheyProteinKg,
    lactoseKg: out * milk.lactoseKg,
    saltsKg: out * (milk.saltsKg - boundKg) + recovery.mineralsPerCasein * caseinLostKg,
    otherKg: out * milk.otherKg,
  };
  const curd: Parts = {
    waterKg: milk.waterKg - whey.waterKg,
    fatKg: milk.fatKg - whey.fatKg,
    caseinKg: milk.caseinKg - whey.caseinKg,
    wheyProteinKg: milk.wheyProteinKg - whey.wheyProteinKg,
    lactoseKg: milk.lactoseKg - whey.lactoseKg,
    saltsKg: milk.saltsKg - whey.saltsKg,
    otherKg: milk.otherKg - whey.otherKg,
  };
  const curdKg = totalKg(curd);
  return {
    curd,
    whey,
    curdKg,
    wheyKg: totalKg(whey),
    moisturePercent: (100 * curd.waterKg) / curdKg,
    fatPercent: (100 * curd.fatKg) / curdKg,
    fatInDryMatterPercent: (100 * curd.fatKg) / (curdKg - curd.waterKg),
    proteinPercent: (100 * (curd.caseinKg + curd.wheyProteinKg)) / curdKg,
  };
}

/** Sum of all parts [kg]. */
export function totalKg(parts: Parts): number {
  return (
    parts.waterKg + parts.fatKg + parts.caseinKg + parts.wheyProteinKg + parts.lactoseKg + parts.saltsKg + parts.otherKg
  );
}

/** Litres of whey per litre of milk from the share of the milk's mass expelled (kernel, unchecked). */
export function wheyLPerLMilk(input: { wheyFraction: number; milkDensityKgPerL: number }): number {
  return (input.wheyFraction * input.milkDensityKgPerL) / WHEY_DENSITY_KG_PER_L;
}
