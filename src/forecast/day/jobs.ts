import type { PlannedStep } from '../../make/plan.ts';
import { dayEndStep } from '../day-end.ts';
import type { DayKit, DayPot } from './day.ts';
import { since, stepTimes, type StepTimes } from './offsets.ts';
import { heatings, openPreparations, preparingOf } from './preparing.ts';
import { KEPT_COLD_MIN, kitOf, LAY_OUT_MIN, REWARM_MIN, waitBeforeMin, type Resource } from './rules.ts';

/** A time in which a job takes one of something, counted from the job's zero. */
export interface Use {
  readonly resource: Resource;
  readonly fromMin: number;
  readonly toMin: number;
  readonly stepId: string;
  readonly preparationId?: string;
}

/** One way to do a job. */
export interface Mode {
  readonly by: 'pot' | 'burner' | 'kettle';
  readonly uses: readonly Use[];
  /** How long after the job that it follows, min. */
  readonly lag: { readonly least: number; readonly most: number } | null;
}

/**
 * What is placed on the clock as one piece. A pot is a chain of jobs: within one, everything goes on at once; between two, the
 * make may wait a little. Water to heat is a job of its own, tied to the job that wants it.
 */
export interface Job {
  readonly id: string;
  readonly potId: string;
  /** The job that it is counted from, an index into the list; null for the first of a pot. */
  readonly after: number | null;
  readonly modes: readonly Mode[];
  /** Not before; null for as early as the day begins. */
  readonly earliestMin: number | null;
  /** Where its zero is already settled. */
  readonly fixedAtMin: number | null;
  /** From its zero to the end of the pot's day, where the day ends in it. */
  readonly doneMin: number | null;
  /** Its first and last step, indices; for a heating the step that wants it. */
  readonly steps: readonly [number, number];
  readonly preparationId: string | null;
}

/** A pot as jobs, with the times of its steps counted from the zero of the job that they are in. */
export interface PotJobs {
  readonly pot: DayPot;
  /** Indices of its own jobs, without the heatings. */
  readonly chain: readonly number[];
  /** The same and the heatings, in the order in which they are placed. */
  readonly all: readonly number[];
  readonly times: readonly StepTimes[];
  /** Index of the step before which the curd is kept cold; null where it is not. */
  readonly coldBefore: number | null;
  readonly lastStep: number;
  /** False where fewer than half of such makes are seen to end. */
  readonly ends: boolean;
  /** Hands before its first step, for what must be ready then. */
  readonly readyMin: number;
}

/** The step before which curd may be kept cold for hours and worked later: it is stretched hot anyway. */
export const coldBefore = (steps: readonly PlannedStep[]): number | null => {
  const at = steps.findIndex(({ verb }) => verb === 'stretch');
  return at > 0 ? at : null;
};

/** Every pot as jobs, one list for all. */
export function jobsOf(input: { readonly pots: readonly DayPot[]; readonly kit: DayKit }): {
  readonly jobs: Job[];
  readonly pots: PotJobs[];
} {
  const jobs: Job[] = [];
  const pots = input.pots.map((pot) => addPot({ pot, kit: input.kit, jobs }));
  return { jobs, pots };
}

function addPot(input: { readonly pot: DayPot; readonly kit: DayKit; readonly jobs: Job[] }): PotJobs {
  const { pot, kit, jobs } = input;
  const raw = stepTimes(pot.foreseen.steps);
  const cold = pot.keptCold !== undefined && pot.begunAtMin === undefined ? coldBefore(pot.steps) : null;
  const coldStart = cold === null ? undefined : raw[cold]?.start;
  const times = raw.map((step, index) => {
    if (cold === null || coldStart === undefined || index < cold) return step;
    const doneMin = step.doneMin - (raw[cold - 1]?.doneMin ?? 0) + REWARM_MIN;
    return { ...step, start: since(step.start, coldStart, REWARM_MIN), end: since(step.end, coldStart, REWARM_MIN), doneMin };
  }); // prettier-ignore
  const lastStep = lastOfTheDay(pot, raw);
  const cuts = cutsOf({ pot, times, cold });
  const chain: number[] = [];
  const firstOfAll = jobs.length;
  for (const [part, first] of cuts.entries()) {
    const last = (cuts[part + 1] ?? pot.steps.length) - 1;
    const before = chain.at(-1);
    const own: Use[] = first === cold ? [rewarming(pot, first)] : [];
    for (let index = first; index <= last; index++) own.push(...usesOf(pot, times, index));
    const step = pot.steps[first];
    chain.push(jobs.length);
    jobs.push({
      id: `${pot.id} ${part}`,
      potId: pot.id,
      after: before ?? null,
      modes: [{ by: 'pot', uses: merged(own), lag: before === undefined || step === undefined ? null : lagOf(step, first === cold ? (times[first - 1] ?? null) : null) }],
      earliestMin: cold === null ? null : first === cold ? (pot.keptCold?.workedFromMin ?? null) : first === 0 ? (pot.keptCold?.madeFromMin ?? null) : null,
      fixedAtMin: pot.begunAtMin === undefined ? null : Math.round(pot.begunAtMin),
      doneMin: first <= lastStep && lastStep <= last ? (times[lastStep]?.doneMin ?? null) : null,
      steps: [first, last],
      preparationId: null,
    }); // prettier-ignore
  }
  for (const heating of heatings({ pot, kit, times })) {
    const after = chain.filter((index) => (jobs[index]?.steps[0] ?? 0) <= heating.step).at(-1);
    if (after === undefined) continue;
    jobs.push({ id: `${pot.id} ${heating.preparationId}`, potId: pot.id, after, modes: heating.modes, earliestMin: null, fixedAtMin: null, doneMin: null, steps: [heating.step, heating.step], preparationId: heating.preparationId }); // prettier-ignore
  }
  const readyMin = pot.begunAtMin === undefined ? readyBefore(pot, times) : 0;
  const all = Array.from({ length: jobs.length - firstOfAll }, (_, nth) => firstOfAll + nth);
  return {
    pot,
    chain,
    all,
    times,
    coldBefore: cold,
    lastStep,
    ends: Number.isFinite(times[lastStep]?.doneMin),
    readyMin,
  };
}

