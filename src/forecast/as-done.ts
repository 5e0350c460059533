import type { History } from '../make/history.ts';
import type { Verb } from '../make/step.ts';
import type { CourseStep } from './course.ts';

/** What somebody measured of how a step was really done; the plan's own figure holds where nobody did. */
export interface AsDone {
  /** Whey that was drawn or ran off in this step [L]. */
  readonly wheyOffL: number | null;
  /** Temperature of the water, bath or brine that this step takes, as the maker's thermometer said [°C]. */
  readonly waterC: number | null;
}

type Begun = Pick<CourseStep, 'verb' | 'startedMin' | 'endedMin'>;

const WHEY_LEAVES: ReadonlySet<Verb> = new Set(['drawWhey', 'drain']);
/** Verbs that take water, a bath or a brine, and what may be meant by it [°C]; outside, the plan's own figure stays. Our own choice. */
const WATER_C: Partial<Record<Verb, readonly [low: number, high: number]>> = {
  wash: [25, 99],
  stretch: [65, 99],
  cool: [-2, 20],
  brine: [-2, 30],
};
/** Water read longer before its step is still being heated or cooled, and says nothing of what goes in. Our own choice. */
const READ_BEFORE_MIN = 5;

/** The measured part of each step, in the order of the steps. */
export function asDone(input: { steps: readonly Begun[]; history: History }): AsDone[] {
  const { steps, history } = input;
  const whey = history.readings.filter((reading) => reading.quantity === 'wheyL');
  return steps.map((step, index) => ({
    wheyOffL: whey.filter((reading) => wheyStepAt(steps, reading.elapsedMin) === step).at(-1)?.value ?? null,
    waterC: waterRead({ step, steps, index, history }),
  }));
}

/** The drawing or draining that whey measured at a minute came from: the last one begun by then. */
export function wheyStepAt<S extends Begun>(steps: readonly S[], elapsedMin: number): S | undefined {
  return steps
    .filter((step) => WHEY_LEAVES.has(step.verb) && step.startedMin !== null && step.startedMin <= elapsedMin)
    .at(-1);
}

function waterRead(input: { step: Begun; steps: readonly Begun[]; index: number; history: History }): number | null {
  const { step, steps, index, history } = input;
  const range = WATER_C[step.verb];
  if (range === undefined || step.startedMin === null) return null;
  const fromMin = step.startedMin - READ_BEFORE_MIN;
  const later = steps.slice(index + 1).find((one) => one.startedMin !== null);
  const toMin = step.endedMin ?? later?.startedMin ?? Number.POSITIVE_INFINITY;
  const sample = step.verb === 'brine' ? 'brine' : 'water';
  const read = history.readings.find(
    ({ quantity, sample: where, elapsedMin }) =>
      quantity === 'temperatureC' && where === sample && elapsedMin >= fromMin && elapsedMin <= toMin,
  );
  return read !== undefined && read.value >= range[0] && read.value <= range[1] ? read.value : null;
}
