/** The free inputs of a question as axes from -1 to 1, and what is wrong with a question. */
import type { Adjustable } from '../make/adjustable.ts';
import type { Problem } from '../numbers/validity.ts';
import { pHStep } from './aim-values.ts';
import type { Course } from './course.ts';
import { AIM_QUANTITIES, START, type Question } from './question.ts';

/** One free input between its bounds. */
export interface Axis {
  readonly id: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly was: number;
  /** A range over several times its low end is walked by ratios: ten minutes more mean little to two hours. */
  readonly isByRatio: boolean;
}

const BY_RATIO_FROM = 4; // high over low; our own choice
const LONGEST_SHIFT_MIN = 720; // a start is moved within half a day; our own choice
const START_STEP_MIN = 5; // start times are given to five minutes
const MOST = { aims: 4, free: 5 } as const; // more cannot be told apart in a second; our own choice
const PROBABILITY = { low: 0.5, usual: 0.8, high: 0.98 } as const; // 500 members do not tell 0.98 from certainty; our own choice

/** The share of makes that a question wants to meet its aims. */
export const wantedShare = (question: Question): number => question.probability ?? PROBABILITY.usual;

/** The range an input may be chosen in: the make's own, or moving the start. */
function rangeOf(adjustables: readonly Adjustable[], id: string): Omit<Axis, 'was' | 'isByRatio'> | undefined {
  if (id === START) return { id, low: -LONGEST_SHIFT_MIN, high: LONGEST_SHIFT_MIN, step: START_STEP_MIN };
  return adjustables.find((one) => one.id === id);
}

/** The axes of a question that has no problems. */
export function axesOf(input: {
  readonly question: Question;
  readonly adjustables: readonly Adjustable[];
  /** Where the make leaves it to the forecast. */
  readonly expected: (adjustable: Adjustable) => number;
}): Axis[] {
  const { question, adjustables } = input;
  return question.free.flatMap((free): Axis[] => {
    const range = rangeOf(adjustables, free.id);
    if (range === undefined) return [];
    const adjustable = adjustables.find((one) => one.id === free.id);
    const low = free.low ?? range.low;
    const high = free.high ?? range.high;
    const was = adjustable === undefined ? 0 : (adjustable.now ?? input.expected(adjustable));
    return [{ id: free.id, step: range.step, low, high, was, isByRatio: low > 0 && high / low >= BY_RATIO_FROM }];
  });
}

/** A value on its axis; outside -1 to 1 where it lies outside the bounds. */
export function unitOf(axis: Axis, value: number): number {
  const { low, high } = axis;
  return axis.isByRatio
    ? (2 * Math.log(Math.max(value, low / BY_RATIO_FROM) / low)) / Math.log(high / low) - 1
    : (2 * (value - low)) / (high - low) - 1;
}

/** The value at a place of its axis, as finely as anybody sets it and never beyond a bound. */
export function valueOn(axis: Axis, unit: number): number {
  const { low, high, step } = axis;
  const share = (unit + 1) / 2;
  const exact = axis.isByRatio ? low * (high / low) ** share : low + share * (high - low);
  return Math.min(Math.max(Number((Math.round(exact / step) * step).toFixed(6)), low), high);
}

/** Everything wrong with a question, each with what would do. */
export function questionProblems(input: {
  readonly question: Question;
  readonly course: Course;
  readonly adjustables: readonly Adjustable[];
  /** Decided already: named so, where a make is under way. */
  readonly decided: ReadonlySet<string>;
}): Problem[] {
  const { question, course, adjustables, decided } = input;
  const problems: Problem[] = [];
  const { aims, free, probability } = question;
  if (aims.length < 1 || aims.length > MOST.aims) problems.push(count('aims', aims.length, MOST.aims));
  if (free.length < 1 || free.length > MOST.free) problems.push(count('free', free.length, MOST.free));
  if (probability !== undefined && !(probability >= PROBABILITY.low && probability <= PROBABILITY.high)) {
    problems.push({ code: 'impossible', field: 'probability', value: probability, expected: `${PROBABILITY.low} to ${PROBABILITY.high}`, remedy: 'Ask for a share of makes in that range; 0.8 is 8 in 10.' }); // prettier-ignore
  }
  for (const [index, aim] of aims.entries()) {
    const field = `aims[${index}]`;
    const bounds = [aim.low, aim.high];
    if (!AIM_QUANTITIES.includes(aim.quantity)) {
      problems.push({ code: 'unknown-choice', field: `${field}.quantity`, value: aim.quantity, expected: AIM_QUANTITIES.join(', '), remedy: 'Aim at one of these.' }); // prettier-ignore
    }
    if (!(aim.low < aim.high) || bounds.every((bound) => !Number.isFinite(bound))) {
      problems.push({ code: 'contradiction', field, value: bounds, expected: 'a range with its low end below its high end', remedy: 'Give the two ends; one of them may be left open.' }); // prettier-ignore
    }
    if (aim.quantity === 'pH' && pHStep(course, aim.stepId) === -1) {
      problems.push({ code: 'unknown-choice', field: `${field}.stepId`, value: aim.stepId, expected: course.steps.map((step) => step.id).join(', '), remedy: 'Name the step at whose end the pH is meant.' }); // prettier-ignore
    }
  }
  const seen = new Set<string>();
  for (const [index, { id, low, high }] of free.entries()) {
    const field = `free[${index}]`;
    const range = rangeOf(adjustables, id);
    if (range === undefined) {
      problems.push(
        decided.has(id)
          ? { code: 'unreachable', field: `${field}.id`, value: id, expected: adjustables.map((one) => one.id).join(', '), remedy: 'It is decided already; free one of these.' }
          : { code: 'unknown-choice', field: `${field}.id`, value: id, expected: [...adjustables.map((one) => one.id), START].join(', '), remedy: 'Free one of these.' },
      ); // prettier-ignore
      continue;
    }
    if (seen.has(id)) problems.push({ code: 'contradiction', field: `${field}.id`, value: id, expected: 'each input freed once', remedy: 'Take one of the two out.' }); // prettier-ignore
    seen.add(id);
    const from = low ?? range.low;
    const to = high ?? range.high;
    if (!(from >= range.low && to <= range.high && from < to)) {
      problems.push({ code: 'impossible', field, value: [from, to], expected: `a range inside ${range.low} to ${range.high}`, remedy: 'Further off it would be another cheese; give two ends inside.' }); // prettier-ignore
    }
  }
  return problems;
}

const count = (field: string, value: number, most: number): Problem => ({
  code: 'impossible',
  field,
  value,
  expected: `1 to ${most} of them`,
  remedy: value === 0 ? 'Give at least one.' : 'Ask in two questions.',
});
