/**
 * Making, strengthening and thinning a brine, and what a batch of cheese does to it: mass balances, exact.
 */
import { InputError, type Problem, requireWithin, type Validity } from '../numbers/validity.ts';
import { brineDensityKgPerM3 } from './brine.ts';

/** A tub of brine: its mass and the mass fraction of salt in it. */
export interface Brine {
  readonly massKg: number;
  readonly saltFraction: number;
}

/**
 * Salt and water for so many litres of brine. Weigh them: litres of water and salt do not add up to litres of brine.
 * @param input.volumeL litres of brine wanted [L], above 0
 * @param input.saltFraction mass fraction of salt [kg salt per kg brine], 0 to 0.267
 * @param input.temperatureC temperature at which the volume counts [°C], 0 to 40
 * @param input.saltMoistureFraction water in the salt as bought [kg/kg], 0 (dry) or more
 * @returns salt as bought [kg], water [kg] and the mass of the brine [kg]
 * Valid: as `brineValidity`. Uncertainty: that of the density fit.
 * @throws InputError outside the range
 * @source mass balance
 */
export function brineToMake(input: {
  readonly volumeL: number;
  readonly saltFraction: number;
  readonly temperatureC: number;
  readonly saltMoistureFraction?: number;
}): { readonly saltKg: number; readonly waterKg: number; readonly massKg: number } {
  const { saltFraction, temperatureC } = input;
  const massKg = (brineDensityKgPerM3({ saltFraction, temperatureC }) * input.volumeL) / 1000;
  const saltKg = (saltFraction * massKg) / (1 - (input.saltMoistureFraction ?? 0));
  return { saltKg, waterKg: massKg - saltKg, massKg };
}

/**
 * Dry salt that brings a brine up to a strength: M (x2 - x1)/(1 - x2).
 * @param input.brine the brine as it is
 * @param input.saltFraction strength wanted [kg salt per kg brine], at least the present one
 * @returns salt to add [kg]
 * Valid: any mass. Uncertainty: none beyond the inputs'.
 * @throws InputError when it is already stronger than wanted
 * @source mass balance
 */
export function saltToStrengthenKg(input: { readonly brine: Brine; readonly saltFraction: number }): number {
  const { brine, saltFraction } = input;
  if (saltFraction < brine.saltFraction) throw new InputError([contradiction({ ...input, wanted: 'stronger' })]);
  return (brine.massKg * (saltFraction - brine.saltFraction)) / (1 - saltFraction);
}

/**
 * Water that thins a brine to a strength: M (x1 - x2)/x2.
 * @param input.brine the brine as it is
 * @param input.saltFraction strength wanted [kg salt per kg brine], above 0, at most the present one
 * @returns water to add [kg]
 * Valid: any mass. Uncertainty: none beyond the inputs'.
 * @throws InputError when it is already weaker than wanted
 * @source mass balance
 */
export function waterToDiluteKg(input: { readonly brine: Brine; readonly saltFraction: number }): number {
  const { brine, saltFraction } = input;
  if (!(saltFraction > 0) || saltFraction > brine.saltFraction)
    throw new InputError([contradiction({ ...input, wanted: 'weaker' })]);
  return (brine.massKg * (brine.saltFraction - saltFraction)) / saltFraction;
}

function contradiction(input: { brine: Brine; saltFraction: number; wanted: 'stronger' | 'weaker' }): Problem {
  return {
    code: 'contradiction',
    field: 'saltFraction',
    value: input.saltFraction,
    unit: 'kg salt per kg brine',
    expected: `${input.wanted === 'stronger' ? 'at least' : 'above 0 and at most'} ${input.brine.saltFraction}, the brine as it is`,
    remedy: input.wanted === 'stronger' ? 'Add water instead of salt.' : 'Add salt instead of water.',
  };
}

/**
 * The brine after a batch: it lost salt to the cheese and gained whey from it.
 *
 * x' = (x M - S)/(M - S + W)
 *
 * @param input.brine the brine before
 * @param input.saltTakenKg salt the cheese took [kg]
 * @param input.waterGivenKg water the cheese gave [kg]
 * @returns the brine after, and the salt that restores its strength [kg]: S + W x/(1 - x), more than the cheese took
 * Valid: any mass. Uncertainty: that of the uptake; the whey's own solids are left out.
 * @source mass balance
 */
