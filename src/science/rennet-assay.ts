/** How strong a rennet is, from the time it took to bring the first flecks in a cup of milk. */
import { InputError, outside, type Validity } from '../numbers/validity.ts';
import { CLOTTING_LN_SD, clottingState, clottingTimeMin, clottingValidity, type TimeBand } from './coagulation.ts';
import { DROPS_PER_ML } from './rennet.ts';

export interface RennetAssay {
  readonly milkMl: number;
  /** Undiluted rennet [mL], or drops of it. */
  readonly rennetMl?: number;
  readonly drops?: number;
  readonly temperatureC: number;
  readonly flocculationMin: number;
  readonly pH?: number;
}

export const MAKES_CURD = ['yes', 'weak', 'no'] as const;
export type MakesCurd = (typeof MAKES_CURD)[number];

const DEFAULT_PH = 6.65; // fresh pasteurised cow's milk, middle of published means 6.64-6.66
const WEAK_BELOW_IMCU_PER_ML = 60; // our own choice: twice to four times the usual volume would be needed
const USELESS_BELOW_IMCU_PER_ML = 15; // our own choice: milk would taste of it
const DROP_LN_SD = Math.log(DROPS_PER_ML.high / DROPS_PER_ML.typical) / 1.645; // our own reading of 20 ± 10 drops per mL

export const assayValidity: Validity = {
  milkMl: { low: 20, high: 5000, unit: 'mL', source: 'a cup to a small pot (our own bounds)' },
  rennetMl: { low: 0.005, high: 50, unit: 'mL', source: 'our own bounds' },
  drops: { low: 1, high: 200, unit: 'drops', source: 'our own bounds' },
  flocculationMin: { low: 0.5, high: 240, unit: 'min', source: 'faster cannot be timed, slower is no set' },
  ...Object.fromEntries(
    Object.entries(clottingValidity).filter(([field]) => field === 'temperatureC' || field === 'pH'),
  ),
};

/**
 * Strength of a rennet from a cup test, with its band.
 *
 * The clotting model is turned round: dose in the cup = 50 IMCU/L x model time at 50 IMCU/L over the time seen.
 *
 * @param input.milkMl  milk in the cup [mL], 20 to 5000
 * @param input.rennetMl  undiluted rennet [mL], 0.005 to 50; or
 * @param input.drops  drops of it, 1 to 200, at 20 (10 to 30) per mL
 * @param input.temperatureC  [°C], 21 to 46
 * @param input.flocculationMin  rennet in to first flecks [min], 0.5 to 240
 * @param input.pH  [-], 5.6 to 6.9; default 6.65
 * @returns strength [IMCU/mL] with its 90 % band, and whether it makes curd at a sensible dose
 * Valid: as `assayValidity`. Uncertainty: that of the clotting model (factor 1.5), and of the drops where they were counted.
 * @throws InputError naming every field that does not fit
 * @source as `clottingTime`; the limits of "weak" are our own
 */
export function rennetStrengthFromAssay(input: RennetAssay): { strengthImcuPerMl: TimeBand; makesCurd: MakesCurd } {
  const { milkMl, rennetMl, drops, temperatureC, flocculationMin } = input;
  const pH = input.pH ?? DEFAULT_PH;
  const problems = outside(assayValidity, { milkMl, rennetMl, drops, temperatureC, flocculationMin, pH });
  if ((rennetMl === undefined) === (drops === undefined)) {
    problems.push({
      code: rennetMl === undefined ? 'missing' : 'contradiction',
      field: 'rennetMl',
      value: rennetMl,
      unit: 'mL',
      expected: 'either millilitres or drops of undiluted rennet',
      remedy: 'Give one of the two.',
    });
  }
  if (problems.length > 0) throw new InputError(problems);
  const ml = rennetMl ?? (drops ?? 0) / DROPS_PER_ML.typical;
  const atFifty = clottingTimeMin(clottingState({ doseImcuPerL: 50, temperatureC, pH }));
  const inTheCupImcuPerL = (50 * atFifty) / flocculationMin;
  const p50 = (inTheCupImcuPerL * milkMl) / 1000 / ml;
  const factor = Math.exp(1.645 * Math.hypot(CLOTTING_LN_SD, rennetMl === undefined ? DROP_LN_SD : 0));
  return {
    strengthImcuPerMl: { p5: p50 / factor, p50, p95: p50 * factor },
    makesCurd: p50 < USELESS_BELOW_IMCU_PER_ML ? 'no' : p50 < WEAK_BELOW_IMCU_PER_ML ? 'weak' : 'yes',
  };
}
