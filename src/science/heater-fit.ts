/**
 * Learning a burner and a pot from a few thermometer readings: how much heat reaches the milk and how much it loses.
 * Least squares over the exact solution between readings, with the first temperature free and a prior on the loss.
 */
import { InputError, requireWithin, type Problem, type Validity } from '../numbers/validity.ts';

/** One look at the thermometer; `heaterOn` says how the burner stands from this reading on. */
export interface VatReading {
  readonly minute: number;
  readonly temperatureC: number;
  readonly heaterOn: boolean;
}

export interface VatFitInput {
  readonly readings: readonly VatReading[];
  readonly heatCapacityKJPerK: number;
  readonly roomC: number;
  /** What the loss is thought to be before the readings [W/K]. */
  readonly priorLossWPerK: number;
  /** Standard deviation of that, as a fraction; 0.3 where not given. */
  readonly priorLossSdFraction?: number;
  /** Of one reading [K]; 0.3 where not given. */
  readonly thermometerSdC?: number;
}

/** What was learned. A heater that never ran is unknown, so null. */
export interface VatFit {
  readonly lossWPerK: number;
  readonly lossStandardErrorWPerK: number;
  readonly heaterW: number | null;
  readonly heaterStandardErrorW: number | null;
  /** Root mean square of what is left between model and readings [K]. */
  readonly residualC: number;
  /** True when an interval with heat and one without are both there, so that neither leans on the prior alone. */
  readonly isBothSeen: boolean;
}

const HERE = 'our own limits: readings of warm milk';

export const vatFitValidity: Validity = {
  heatCapacityKJPerK: { low: 0.1, high: 10_000, unit: 'kJ/K', source: HERE },
  roomC: { low: -5, high: 45, unit: '°C', source: HERE },
  priorLossWPerK: { low: 0.01, high: 2000, unit: 'W/K', source: HERE },
  thermometerSdC: { low: 0.001, high: 10, unit: 'K', source: HERE },
};

const PRIOR_SD_FRACTION = 0.3; // our own choice: the loss model's error with a kitchen's draughts
const THERMOMETER_SD_C = 0.3; // common practice (no source): a kitchen thermometer
const LEAST_GAP_MIN = 0.1; // our own choice: a thermometer takes longer to settle
const ITERATIONS = 8; // our own choice: the model is nearly linear, three would do

type Triple = [first: number, heater: number, loss: number];

/**
 * Heat that reaches the milk and heat lost per kelvin, from readings with the burner on and off.
 *
 * Between readings C dT/dt = P u - UA (T - T_room), solved exactly; unknowns T_first, P, UA by Gauss-Newton least squares
 * with one more row, UA = UA_prior within 30 %. Differences of readings share their noise; fitting the first temperature
 * as a third unknown accounts for that.
 *
 * @param input.readings  two or more, minutes rising; `heaterOn` from that reading on
 * @param input.heatCapacityKJPerK  milk and pot [kJ/K], 0.1 to 10000
 * @param input.roomC  room [°C], -5 to 45
 * @param input.priorLossWPerK  loss expected of this pot [W/K], 0.01 to 2000
 * @param input.priorLossSdFraction  spread of that; 0.3 where not given
 * @param input.thermometerSdC  of one reading [K], 0.001 to 10; 0.3 where not given
 * @returns loss and heater with standard errors; heater null when it was never on
 * Valid: as `vatFitValidity`; lid, stirring and burner unchanged meanwhile. Uncertainty: as returned; 0.1 K readings at
 * 0, 10, 25 and 40 min of a 10 L pot give 450 W within 11 and 3.2 W/K within 0.2.
 * @throws InputError for fewer than two readings or minutes that do not rise
 * @source energy balance; least squares
 */
