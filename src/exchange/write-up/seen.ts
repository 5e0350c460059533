/** What several records of one make saw, step by step: times as spans, readings, judgement words, doses as they went in. */
import { judgementNames } from '../../make/judgement.ts';
import type { Plan, PlannedStep } from '../../make/plan.ts';
import type { Sample } from '../../make/step.ts';
import type { BatchRecord } from '../../record/batch-record.ts';

/** One making: what happened, and the plan that it followed. */
export interface Making {
  readonly record: BatchRecord;
  readonly plan: Plan;
}

/** Figures that were seen, in order of the makings; never empty. */
export interface SeenFigures {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  readonly count: number;
}

export interface SeenStep {
  readonly stepId: string;
  readonly minutes: SeenFigures | null;
  /** Near its end, in the sample read most often there. */
  readonly temperatureC: (SeenFigures & { readonly sample: Sample }) | null;
  readonly pH: (SeenFigures & { readonly sample: Sample }) | null;
  /** What was judged in it, by judgement: the last grade of each making. */
  readonly grades: readonly { readonly judgement: string; readonly grade: string; readonly count: number }[];
  /** Words spoken at its end. */
  readonly said: readonly string[];
}

export interface SeenDose {
  readonly ingredient: string;
  /** Share of the plan's dose that went in, all additions of a making together. */
  readonly fraction: SeenFigures;
}

export interface Seen {
  readonly count: number;
  readonly milkL: SeenFigures;
  /** Milliseconds UTC of the first and the last making. */
  readonly fromAt: number;
  readonly toAt: number;
  readonly steps: readonly SeenStep[];
  readonly doses: readonly SeenDose[];
  readonly cheesePerMilkKgPerL: SeenFigures | null;
  readonly pieceG: SeenFigures | null;
}

const MINUTE_MS = 60_000;
/** A reading within so many minutes of a step's end counts as its own then (common practice, no source). */
const NEAR_MIN = 20;

/**
 * @param makings at least one; steps are those of the last making's plan
 * @throws RangeError without a making
 */
export function seenIn(makings: readonly Making[]): Seen {
  const last = makings.at(-1);
  if (last === undefined) throw new RangeError('nothing was made');
  const milk = figures(makings.map(({ plan }) => plan.setup.milk.volumeL));
  if (milk === null) throw new RangeError('no making says how much milk there was');
  const starts = makings.map(({ record }) => record.zeroAt);
  const weights = makings.flatMap(({ record, plan }) => {
    const weighed = record.weighed.filter(({ what }) => what === 'cheese').at(-1);
    return weighed === undefined ? [] : [weighed.massKg / plan.setup.milk.volumeL];
  });
  const pieces = makings.flatMap(({ record }) => record.weighed.filter(({ what }) => what === 'piece').map(({ massKg }) => massKg * 1000)); // prettier-ignore
  return {
    count: makings.length,
    milkL: milk,
    fromAt: Math.min(...starts),
    toAt: Math.max(...starts),
    steps: last.plan.steps.map((step) => seenStep(step, makings)),
    doses: dosesOf(makings),
    cheesePerMilkKgPerL: figures(weights),
    pieceG: figures(pieces),
  };
}

/** Lowest, middle and highest of some figures; null of none. */
export function figures(values: readonly number[]): SeenFigures | null {
  const sorted = values.filter(Number.isFinite).sort((a, b) => a - b);
  const low = sorted[0];
  const high = sorted.at(-1);
  if (low === undefined || high === undefined) return null;
  const half = (sorted.length - 1) / 2;
  const middle = ((sorted[Math.floor(half)] ?? low) + (sorted[Math.ceil(half)] ?? high)) / 2;
  return { low, middle, high, count: sorted.length };
}

interface Span {
  readonly startedAt: number | null;
  readonly endedAt: number;
}

/** When a step ran in one making. A start that nobody noted is the end of the step before. */
function spanOf(step: PlannedStep, { record, plan }: Making): Span | null {
  const noted = new Map(record.steps.map((one) => [one.stepId, one]));
  const here = noted.get(step.id);
  const endedAt = here?.endedAt ?? null;
  if (endedAt === null) return null;
  const index = plan.steps.findIndex(({ id }) => id === step.id);
  const before = noted.get(plan.steps[index - 1]?.id ?? '')?.endedAt ?? null;
  return { startedAt: here?.startedAt ?? before, endedAt };
}

function seenStep(step: PlannedStep, makings: readonly Making[]): SeenStep {
  const spans = makings.flatMap((making) => {
    const span = spanOf(step, making);
    return span === null ? [] : [{ ...span, making }];
  });
  const minutes = spans.flatMap(({ startedAt, endedAt }) => (startedAt === null ? [] : [(endedAt - startedAt) / MINUTE_MS]));
  const grades = spans.flatMap(({ startedAt, endedAt, making: { record } }) =>
    judgementNames.flatMap((judgement) => {
      const last = record.judgements.filter((one) => one.judgement === judgement && one.grade !== 'not-sure' && one.at <= endedAt + MINUTE_MS && one.at >= (startedAt ?? endedAt - NEAR_MIN * MINUTE_MS)).at(-1);
      return last === undefined ? [] : [`${judgement} ${last.grade}`];
    }),
  );
  const said = spans.flatMap(({ making: { record } }) => record.steps.find(({ stepId }) => stepId === step.id)?.said ?? []);
  return {
    stepId: step.id,
    minutes: figures(minutes),
    temperatureC: readAtEnd('temperatureC', step, spans),
    pH: readAtEnd('pH', step, spans),
    grades: [...new Set(grades)].map((told) => {
      const [judgement = '', grade = ''] = told.split(' ');
      return { judgement, grade, count: grades.filter((one) => one === told).length };
    }),
    said: [...new Set(said.filter((one) => one !== ''))],
  };
} // prettier-ignore

/** What a step's figure is read in: the watch says, else what is in the pot. */
const POT: readonly Sample[] = ['milk', 'curd', 'whey', 'cheese'];

function readAtEnd(quantity: 'temperatureC' | 'pH', step: PlannedStep, spans: readonly (Span & { readonly making: Making })[]) {
  const watched = step.watch.filter((watch) => watch.quantity === quantity).map(({ sample }) => sample);
  const samples = watched.length > 0 ? watched : POT;
  const read = spans.flatMap(({ startedAt, endedAt, making: { record } }) => {
    const near = record.readings.filter((one) => one.quantity === quantity && samples.includes(one.sample) && one.at <= endedAt + MINUTE_MS && one.at >= Math.max(startedAt ?? 0, endedAt - NEAR_MIN * MINUTE_MS));
    const last = near.at(-1);
    return last === undefined ? [] : [last];
  });
  const [first] = read;
  if (first === undefined) return null;
  const same = figures(read.filter(({ sample }) => sample === first.sample).map(({ value }) => value));
  return same === null ? null : { ...same, sample: first.sample };
} // prettier-ignore

function dosesOf(makings: readonly Making[]): readonly SeenDose[] {
  const ingredients = [...new Set(makings.flatMap(({ record }) => record.added.map(({ ingredient }) => ingredient)))];
  return ingredients.flatMap((ingredient) => {
    const fractions = makings.flatMap(({ record }) => {
      const added = record.added.filter((one) => one.ingredient === ingredient);
      return added.length === 0 ? [] : [added.reduce((sum, { fractionOfPlan }) => sum + fractionOfPlan, 0)];
    });
    const fraction = figures(fractions);
    return fraction === null ? [] : [{ ingredient, fraction }];
  });
}
