/** Adopting a choice at the vat: the plan, the answers and the history as they stand from that minute on. */
import { adjustablesOf, answersWith } from './adjustable.ts';
import type { Changes } from './changes.ts';
import { departed, type Departure, type Fitted } from './departure.ts';
import type { History } from './history.ts';
import type { Plan } from './plan.ts';
import { planMake } from './planning.ts';
import type { Answers } from './setup.ts';
import { changedUnderWay } from './under-way.ts';

/** What a choice changes; both left out changes nothing. */
export interface Adopted {
  readonly changes?: Changes | undefined;
  readonly departures?: readonly Departure[] | undefined;
}

/**
 * The plan after a choice. The same function serves the forecast that is shown beside a choice and the record that took it.
 * @throws InputError where a change lies outside the make's ranges, or this milk cannot become the other cheese
 */
export function adoptedPlan(input: {
  readonly plan: Plan;
  readonly answers: Answers;
  readonly steps: History['steps'];
  readonly atMin: number;
  readonly choice: Adopted;
}): { readonly plan: Plan; readonly answers: Answers } {
  const { plan, choice, steps, atMin } = input;
  const { changes, departures = [] } = choice;
  const answers = changes === undefined ? input.answers : chosen(plan, input.answers, changes);
  const isOfPlan = changes !== undefined || departures.some(({ kind }) => kind !== 'done' && kind !== 'added');
  if (!isOfPlan) return { plan, answers };
  const fitted = departures.reduce<Fitted>(departed, { make: plan.make, answers });
  const after = planMake(fitted);
  return { plan: changedUnderWay({ before: plan, after, steps, atMin }), answers: fitted.answers };
}

/** What the kitchen answers (a dose, the size of the pieces) goes where it was answered; the rest are changes of the make. */
function chosen(plan: Plan, answers: Answers, changes: Changes): Answers {
  const answered = adjustablesOf(plan).filter(({ id, path }) => path !== null && changes[id] !== undefined);
  const ofMake = Object.entries(changes).filter(([id]) => !answered.some((one) => one.id === id));
  const settled = answersWith({ answers, adjustables: answered, settings: changes });
  return ofMake.length === 0 ? settled : { ...settled, changes: { ...settled.changes, ...Object.fromEntries(ofMake) } };
}

/** The history after a choice: what it does to the vat on the spot is as good as done. */
export function adoptedHistory(history: History, choice: Adopted): History {
  const departures = choice.departures ?? [];
  const disturbances = departures.flatMap((one) => (one.kind === 'done' ? [one.what] : []));
  const additions = departures.flatMap((one) => (one.kind === 'added' ? [one] : []));
  if (disturbances.length + additions.length === 0) return history;
  return {
    ...history,
    disturbances: [...(history.disturbances ?? []), ...disturbances],
    additions: [
      ...history.additions,
      ...additions.map(({ ingredient, fractionOfPlan, elapsedMin }) => ({ ingredient, fractionOfPlan, elapsedMin })),
    ],
  };
}