export function fitVat(input: VatFitInput): VatFit {
  requireReadings(input);
  const { readings, priorLossWPerK } = input;
  const sd = input.thermometerSdC ?? THERMOMETER_SD_C;
  const priorSd = (input.priorLossSdFraction ?? PRIOR_SD_FRACTION) * priorLossWPerK;
  const isHeated = readings.slice(0, -1).some((reading) => reading.heaterOn);
  const isCoasting = readings.slice(0, -1).some((reading) => !reading.heaterOn);
  let at: Triple = [readings[0]?.temperatureC ?? 0, isHeated ? 500 : 0, priorLossWPerK];
  let covariance: number[] = [];
  for (let pass = 0; pass < ITERATIONS; pass++) {
    const base = predict(input, at);
    const nudges: Triple = [0.01, 1, 0.001 * priorLossWPerK];
    const columns = nudges.map((nudge, j) => {
      const moved: Triple = [...at];
      moved[j] = (moved[j] ?? 0) + nudge;
      return predict(input, moved).map((value, i) => (value - (base[i] ?? 0)) / nudge);
    });
    const normal = [0, 0, 0, 0, 0, 0, 0, 0, 0];
    const right = [0, 0, 0];
    for (let i = 0; i < readings.length; i++) {
      const residual = (readings[i]?.temperatureC ?? 0) - (base[i] ?? 0);
      for (let j = 0; j < 3; j++) {
        const a = columns[j]?.[i] ?? 0;
        right[j] = (right[j] ?? 0) + (a * residual) / (sd * sd);
        for (let k = 0; k < 3; k++)
          normal[3 * j + k] = (normal[3 * j + k] ?? 0) + (a * (columns[k]?.[i] ?? 0)) / (sd * sd);
      }
    }
    normal[8] = (normal[8] ?? 0) + 1 / (priorSd * priorSd);
    right[2] = (right[2] ?? 0) + (priorLossWPerK - at[2]) / (priorSd * priorSd);
    if (!isHeated) normal[4] = 1; // the heater never ran: hold it still instead of dividing by nothing
    covariance = inverse3(normal);
    const move = [0, 1, 2].map((j) =>
      [0, 1, 2].reduce((sum, k) => sum + (covariance[3 * j + k] ?? 0) * (right[k] ?? 0), 0),
    );
    at = [at[0] + (move[0] ?? 0), at[1] + (move[1] ?? 0), Math.max(at[2] + (move[2] ?? 0), 0.02 * priorLossWPerK)];
  }
  const last = predict(input, at);
  const squares = readings.reduce((sum, reading, i) => sum + (reading.temperatureC - (last[i] ?? 0)) ** 2, 0);
  return {
    lossWPerK: at[2],
    lossStandardErrorWPerK: Math.sqrt(Math.max(covariance[8] ?? 0, 0)),
    heaterW: isHeated ? at[1] : null,
    heaterStandardErrorW: isHeated ? Math.sqrt(Math.max(covariance[4] ?? 0, 0)) : null,
    residualC: Math.sqrt(squares / readings.length),
    isBothSeen: isHeated && isCoasting,
  };
}

/** Temperatures at the readings' minutes, by the exact solution from one to the next. */
function predict(input: VatFitInput, [first, heaterW, lossWPerK]: Triple): number[] {
  const results: number[] = [];
  let temperatureC = first;
  input.readings.forEach((reading, i) => {
    const before = input.readings[i - 1];
    if (before !== undefined) {
      const seconds = 60 * (reading.minute - before.minute);
      const end = input.roomC + (before.heaterOn ? heaterW : 0) / lossWPerK;
      temperatureC = end + (temperatureC - end) * Math.exp((-lossWPerK * seconds) / (1000 * input.heatCapacityKJPerK));
    }
    results.push(temperatureC);
  });
  return results;
}

/** Inverse of a 3 x 3 matrix, row by row, by cofactors. */
function inverse3(matrix: readonly number[]): number[] {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0, h = 0, i = 0] = matrix;
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ].map((cofactor) => cofactor / determinant);
}

function requireReadings(input: VatFitInput): void {
  requireWithin(vatFitValidity, {
    heatCapacityKJPerK: input.heatCapacityKJPerK,
    roomC: input.roomC,
    priorLossWPerK: input.priorLossWPerK,
    thermometerSdC: input.thermometerSdC,
  });
  const problems: Problem[] = [];
  if (input.readings.length < 2) {
    problems.push({
      code: 'missing',
      field: 'readings',
      value: input.readings.length,
      expected: 'two readings or more',
      remedy: 'Read the thermometer again a few minutes later.',
    });
  }
  input.readings.forEach((reading, i) => {
    const before = input.readings[i - 1];
    if (before !== undefined && !(reading.minute >= before.minute + LEAST_GAP_MIN)) {
      problems.push({
        code: 'contradiction',
        field: `readings[${i}].minute`,
        value: reading.minute,
        unit: 'min',
        expected: `at least ${before.minute + LEAST_GAP_MIN} min, after the reading before`,
        remedy: 'Put the readings in the order in which they were taken.',
      });
    }
    if (!(reading.temperatureC >= 0 && reading.temperatureC <= 100)) {
      problems.push({
        code: 'impossible',
        field: `readings[${i}].temperatureC`,
        value: reading.temperatureC,
        unit: '°C',
        expected: '0 to 100 °C',
        remedy: 'Check the thermometer and its unit.',
      });
    }
  });
  if (problems.length > 0) throw new InputError(problems);
}
