/**
 * How much cheese the milk gives, and what it is made of.
 *
 * Three forms: Van Slyke and Price for Cheddar types, the retention form, and the general form, which counts what the gel
 * keeps and what the moisture carries. Known fault: forms at constant moisture over-credit fat and under-credit protein
 * against laboratory studies; say so when milks are compared. Families: `yield-families.ts`; legal names: `yield-names.ts`.
 */
import { InputError, outside, requireWithin, type Validity } from '../numbers/validity.ts';
import {
  CHEDDAR_WHOLE_MILK_BAND_PERCENT,
  CHEDDAR_WHOLE_MILK_FAT_PERCENT,
  type CheeseFamily,
  YIELD_FAMILIES,
} from './yield-families.ts';

const VAN_SLYKE_FAT_RECOVERY = 0.93; // Hill, university web notes, yield prediction, seen
const VAN_SLYKE_CASEIN_LOSS = 0.1; // kg per 100 kg milk, same
const VAN_SLYKE_SOLIDS_FACTOR = 1.09; // salt and whey solids, same

export interface YieldInput {
  readonly fatPercent: number;
  readonly caseinPercent: number;
  /** Of the cheese. */
  readonly moisturePercent: number;
}

export interface GeneralYieldInput extends YieldInput {
  readonly fatRecovery: number;
  readonly caseinRecovery: number;
  readonly mineralsPerCasein: number;
  readonly wheySolidsPerMoisture: number;
  /** Of the cheese. */
  readonly saltPercent: number;
}

export const yieldValidity: Validity = {
  fatPercent: { low: 0, high: 15, unit: '%', source: 'skim to the richest sheep and buffalo milk' },
  caseinPercent: { low: 1, high: 8, unit: '%', source: 'sheep milk reaches 8 % (Thom and Fisk 1918, Table V)' },
  moisturePercent: { low: 25, high: 85, unit: '%', source: 'very hard to cottage cheese' },
  fatRecovery: { low: 0.3, high: 1, unit: '', source: 'a share; below 0.3 something else went wrong (our own bound)' },
  caseinRecovery: {
    low: 0.5,
    high: 1,
    unit: '',
    source: 'a share; below 0.5 something else went wrong (our own bound)',
  },
  solidsFactor: { low: 1, high: 1.3, unit: '', source: 'salt and whey solids, 1.09 in Cheddar (our own bounds)' },
  saltPercent: { low: 0, high: 8, unit: '%', source: 'unsalted to brined cheese (our own bounds)' },
};

/**
 * Yield by Van Slyke and Price (kernel, unchecked): (0.93 F + C - 0.1) 1.09 / (1 - M).
 *
 * @param input  fat and casein of the milk [%], moisture of the cheese [%]
 * @returns cheese [kg per 100 kg of milk]
 * @source Van Slyke and Price, as printed in Hill, university web notes on yield prediction, seen
 */
export function vanSlykePriceYield(input: YieldInput & { fatRecovery?: number }): number {
  const kept = (input.fatRecovery ?? VAN_SLYKE_FAT_RECOVERY) * input.fatPercent;
  return (
    ((kept + input.caseinPercent - VAN_SLYKE_CASEIN_LOSS) * VAN_SLYKE_SOLIDS_FACTOR) / (1 - input.moisturePercent / 100)
  );
}

/**
 * Yield by retention (kernel, unchecked): (RF F + RC C) RS / (1 - M).
 *
 * @param input  fat and casein of the milk [%], moisture of the cheese [%], shares kept [-], solids factor [-]
 * @returns cheese [kg per 100 kg of milk]
 * @source form with RF 0.92, RC 0.95, RS 1.09 for Cheddar: web page on cheese yield, seen
 */
export function retentionYield(
  input: YieldInput & { fatRecovery: number; caseinRecovery: number; solidsFactor: number },
): number {
  return (
    ((input.fatRecovery * input.fatPercent + input.caseinRecovery * input.caseinPercent) * input.solidsFactor) /
    (1 - input.moisturePercent / 100)
  );
}

/**
 * Yield by the general form (kernel, unchecked): [Rf F + Rc C (1 + m)] / [1 - M (1 + h) - salt].
 *
 * @param input  fat and casein of the milk [%], moisture and salt of the cheese [%], and the family's four numbers
 * @returns cheese [kg per 100 kg of milk]
 * @source our own arrangement of published parts; cf. Emmons et al. (1990) J. Dairy Sci. 73:1365, abstract seen
 */