export function brineAfterBatch(input: {
  readonly brine: Brine;
  readonly saltTakenKg: number;
  readonly waterGivenKg: number;
}): Brine & { readonly saltToRestoreKg: number } {
  const { brine, saltTakenKg, waterGivenKg } = input;
  const massKg = brine.massKg - saltTakenKg + waterGivenKg;
  const saltFraction = (brine.saltFraction * brine.massKg - saltTakenKg) / massKg;
  return { massKg, saltFraction, saltToRestoreKg: saltToRestoreKg({ ...input, saltFraction: brine.saltFraction }) };
}

/** Salt that restores a brine's strength, whatever its mass [kg]: S + W x/(1 - x). */
export function saltToRestoreKg(input: {
  readonly saltFraction: number;
  readonly saltTakenKg: number;
  readonly waterGivenKg: number;
}): number {
  return input.saltTakenKg + (input.waterGivenKg * input.saltFraction) / (1 - input.saltFraction);
}

const VINEGAR_ACID_MOL_PER_L = 0.83; // 5 % vinegar, 50 g/L over 60.05 g/mol
const ACETIC_PKA = 4.76; // acetic acid at 25 °C, from memory
const CARBONIC_PKA = 6.35; // first step of carbonic acid at 25 °C, from memory
const CALCIUM_SOLUTION_G_PER_ML = 1.33; // density of 33 % CaCl2 solution, from memory
const CALCIUM_SOLUTION_FRACTION = 0.33; // as usually sold, common practice (no source)

/** Grams of anhydrous calcium chloride for a litre of new brine: common practice (no source), 1 to 2 g/L. */
export const NEW_BRINE_CALCIUM_G_PER_L = 1.5;

export const brineDressingValidity: Validity = {
  targetPH: { low: 4.5, high: 5.8, unit: 'pH', source: 'our own choice: the pH of cheeses that go into brine' },
  alkalinityMeqPerL: { low: 0, high: 10, unit: 'meq/L', source: 'our own choice: soft to very hard tap water' },
};

/**
 * Calcium and vinegar for a new brine, so that it does not draw calcium and acid out of the rind and make it slimy.
 *
 * acid [eq/L] = A/(1 + 10^(pH - 6.35)), over the dissociated share of acetic acid at that pH. Add half, stir, measure.
 *
 * @param input.volumeL litres of brine [L]
 * @param input.targetPH the cheese's own pH when it goes in [-], 4.5 to 5.8
 * @param input.alkalinityMeqPerL the tap water's alkalinity [meq/L], 0 to 10; 2 soft to middling, 5 hard
 * @param input.calciumGPerL anhydrous calcium chloride [g per L of brine], default 1.5
 * @returns vinegar of 5 % [mL] and calcium chloride solution of 33 % [mL]
 * Valid: as `brineDressingValidity`. Uncertainty: factor 2 on the vinegar, for want of the water's alkalinity.
 * Assumes: fresh water and salt; a used brine holds buffers of its own.
 * @throws InputError outside the range
 * @source carbonate balance, our own; calcium: Öztürk & Güncü (2021) Turk. J. Agric. Food Sci. Technol. 9:650 [seen, abstract]
 */
export function newBrineDressing(input: {
  readonly volumeL: number;
  readonly targetPH: number;
  readonly alkalinityMeqPerL: number;
  readonly calciumGPerL?: number;
}): { readonly vinegarML: number; readonly calciumSolutionML: number } {
  const { volumeL, targetPH, alkalinityMeqPerL, calciumGPerL = NEW_BRINE_CALCIUM_G_PER_L } = input;
  requireWithin(brineDressingValidity, { targetPH, alkalinityMeqPerL });
  const neededEqPerL = alkalinityMeqPerL / 1000 / (1 + 10 ** (targetPH - CARBONIC_PKA));
  const dissociatedFraction = 1 / (1 + 10 ** (ACETIC_PKA - targetPH));
  return {
    vinegarML: (1000 * volumeL * neededEqPerL) / dissociatedFraction / VINEGAR_ACID_MOL_PER_L,
    calciumSolutionML: (volumeL * calciumGPerL) / CALCIUM_SOLUTION_FRACTION / CALCIUM_SOLUTION_G_PER_ML,
  };
}
