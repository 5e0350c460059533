/**
 * Many possible makes at once: cultures, lags, buffers and model errors drawn from their spreads, weighed by readings.
 * Left out: learning between makes (a lot's own activity), errors of the thermometer and of timing.
 */
import { erf } from '../numbers/special.ts';
import { normalHypercube } from '../numbers/normal.ts';
import { effectiveSampleSize, weightedQuantiles } from '../numbers/stats.ts';
import { bandFloorMin, modelErrorPH, PROBE_ERROR_PH } from './acidification-error.ts';
import { bulkStarterLactateMM, bulkStarterPH } from './acidification-events.ts';
import { acidParameters, acidRunner } from './acidification-make.ts';
import { acidSchedule, type AcidMake, type AcidSchedule } from './acidification-schedule.ts';
import { BUFFER_FACTOR_SD, CURD_RATE_FACTOR } from './acidification.ts';
import { bufferTable, type BufferComposition } from './buffer.ts';
import {
  CULTURE_SPREAD,
  CULTURES,
  DOSE_LN_SD,
  initialCellsKernel,
  lagOf,
  temperatureSpread,
  type CultureDose,
  type CultureForm,
  type CultureKind,
} from './culture.ts';

export interface PHReading {
  readonly minute: number;
  readonly pH: number;
  readonly sample: 'milk' | 'whey' | 'curd';
}

export interface RipenEnsembleInput {
  readonly make: AcidMake;
  readonly composition: BufferComposition & { readonly lactoseMM: number };
  readonly kind: CultureKind;
  readonly form: CultureForm;
  readonly dose: CultureDose;
  /** Of the milk before the culture. */
  readonly startPH: number;
  readonly startPHSd: number;
  readonly exchangePerHour: number;
  readonly readings: readonly PHReading[];
  readonly members: number;
  readonly seed: number;
}

/** A band of times; infinite where that share of the members never gets there. */
export interface TimeBand {
  readonly p5: number;
  readonly p50: number;
  readonly p95: number;
  /** Share of the members (weighed) that get there at all. */
  readonly probability: number;
}

export interface RipenEnsemble {
  readonly schedule: AcidSchedule;
  /** pH each member believes in, model error included: `pH[member][step]`. */
  readonly pH: readonly Float64Array[];
  readonly weights: Float64Array;
  readonly effectiveMembers: number;
  /** For each reading, how much of the forecast before it lay below it, 0 to 1. */
  readonly readingRanks: readonly number[];
}

// Columns of the draw. One more at the end keeps every older seed's numbers; inserting would change them.
const Z = {
  dose: 0,
  lag: 1,
  growth: 2,
  acid: 3,
  minC: 4,
  optC: 5,
  maxC: 6,
  buffer: 7,
  kappa: 8,
  startPH: 9,
  milkError: 10,
  curdError: 11,
  laterError: 12,
} as const;
const DIMENSIONS = Object.keys(Z).length;