export function generalYield(input: GeneralYieldInput): number {
  const gelKg =
    input.fatRecovery * input.fatPercent + input.caseinRecovery * input.caseinPercent * (1 + input.mineralsPerCasein);
  return gelKg / (1 - (input.moisturePercent / 100) * (1 + input.wheySolidsPerMoisture) - input.saltPercent / 100);
}

/**
 * The same cheese at another moisture and salt (kernel, unchecked): Y (1 - M - s) / (1 - M' - s').
 *
 * @param input.kgPer100kg  yield as made [kg per 100 kg]
 * @param input.moisturePercent  as made [%]; `saltPercent` likewise
 * @param input.toMoisturePercent  wanted [%]; `toSaltPercent` likewise
 * @returns cheese [kg per 100 kg of milk]
 * @source mass balance
 */
export function adjustedYield(input: {
  kgPer100kg: number;
  moisturePercent: number;
  saltPercent: number;
  toMoisturePercent: number;
  toSaltPercent: number;
}): number {
  return (
    (input.kgPer100kg * (100 - input.moisturePercent - input.saltPercent)) /
    (100 - input.toMoisturePercent - input.toSaltPercent)
  );
}

/** Fat in dry matter [%] of a cheese: 100 fat / (100 - moisture) (kernel, unchecked). */
export function fatInDryMatterPercent(cheese: { fatPercent: number; moisturePercent: number }): number {
  return (100 * cheese.fatPercent) / (100 - cheese.moisturePercent);
}

/** Fat a cheese needs [%] for this fat in dry matter at this moisture (kernel, unchecked). */
export function fatForDryMatterPercent(cheese: { fatInDryMatterPercent: number; moisturePercent: number }): number {
  return (cheese.fatInDryMatterPercent * (100 - cheese.moisturePercent)) / 100;
}

/** Moisture in fat-free substance [%] of a cheese: 100 moisture / (100 - fat) (kernel, unchecked). */
export function moistureInFatFreePercent(cheese: { fatPercent: number; moisturePercent: number }): number {
  return (100 * cheese.moisturePercent) / (100 - cheese.fatPercent);
}

export interface YieldForecastInput extends YieldInput {
  readonly family: CheeseFamily;
  /** Default: Van Slyke and Price where the family is `cheddar`, else the general form. */
  readonly form?: 'van-slyke' | 'general';
  readonly fatRecovery?: number;
  readonly caseinRecovery?: number;
  /** Given: the retention form is used instead of the family's minerals and whey solids. */
  readonly solidsFactor?: number;
  readonly saltPercent?: number;
}

export interface YieldForecast {
  readonly kgPer100kg: number;
  readonly bandPercent: number;
  readonly form: 'van-slyke' | 'general' | 'retention';
  readonly cheeseFatPercent: number;
  readonly fatInDryMatterPercent: number;
  readonly moistureInFatFreePercent: number;
}

/** Which form a family uses when none is asked for. */
export const DEFAULT_FORM: Partial<Readonly<Record<CheeseFamily, 'van-slyke'>>> = { cheddar: 'van-slyke' };
export const DEFAULT_SALT_PERCENT = 1.2; // of the cheese; our own choice, with the published checks

/**
 * How much cheese to expect from this milk, and how much fat and moisture will be in it.
 *
 * @param input.fatPercent  of the milk [%], 0 to 15
 * @param input.caseinPercent  of the milk [%], 1 to 8
 * @param input.moisturePercent  of the cheese [%], 25 to 85
 * @param input.family  whose recoveries to use
 * @param input.form  van-slyke or general
 * @param input.fatRecovery  of the milk's fat [-], 0.3 to 1; instead of the family's
 * @param input.caseinRecovery  of the milk's casein [-], 0.5 to 1; instead of the family's
 * @param input.solidsFactor  [-], 1 to 1.3; then the retention form
 * @param input.saltPercent  of the cheese [%], 0 to 8; default 1.2
 * @returns kg per 100 kg of milk, half-width of its 90 % band in percent, and the cheese's fat and moisture figures
 * Valid: as `yieldValidity`. Uncertainty: 3 % whole-milk Cheddar, 8 % families with records, 17 % without.
 * @throws InputError naming every field that does not fit
 * @source as the three forms; bands our own, from the published checks
 */