/**
 * Where the chain of jobs is cut: where the make may wait, unless something that it holds before is held after as well (then
 * it is the same bowl, and goes on), and where the curd is kept cold.
 */
function cutsOf(input: {
  readonly pot: DayPot;
  readonly times: readonly StepTimes[];
  readonly cold: number | null;
}): number[] {
  const { pot, times, cold } = input;
  const heldUntil = new Map<Resource, number>();
  return pot.steps.flatMap((step, index) => {
    if (index === cold) heldUntil.clear();
    const uses = usesOf(pot, times, index);
    const goesOn = uses.some(
      ({ resource, fromMin }) => (heldUntil.get(resource) ?? Number.NEGATIVE_INFINITY) > fromMin,
    );
    for (const { resource, toMin } of uses) heldUntil.set(resource, Math.max(toMin, heldUntil.get(resource) ?? toMin));
    const mayWait = times[index]?.state === 'coming' && waitBeforeMin(step) > 0 && !goesOn;
    return index === 0 || index === cold || mayWait ? [index] : [];
  });
}

/** Curd that was kept cold comes after it is cold through; else a make waits no longer than it may. */
function lagOf(step: PlannedStep, before: StepTimes | null): { readonly least: number; readonly most: number } {
  if (before === null) return { least: 0, most: waitBeforeMin(step) };
  return { least: before.end.late + KEPT_COLD_MIN.least, most: before.end.late + KEPT_COLD_MIN.most };
}

function lastOfTheDay(pot: DayPot, raw: readonly StepTimes[]): number {
  const foreseen = new Map(raw.map((step) => [step.stepId, step]));
  const lengthMin = (id: string): number | undefined => {
    const step = foreseen.get(id);
    return step === undefined ? undefined : step.end.p50 - step.start.p50;
  };
  const last = dayEndStep({ steps: pot.steps, lengthMin });
  return Math.max(
    0,
    pot.steps.findIndex(({ id }) => id === last),
  );
}

/** What must be laid out before the first hands of the pot are free again has to be done before it begins. */
function readyBefore(pot: DayPot, times: readonly StepTimes[]): number {
  const first = pot.steps[0];
  const at = times[0];
  if (first === undefined || at === undefined) return 0;
  const busyMin = handsOf(first, at)[0]?.toMin ?? 0;
  const early = openPreparations(pot).filter(
    ({ step, preparation }) =>
      preparingOf(preparation) === 'hands' &&
      (times[step]?.start.soon ?? Number.POSITIVE_INFINITY) - preparation.leadMinutes.value <= busyMin,
  );
  return LAY_OUT_MIN * new Set(early.map(({ step }) => step)).size;
}

const rewarming = (pot: DayPot, step: number): Use => ({
  resource: 'hands',
  fromMin: 0,
  toMin: LAY_OUT_MIN,
  stepId: pot.steps[step]?.id ?? '',
});

/** What one step takes: kit from early to late, hands by the likeliest times. Nothing where it is over. */
function usesOf(pot: DayPot, times: readonly StepTimes[], index: number): Use[] {
  const step = pot.steps[index];
  const at = times[index];
  if (step === undefined || at === undefined || at.state === 'done') return [];
  const kit = kitOf(step).map((resource) => ({
    resource,
    fromMin: at.start.soon,
    toMin: at.end.late,
    stepId: step.id,
  }));
  return [...kit, ...handsOf(step, at)].filter(({ fromMin, toMin }) => toMin > fromMin);
}

/** Hands as the time line draws them: at the start and during in front, then what the end takes. */
function handsOf({ id, handsMin }: PlannedStep, { start, end }: StepTimes): Use[] {
  const lengthMin = Math.max(0, end.p50 - start.p50);
  const frontMin = Math.min(lengthMin, Math.ceil(handsMin.start + handsMin.during));
  const backMin = Math.min(lengthMin - frontMin, Math.ceil(handsMin.end));
  return [
    { resource: 'hands', fromMin: start.p50, toMin: start.p50 + frontMin, stepId: id },
    { resource: 'hands', fromMin: end.p50 - backMin, toMin: end.p50, stepId: id },
  ];
}

/** One pot holds one of each: what goes on from step to step is one hold, named by its first step. */
function merged(uses: readonly Use[]): Use[] {
  const found: Use[] = [];
  for (const use of [...uses].sort((a, b) => a.fromMin - b.fromMin)) {
    const index = found.map(({ resource }) => resource).lastIndexOf(use.resource);
    const before = found[index];
    if (before === undefined || before.toMin < use.fromMin) found.push(use);
    else found[index] = { ...before, toMin: Math.max(before.toMin, use.toMin) };
  }
  return found;
}