/** Runs every member and weighs it by the readings (kernel: no checks). Same seed, same answer. */
export function ripenEnsemble(input: RipenEnsembleInput): RipenEnsemble {
  const { make, composition, kind, members } = input;
  const readings = [...input.readings].sort((a, b) => a.minute - b.minute);
  const long = make.minutes > 720; // half a day and more runs slowly enough for a longer step
  const schedule = acidSchedule({
    make,
    composition,
    alsoAt: readings.map((reading) => reading.minute),
    ...(long ? { stepMin: 6 } : {}),
  });
  const steps = schedule.minute.length;
  const buffer = bufferTable(composition);
  const typical = CULTURES[kind];
  const lag = lagOf({ form: input.form });
  const temperatures = temperatureSpread(kind);
  const cells = initialCellsKernel(input.dose);
  const percentBulk = 'percentBulk' in input.dose ? input.dose.percentBulk : 0;
  const normal = normalHypercube({ members, dimensions: DIMENSIONS, seed: input.seed });
  const runner = acidRunner(schedule);
  const wheyPH = new Float64Array(steps);
  const pH: Float64Array[] = [];
  const logWeights = new Float64Array(members);
  const at = readings.map((reading) => schedule.minute.findIndex((minute) => minute >= reading.minute - 1e-9));
  const seen = readings.map(() => new Float64Array(members)); // what each member expected of each reading
  const spreadOfReading = readings.map(() => 1);

  for (let m = 0; m < members; m++) {
    const z = (column: number): number => normal[m * DIMENSIONS + column] ?? 0;
    const startPH = bulkStarterPH({ pH: input.startPH + input.startPHSd * z(Z.startPH), percentBulk });
    const optC = typical.temperatureOptC + temperatures.temperatureOptSdC * z(Z.optC);
    const culture = {
      ...typical,
      temperatureMinC: typical.temperatureMinC + temperatures.temperatureMinSdC * z(Z.minC),
      temperatureOptC: optC,
      temperatureMaxC: Math.max(typical.temperatureMaxC + temperatures.temperatureMaxSdC * z(Z.maxC), optC + 2),
      growthRatePerHour: typical.growthRatePerHour * Math.exp(CULTURE_SPREAD.growthRateLnSd * z(Z.growth)),
      acidRateMmolPerCfuHour: typical.acidRateMmolPerCfuHour * Math.exp(CULTURE_SPREAD.acidRateLnSd * z(Z.acid)),
    };
    const parameters = acidParameters({
      culture,
      buffer,
      startPH,
      exchangePerHour: input.exchangePerHour,
      bufferFactor: Math.max(0.7, 1 + BUFFER_FACTOR_SD * z(Z.buffer)),
      curdRateFactor: CURD_RATE_FACTOR.median * Math.exp(CURD_RATE_FACTOR.lnSd * z(Z.kappa)),
    });
    const curdPH = new Float64Array(steps);
    runner.run({
      parameters,
      start: {
        cellsPerL: cells * Math.exp(DOSE_LN_SD.known * z(Z.dose)),
        lagWork: lag.medianWork * Math.exp(lag.lnSd * z(Z.lag)),
        pH: startPH,
        lactoseMM: composition.lactoseMM,
        lactateMM: bulkStarterLactateMM({ percentBulk }),
      },
      curdPH,
      wheyPH,
    });

    // Readings: each weighs the member; of drained curd each also shifts its model error (a Kalman step), which then regrows.
    let shift = 0;
    let readAt: number | undefined;
    let next = 0;
    for (let i = 0; i < steps; i++) {
      const phase = schedule.phases[i] ?? 'milk';
      const minute = schedule.minute[i] ?? 0;
      const sd = modelErrorPH({
        phase,
        ...(readAt === undefined ? {} : { minutesSinceCurdReading: minute - readAt }),
      });
      const own = curdPH[i] ?? Number.NaN;
      while (next < readings.length && at[next] === i) {
        const reading = readings[next] ?? { minute: 0, pH: 7, sample: 'milk' as const };
        const expected = (reading.sample === 'whey' ? (wheyPH[i] ?? own) : own) + shift;
        const probe = reading.sample === 'curd' ? PROBE_ERROR_PH.curd : PROBE_ERROR_PH.liquid;
        const variance = sd * sd + probe * probe;
        const off = reading.pH - expected;
        logWeights[m] = (logWeights[m] ?? 0) - (off * off) / (2 * variance);
        const list = seen[next];
        if (list) list[m] = expected;
        spreadOfReading[next] = Math.sqrt(variance);
        if (phase === 'drained' && reading.sample === 'curd') {
          shift += (sd * sd * off) / variance;
          readAt = reading.minute;
        }
        next++;
      }
      const error = phase !== 'drained' ? z(Z.milkError) : readAt === undefined ? z(Z.curdError) : z(Z.laterError);
      const left = phase === 'drained' ? shift : 0;
      const sdNow = modelErrorPH({
        phase,
        ...(readAt === undefined ? {} : { minutesSinceCurdReading: minute - readAt }),
      });
      curdPH[i] = own + left + error * sdNow;
    }
    pH.push(curdPH);
  }

  const readingRanks = readings.map((reading, r) => {
    let below = 0;
    const sd = spreadOfReading[r] ?? 1;
    for (const expected of seen[r] ?? []) below += 0.5 * (1 + erf((reading.pH - expected) / (sd * Math.SQRT2)));
    return below / members;
  });
  let best = -Infinity;
  for (const logWeight of logWeights) best = Math.max(best, logWeight);
  const weights = logWeights.map((logWeight) => Math.exp(logWeight - best));
  return { schedule, pH, weights, effectiveMembers: effectiveSampleSize(weights), readingRanks };
}

/** pH band at one step: 5, 50 and 95 %. */
export function pHBand(of: { ensemble: RipenEnsemble; step: number }): { p5: number; p50: number; p95: number } {
  const { ensemble, step } = of;
  const values = ensemble.pH.map((member) => member[step] ?? Number.NaN);
  const [p5 = Number.NaN, p50 = Number.NaN, p95 = Number.NaN] = weightedQuantiles(
    values,
    ensemble.weights,
    [0.05, 0.5, 0.95],
  );
  return { p5, p50, p95 };
}

/**
 * When the pH comes down to a target: band and probability, never narrower than the model's own errors allow.
 * `nowMinute` is the last reading (0 without one): what remains is counted from there.
 */
export function timeBand(of: { ensemble: RipenEnsemble; targetPH: number; nowMinute: number }): TimeBand {
  const { ensemble, targetPH, nowMinute } = of;
  const { minute, phases } = ensemble.schedule;
  let total = 0;
  let reached = 0;
  const times = ensemble.pH.map((member, m) => {
    const weight = ensemble.weights[m] ?? 0;
    total += weight;
    const i = member.findIndex((value) => value <= targetPH);
    if (i < 0) return Infinity;
    reached += weight;
    if (i === 0) return 0;
    const [before, after] = [member[i - 1] ?? targetPH, member[i] ?? targetPH];
    const [start, end] = [minute[i - 1] ?? 0, minute[i] ?? 0];
    return start + ((end - start) * (before - targetPH)) / (before - after);
  });
  const [p5 = Infinity, p50 = Infinity, p95 = Infinity] = weightedQuantiles(times, ensemble.weights, [0.05, 0.5, 0.95]);
  const probability = reached / total;
  if (!Number.isFinite(p50) || p50 <= nowMinute) return { p5, p50, p95, probability };
  const step = minute.findIndex((m) => m >= p50);
  const floor = bandFloorMin({ remainingMin: p50 - nowMinute, phase: phases[Math.max(step, 0)] ?? 'milk' });
  return { p5: Math.max(Math.min(p5, p50 - floor), 0), p50, p95: Math.max(p95, p50 + floor), probability };
}
