/** What a maker could note at a moment of a make, and what they would note, were this member the truth. */
import { AFTER_VAT, courseOf, type Course, type CourseStep } from '../../src/forecast/course.ts';
import type { MemberRun } from '../../src/forecast/run.ts';
import type { History } from '../../src/make/history.ts';
import { judgedSchema } from '../../src/make/judgement.ts';
import type { Plan } from '../../src/make/plan.ts';
import type { Random } from '../../src/numbers/random.ts';
import { JUDGEMENTS } from '../../src/science/judgements.ts';
import { anyOf } from './kitchen.ts';

export type Reading = History['readings'][number];
export type Judged = History['judgements'][number];

interface NoteKind {
  readonly quantity: 'pH' | 'temperatureC' | 'flocculationMin' | 'massKg' | Judged['judgement'];
  readonly sample: Reading['sample'];
}

/** A history with one note more. */
export function noted(history: History, note: Reading | Judged): History {
  return 'quantity' in note
    ? { ...history, readings: [...history.readings, note] }
    : { ...history, judgements: [...history.judgements, note] };
}

/** What the truth says of one more note: the value it expects, with the error that the likelihood states, and how likely it is. */
export type Ask = (note: Reading | Judged) => { expected: number; sd: number; logLikelihood: number };

/** Asks a truth that has been run with a history of which the note is the last reading, or the last judgement. */
export function answerOf(run: MemberRun, asked: History, note: Reading | Judged): ReturnType<Ask> {
  const reading = asked.readings.length - 1;
  const at = 'quantity' in note ? reading : reading + asked.judgements.length;
  return {
    expected: run.expected[reading] ?? Number.NaN,
    sd: run.expectedSd[reading] ?? Number.NaN,
    logLikelihood: run.logLikelihoods[at] ?? 0,
  };
}

/** How a reading comes out, from what the truth expects of it: the noise of instrument and hand. */
export type Read = (at: { reading: Reading; expected: number; sd: number; random: Random }) => number;

/** By the likelihood's own error: model and instrument together, fresh for each reading. */
export const readAsForecast: Read = ({ reading, expected, sd, random }) =>
  reading.quantity === 'flocculationMin' || reading.quantity === 'massKg'
    ? expected * Math.exp((sd / expected) * random.normal())
    : expected + sd * random.normal();

/**
 * One note at this minute, of any kind that the step allows; null where nothing can be noted.
 */
export function noteAt(input: {
  plan: Plan;
  history: History;
  elapsedMin: number;
  random: Random;
  ask: Ask;
  read: Read;
}): Reading | Judged | null {
  const { plan, history, elapsedMin, random, ask, read } = input;
  const kinds = kindsAt(courseOf({ plan, history }), history, elapsedMin);
  if (kinds.length === 0) return null;
  const { quantity, sample } = anyOf(random, kinds);
  if (isJudgement(quantity)) return judgedAt({ judgement: quantity, elapsedMin, random, ask });
  const reading: Reading = { quantity, sample, elapsedMin, value: ORDINARY[quantity] };
  const { expected, sd } = ask(reading);
  return Number.isFinite(expected) ? { ...reading, value: read({ reading, expected, sd, random }) } : null;
}

const isJudgement = (name: NoteKind['quantity']): name is Judged['judgement'] => name in JUDGEMENTS;

/** What the truth is asked with; how it expects the reading does not depend on it. */
const ORDINARY = { pH: 6, temperatureC: 37, flocculationMin: 12, massKg: 1.7 } as const;

/** A grade, drawn as the truth makes each likely. */
export function judgedAt(input: {
  judgement: Judged['judgement'];
  elapsedMin: number;
  random: Random;
  ask: Ask;
}): Judged | null {
  const { judgement, elapsedMin, ask } = input;
  let left = input.random.uniform();
  for (const grade of JUDGEMENTS[judgement].grades) {
    const judged = judgedSchema.parse({ judgement, grade });
    const note: Judged = { ...judged, elapsedMin };
    left -= Math.exp(ask(note).logLikelihood);
    if (left <= 0) return note;
  }
  return null;
}

function kindsAt(course: Course, history: History, elapsedMin: number): NoteKind[] {
  const step = course.steps.find(
    ({ startedMin, endedMin }) =>
      startedMin !== null && startedMin <= elapsedMin && (endedMin ?? Infinity) > elapsedMin,
  );
  if (step === undefined) return [];
  const kinds = kindsOf(step, course);
  return kinds.filter(
    ({ quantity }) =>
      (quantity !== 'pH' || course.plan.setup.pHMeter) &&
      (!ONCE.has(quantity) || !history.readings.some((reading) => reading.quantity === quantity)),
  );
}

const ONCE: ReadonlySet<string> = new Set(['flocculationMin', 'massKg']);

function kindsOf(step: CourseStep, course: Course): NoteKind[] {
  const of = (sample: Reading['sample'], ...quantities: NoteKind['quantity'][]): NoteKind[] =>
    quantities.map((quantity) => ({ quantity, sample }));
  switch (step.verb) {
    case 'warm':
      return of('milk', 'temperatureC');
    case 'add':
      return of('milk', 'temperatureC', 'pH');
    case 'ripen':
      return of('milk', 'temperatureC', 'pH', 'tang');
    case 'set':
      return of('milk', 'temperatureC', 'pH', 'flocculationMin', 'cleanBreak');
    case 'drain':
    case 'stretch':
      return [];
    default: {
      if (AFTER_VAT.has(step.verb)) return [];
      const drained = course.steps.slice(0, step.index).some(({ verb }) => verb === 'drain');
      return drained
        ? of('curd', 'pH', 'massKg', 'stretch', 'stretch')
        : of('whey', 'pH', 'temperatureC', 'grip', 'wheyTaste');
    }
  }
}