export function yieldForecast(input: YieldForecastInput): YieldForecast {
  const { fatPercent, caseinPercent, moisturePercent, fatRecovery, caseinRecovery, solidsFactor } = input;
  const saltPercent = input.saltPercent ?? DEFAULT_SALT_PERCENT;
  const given = { fatPercent, caseinPercent, moisturePercent, fatRecovery, caseinRecovery, solidsFactor, saltPercent };
  const problems = outside(yieldValidity, given);
  if (input.form === 'van-slyke' && (caseinRecovery !== undefined || solidsFactor !== undefined)) {
    problems.push({
      code: 'contradiction',
      field: 'form',
      value: input.form,
      expected: 'the general form, where casein recovery or a solids factor is given',
      remedy: 'Leave out the form, or the recovery and the factor: Van Slyke and Price fix both.',
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  const row = YIELD_FAMILIES[input.family];
  const kept = { fatRecovery: fatRecovery ?? row.fatRecovery, caseinRecovery: caseinRecovery ?? row.caseinRecovery };
  const ownNumbers = caseinRecovery !== undefined || solidsFactor !== undefined;
  const form =
    solidsFactor !== undefined
      ? 'retention'
      : (input.form ?? (ownNumbers ? 'general' : (DEFAULT_FORM[input.family] ?? 'general')));
  const milk = { fatPercent, caseinPercent, moisturePercent };
  const kgPer100kg =
    solidsFactor !== undefined
      ? retentionYield({ ...milk, ...kept, solidsFactor })
      : form === 'van-slyke'
        ? vanSlykePriceYield({ ...milk, fatRecovery: kept.fatRecovery })
        : generalYield({ ...row, ...milk, ...kept, saltPercent });
  const cheeseFatPercent = (100 * kept.fatRecovery * fatPercent) / kgPer100kg;
  const cheese = { fatPercent: cheeseFatPercent, moisturePercent };
  const isWholeMilkCheddar = form === 'van-slyke' && fatPercent >= CHEDDAR_WHOLE_MILK_FAT_PERCENT;
  return {
    kgPer100kg,
    bandPercent: isWholeMilkCheddar ? CHEDDAR_WHOLE_MILK_BAND_PERCENT : row.bandPercent,
    form,
    cheeseFatPercent,
    fatInDryMatterPercent: fatInDryMatterPercent(cheese),
    moistureInFatFreePercent: moistureInFatFreePercent(cheese),
  };
}

export const stretchedYieldValidity: Validity = {
  curdKg: { low: 0.01, high: 500, unit: 'kg', source: 'our own bounds' },
  fatPercent: { low: 0, high: 50, unit: '%', source: 'our own bounds' },
  proteinPercent: { low: 5, high: 50, unit: '%', source: 'our own bounds' },
  fatLossFraction: {
    low: 0,
    high: 0.4,
    unit: '',
    source: 'one study 0.14 of the milk fat (abstract seen); bounds our own',
  },
  proteinLossFraction: { low: 0, high: 0.2, unit: '', source: 'one study 0.01 (abstract seen); bounds our own' },
};

/**
 * What leaves the curd with the hot stretching water: fat and protein. Water may come or go; that is not counted here.
 *
 * Loss = share x what is in the curd; the shares of `STRETCHING_LOSS` are of the milk's, so divide by the vat's recovery.
 *
 * @param input.curdKg  [kg], 0.01 to 500
 * @param input.fatPercent  of the curd [%], 0 to 50
 * @param input.proteinPercent  of the curd [%], 5 to 50
 * @param input.fatLossFraction  of the curd's fat [-], 0 to 0.4
 * @param input.proteinLossFraction  of the curd's protein [-], 0 to 0.2
 * @returns fat and protein lost, and curd left [kg]
 * Valid: as `stretchedYieldValidity`. Uncertainty: fat loss 0.03 to 0.14 of the milk's between studies.
 * @throws InputError naming every field that does not fit
 * @source mass balance; sizes as `STRETCHING_LOSS`
 */
export function stretchingLosses(input: {
  curdKg: number;
  fatPercent: number;
  proteinPercent: number;
  fatLossFraction: number;
  proteinLossFraction: number;
}): { fatLostKg: number; proteinLostKg: number; curdLeftKg: number } {
  requireWithin(stretchedYieldValidity, { ...input });
  const fatLostKg = (input.curdKg * input.fatPercent * input.fatLossFraction) / 100;
  const proteinLostKg = (input.curdKg * input.proteinPercent * input.proteinLossFraction) / 100;
  return { fatLostKg, proteinLostKg, curdLeftKg: input.curdKg - fatLostKg - proteinLostKg };
}

/** Whey boiled down to a brown cheese [kg]: whey solids over product solids (kernel, unchecked). A home kitchen gets about two thirds. */
export function boiledDownKg(input: {
  wheyKg: number;
  wheySolidsPercent: number;
  productSolidsPercent: number;
}): number {
  return (input.wheyKg * input.wheySolidsPercent) / input.productSolidsPercent;
}
