/** Published sourings replayed: what the forecast would have said of the time to a pH, before any reading and after some. */
import { simulate } from '../../src/forecast/simulate.ts';
import { NO_HISTORY, type History } from '../../src/make/history.ts';
import type { Answers } from '../../src/make/setup.ts';
import { profileTemperatureC } from '../../src/science/acidification-schedule.ts';
import { RUNS, type AcidRun } from '../../tests/published/values/acid-runs.ts';
import type { Reading } from './notes.ts';
import { souringPlan, stepTimes, type Souring } from './souring.ts';

export interface ReplayedRun {
  readonly id: string;
  readonly targetPH: number;
  /** When it was really there, minutes after the culture. */
  readonly targetMin: number;
  /** After none, one, two and three readings, as far as there are so many. */
  readonly forecasts: readonly {
    readonly readings: number;
    readonly p5: number;
    readonly p50: number;
    readonly p95: number;
  }[];
}

/** Curd is on a level by then, or salted: its pH tells no time. The last reading before is the target. */
const LEVEL_OR_SALTED_MIN: Readonly<Record<string, number>> = { M1: 361, M7: 700, M8: 700 };

export const RUN_IDS: readonly string[] = Object.keys(RUNS);

/** Null where a run has no reading to be the target. */
export function replayedRun({ id, members }: { id: string; members: number }): ReplayedRun | null {
  const run = RUNS[id];
  const timed = run?.readings.filter(([minute]) => minute < (LEVEL_OR_SALTED_MIN[id] ?? Infinity)) ?? [];
  const last = timed.at(-1);
  if (run === undefined || last === undefined) return null;
  const [targetMin, targetPH] = last;
  const souring = souringOf(run, targetMin, targetPH);
  const plan = souringPlan(souring);
  const before = timed.slice(0, -1).filter(([, pH]) => pH > targetPH);
  const counts = [0, 1, 2, 3].filter((count) => count <= before.length);
  const forecasts = counts.map((count) => {
    const history = historyAfter(souring, before.slice(0, count));
    const end = simulate({ plan, history, members }).steps.at(-1)?.endMin;
    return { readings: count, p5: end?.p5 ?? NaN, p50: end?.p50 ?? NaN, p95: end?.p95 ?? NaN };
  });
  return { id, targetPH, targetMin, forecasts };
}

const CELLS = { packetPerMl: 5e6, percentPerMl: 1e7 }; // of `science/culture.ts`: a packet's dose, and each percent of starter
const MOST_PACKETS = 5; // a plan takes no more; two of the runs had six and ten
const FORMS = { bulk: 0.25, frozen: 0.5, 'freeze-dried': 1.2 } as const; // lag of the runs, `acid-runs.ts`

function souringOf(run: AcidRun, targetMin: number, targetPH: number): Souring {
  const { make } = run;
  const at = (minute: number): number => profileTemperatureC({ profile: make.temperatureProfile, minute });
  const form = run.lagWork === FORMS.bulk ? 'bulk' : run.lagWork === FORMS.frozen ? 'frozen' : 'freeze-dried';
  const culture: NonNullable<Answers['culture']> =
    form === 'bulk'
      ? { form, bulkPercent: run.cellsPerMl / CELLS.percentPerMl, measuredBy: 'scale' }
      : { form, packetTreatsL: 10, packetFraction: Math.min(run.cellsPerMl / CELLS.packetPerMl, MOST_PACKETS) };
  const { cutMinute, drainMinute } = make;
  const isCurd = cutMinute !== undefined && drainMinute !== undefined && drainMinute < targetMin;
  const hot = make.temperatureProfile.filter(({ minute }) => cutMinute !== undefined && minute >= cutMinute);
  const [from, to] = hot;
  return {
    kind: run.kind,
    culture,
    temperatureC: at(0),
    startPH: run.startPH,
    targetPH,
    expectedMin: targetMin,
    ...(isCurd
      ? {
          curd: {
            cutMin: cutMinute,
            drainMin: drainMinute,
            drainedC: at((drainMinute + targetMin) / 2),
            ...(from !== undefined &&
            to !== undefined &&
            to.minute <= drainMinute &&
            to.temperatureC > from.temperatureC
              ? { scald: { fromMin: from.minute, toMin: to.minute, toC: to.temperatureC } }
              : {}),
          },
        }
      : {}),
  };
}

function historyAfter(souring: Souring, readings: readonly (readonly [number, number])[]): History {
  const nowMin = readings.at(-1)?.[0] ?? 0;
  if (nowMin === 0) return NO_HISTORY;
  const { curd } = souring;
  const sampleAt = (minute: number): Reading['sample'] =>
    curd === undefined || minute <= curd.cutMin ? 'milk' : minute <= curd.drainMin ? 'whey' : 'curd';
  return {
    ...NO_HISTORY,
    nowMin,
    steps: stepTimes(souring).flatMap(([stepId, startedMin, endedMin]) =>
      startedMin > nowMin ? [] : [{ stepId, startedMin, ...(endedMin <= nowMin ? { endedMin } : {}) }],
    ),
    readings: readings.map(([elapsedMin, value]) => ({
      quantity: 'pH',
      sample: sampleAt(elapsedMin),
      elapsedMin,
      value,
    })),
  };
}
