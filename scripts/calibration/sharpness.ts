/** How much readings narrow a forecast: widths of 90 % bands before and after, over synthetic makes. */
import { courseOf } from '../../src/forecast/course.ts';
import { groundOf } from '../../src/forecast/inputs.ts';
import type { MemberRun } from '../../src/forecast/run.ts';
import { benchOf, simulate } from '../../src/forecast/simulate.ts';
import { NO_HISTORY, type History } from '../../src/make/history.ts';
import type { Plan } from '../../src/make/plan.ts';
import { seededRandom } from '../../src/numbers/random.ts';
import { anyRow } from './kitchen.ts';
import { answerOf, noted, readAsForecast, type Ask, type Reading } from './notes.ts';
import {
  narrowedAcrossDraining,
  narrowedByFlocculation,
  narrowedByStretching,
  type Narrowed,
} from './sharpness-make.ts';
import { souringPlan, stepTimes, type Souring } from './souring.ts';

/** Milk soured to a target, read at 40 and 60 % of the time that the plan expects. */
const SOURINGS = {
  bulk: {
    kind: 'thermophilic',
    culture: { form: 'bulk', bulkPercent: 1, measuredBy: 'scale' },
    temperatureC: 40,
    targetPH: 5.2,
    expectedMin: 240,
  },
  'freeze-dried': {
    kind: 'yoghurt',
    culture: { form: 'freeze-dried', packetTreatsL: 10, packetFraction: 1 },
    temperatureC: 40,
    targetPH: 5.2,
    expectedMin: 270,
  },
  cheddar: {
    kind: 'mesophilic',
    culture: { form: 'bulk', bulkPercent: 1.6, measuredBy: 'scale' },
    temperatureC: 31,
    targetPH: 5.3,
    expectedMin: 320,
  },
} satisfies Readonly<Record<string, Souring>>;

/** Width of the band of time-to-target after both readings over its width before any, one make a seed. */
function narrowedBySouring(input: { souring: Souring; seed: number; members: number }): number {
  const { souring, seed, members } = input;
  const random = seededRandom(seed);
  const plan = souringPlan(souring);
  const before = lastEnd(plan, NO_HISTORY, members);
  const row = anyRow(random);
  const [first = ['', 0, 0], last = ['', 0, 0]] = stepTimes(souring);
  const at = (elapsedMin: number): History => ({
    ...NO_HISTORY,
    nowMin: elapsedMin,
    steps: [{ stepId: first[0], startedMin: first[1], endedMin: first[2] }, { stepId: last[0], startedMin: last[1] }],
  }); // prettier-ignore
  let history = at(0);
  for (const share of [0.4, 0.6]) {
    const elapsedMin = Math.round(share * before.p50);
    const reading: Reading = { quantity: 'pH', sample: 'milk', elapsedMin, value: 6 };
    const now = { ...at(elapsedMin), readings: history.readings };
    const ask: Ask = (note) => answerOf(runOf(plan, noted(now, note), row), noted(now, note), note);
    const { expected, sd } = ask(reading);
    history = noted(now, { ...reading, value: readAsForecast({ reading, expected, sd, random }) });
  }
  const after = lastEnd(plan, history, members);
  return (after.p95 - after.p5) / (before.p95 - before.p5);
}

const runOf = (plan: Plan, history: History, row: Float64Array): MemberRun =>
  benchOf(courseOf({ plan, history }), groundOf(plan)).run(row);

function lastEnd(plan: Plan, history: History, members: number): { p5: number; p50: number; p95: number } {
  const end = simulate({ plan, history, members }).steps.at(-1)?.endMin;
  if (end === undefined) throw new Error('a plan without steps');
  return end;
}

type Narrowing = (make: { seed: number; members: number }) => Narrowed | null;

interface Sharpness {
  readonly name: string;
  /** The median over makes is at most this; null where there is no goal, only a report. */
  readonly goal: number | null;
  /** In one make; null where the make has no such band. */
  readonly of: Narrowing;
}

const soured =
  (souring: Souring): Narrowing =>
  (make) => ({ share: narrowedBySouring({ souring, ...make }) });

/** What each note is worth. */
export const SHARPNESS: Readonly<Record<string, Sharpness>> = {
  bulk: { name: 'bulk starter in warm milk, pH read twice: time to pH 5.2', goal: 0.5, of: soured(SOURINGS.bulk) },
  'freeze-dried': { name: 'freeze-dried culture, pH read twice: time to pH 5.2', goal: 0.7, of: soured(SOURINGS['freeze-dried']) },
  cheddar: { name: 'mesophilic culture at 31 °C, pH read twice: time to pH 5.3', goal: 0.7, of: soured(SOURINGS.cheddar) },
  flocculation: { name: 'flocculation seen: time of cutting', goal: 1 / 3, of: (make) => ({ share: narrowedByFlocculation(make) }) },
  stretching: { name: 'three stretch tests, no meter: time of readiness, of curds that come to it', goal: 0.6, of: narrowedByStretching },
  'whey-read-twice': { name: 'pH of the whey read twice before draining: time of readiness', goal: null, of: (make) => narrowedAcrossDraining(make)?.whey ?? null },
  'curd-read-once': { name: 'pH of the drained curd read once: time of readiness', goal: null, of: (make) => narrowedAcrossDraining(make)?.curd ?? null },
}; // prettier-ignore
