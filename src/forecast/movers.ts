import { adjustablesOf } from '../make/adjustable.ts';
import { NO_HISTORY, type History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import type { Answers } from '../make/setup.ts';
import { stillOpen } from '../make/under-way.ts';
import type { Wanted } from './question.ts';
import { commonMembers, settled, type Case, type Tried } from './solve-members.ts';
import { valuesOf } from './solve-trials.ts';

/** One adjustable thing, and how far it can move what is aimed at. */
export interface Mover {
  readonly id: string;
  /** Greatest move of any aim's mean, from end to end of the range, in standard deviations of the members. */
  readonly effect: number;
}

const MEMBERS = 40; // enough to rank what moves an aim by half its scatter: our own choice

/**
 * What is worth freeing for some aims: every adjustable set to both ends of its range, the same members each time.
 * @returns the greatest mover first
 */
export function moversOf(input: {
  readonly plan: Plan;
  readonly answers: Answers;
  readonly aims: readonly Pick<Wanted, 'quantity' | 'stepId'>[];
  readonly history?: History;
  readonly seed?: number;
}): readonly Mover[] {
  const { plan, answers, history = NO_HISTORY, seed = 1 } = input;
  const adjustables = stillOpen({ plan, adjustables: adjustablesOf(plan), history });
  const on: Case = { plan, answers, history, beliefs: {}, adjustables };
  const { asItStands, under } = commonMembers({ on, members: MEMBERS, seed });
  const aims = input.aims.map((aim) => ({ ...aim, low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY }));
  const means = (tried: Tried): number[] => valuesOf({ aims, tried, shiftMin: 0 }).map(mean);
  const scatters = valuesOf({ aims, tried: asItStands, shiftMin: 0 }).map((own) => Math.sqrt(mean(own.map((value) => (value - mean(own)) ** 2)))); // prettier-ignore
  const movers = adjustables.map(({ id, low, high }): Mover => {
    const [from, to] = [low, high].map((value) => means(under(settled(on, { [id]: value }).plan)));
    const effects = scatters.map((scatter, aim) => Math.abs((to?.[aim] ?? 0) - (from?.[aim] ?? 0)) / Math.max(scatter, 1e-9)); // prettier-ignore
    return { id, effect: Math.max(...effects) };
  });
  return movers.sort((a, b) => b.effect - a.effect);
}

const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / Math.max(values.length, 1); // prettier-ignore
