/**
 * What weighings say about a cheese's rind: its own leakiness instead of the usual one. One number, log-normal, weighed on a
 * grid; a weighing later than the first outweighs what was assumed.
 */
import { normalQuantile } from '../numbers/normal.ts';
import { InputError, type Problem } from '../numbers/validity.ts';
import { agedMassKernel, type AgeingInput, RIND_HABITS } from './ageing.ts';

export interface Weighing {
  readonly day: number;
  readonly massKg: number;
}

/** Leakiness as a factor on the usual one: median, and standard deviation of its natural log. */
export interface LearnedLeak {
  readonly factor: number;
  readonly logSd: number;
}

const BAND_Z = normalQuantile(0.95); // half width of a 90 % band in standard deviations
const MODEL_BAND_FACTOR = 1.1; // our own choice: ±10 % of the loss after two weighings
const SCALE_FRACTION = 0.001; // of the mass, our own choice: a kitchen scale
const SCALE_LEAST_KG = 0.001; // kg, our own choice: one division of a kitchen scale
const GRID = 241; // our own choice: steps of a fortieth of a standard deviation are not seen in the answer
const GRID_SDS = 8; // our own choice: wide enough for a rind three times off
const GAIN_ALLOWED = 1.01; // our own choice: more than this is a slip, not a scale

/**
 * Refuses weighings that a drying cheese cannot give: heavier than at the start, or a day before it.
 * @throws InputError naming each
 */
export function requireWeighings(input: { readonly massKg: number; readonly weighings: readonly Weighing[] }): void {
  const problems = input.weighings.flatMap((weighing, i): Problem[] =>
    weighing.massKg > input.massKg * GAIN_ALLOWED
      ? [
          {
            code: 'contradiction',
            field: `weighings[${i}].massKg`,
            value: weighing.massKg,
            unit: 'kg',
            expected: `at most the ${input.massKg} kg of the start`,
            remedy: 'A cheese in its room does not gain; weigh again, or correct massKg.',
          },
        ]
      : [],
  );
  if (problems.length > 0) throw new InputError(problems);
}

/**
 * Leakiness of this rind from its weighings.
 *
 * Prior: log-normal, 1 with the rind's band. Likelihood: mass normal about the model, scale and a model error of the loss.
 * Posterior mean and spread of the log on a grid; the spread never falls below the model's own.
 *
 * @param input  the cheese as for `agedMassKg`, its mass at day 0, and its weighings (day [d], mass [kg])
 * @returns factor on the usual figure, and the standard deviation of its log; without weighings 1 and the rind's band
 * Valid: as `ageingValidity`, the same room all along. Uncertainty: the returned one; ±10 % of the loss at best.
 * @throws InputError for weighings above the mass of the start
 * @source Bayes's rule; model error our own choice
 */
export function learnedLeak(input: AgeingInput & { readonly weighings: readonly Weighing[] }): LearnedLeak {
  requireWeighings(input);
  const priorSd = Math.log(RIND_HABITS[input.rind].bandFactor) / BAND_Z;
  const later = input.weighings.filter((weighing) => weighing.day > 0);
  if (later.length === 0) return { factor: 1, logSd: priorSd };
  const modelSd = Math.log(MODEL_BAND_FACTOR) / BAND_Z;
  const scaleSd = Math.hypot(SCALE_LEAST_KG, SCALE_FRACTION * input.massKg);
  const logs = Array.from({ length: GRID }, (_, i) => GRID_SDS * priorSd * ((2 * i) / (GRID - 1) - 1));
  const exponents = logs.map((log) => {
    const cheese = { ...input, leakFactor: Math.exp(log) };
    let exponent = -0.5 * (log / priorSd) ** 2;
    for (const { day, massKg } of later) {
      const expected = agedMassKernel({ ...cheese, days: day });
      const sd = Math.hypot(scaleSd, modelSd * (input.massKg - expected));
      exponent += -0.5 * ((massKg - expected) / sd) ** 2 - Math.log(sd);
    }
    return exponent;
  });
  const most = Math.max(...exponents);
  const weights = exponents.map((exponent) => Math.exp(exponent - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = weights.reduce((sum, weight, i) => sum + weight * (logs[i] ?? 0), 0) / total;
  const variance = weights.reduce((sum, weight, i) => sum + weight * ((logs[i] ?? 0) - mean) ** 2, 0) / total;
  return { factor: Math.exp(mean), logSd: Math.min(priorSd, Math.max(modelSd, Math.sqrt(variance))) };
}

export interface AgedPoint {
  readonly day: number;
  readonly massKg: number;
  readonly p5: number;
  readonly p95: number;
}

/**
 * The mass of a cheese on each of the days asked for, with its 90 % band; from the last weighing on, from what it weighed.
 *
 * @param input  the cheese as for `agedMassKg`, its weighings and the days [d]
 * @returns one point a day asked for: mass [kg] and band
 * Valid: as `ageingValidity`. Uncertainty: the band.
 * @throws InputError for weighings above the mass of the start
 * @source as `agedMassKg` and `learnedLeak`
 */
export function ageingCurve(
  input: AgeingInput & { readonly weighings: readonly Weighing[]; readonly days: readonly number[] },
): readonly AgedPoint[] {
  const leak = learnedLeak(input);
  const spread = Math.exp(BAND_Z * leak.logSd);
  const last = input.weighings.reduce<Weighing>((latest, each) => (each.day > latest.day ? each : latest), {
    day: 0,
    massKg: input.massKg,
  });
  return input.days.map((day) => {
    const at = (factor: number): number => {
      const model = (days: number): number => agedMassKernel({ ...input, leakFactor: factor, days });
      return day < last.day ? model(day) : Math.max(0, last.massKg - model(last.day) + model(day));
    };
    return { day, massKg: at(leak.factor), p5: at(leak.factor * spread), p95: at(leak.factor / spread) };
  });
}
