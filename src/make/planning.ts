/** Fits a make to this milk, pot and kit: amounts in all their forms, steps with plain numbers, and what to know. */
import { InputError, type Problem } from '../numbers/validity.ts';
import { amountsOf } from './amounts.ts';
import { withChanges } from './changes.ts';
import { fillSetup } from './fill.ts';
import type { Make } from './make.ts';
import type { Plan, PlannedStep } from './plan.ts';
import { milkRefusals, remarksOf } from './remarks.ts';
import type { Answers, Setup } from './setup.ts';
import type { Step } from './step.ts';

/**
 * The plan of one batch, without a clock.
 * @param input.make what to make
 * @param input.answers what the maker said; every gap is assumed and listed
 * @returns the plan: amounts for this milk, the steps that apply, assumptions, remarks
 * @throws InputError where an answer or a change cannot be, or where this milk cannot become this cheese, with what to do instead
 */
export function planMake(input: { readonly make: Make; readonly answers: Answers }): Plan {
  const { answers } = input;
  const make = answers.changes === undefined ? input.make : withChanges({ make: input.make, changes: answers.changes });
  const { setup, assumed } = fillSetup({ make, answers });
  const refusals: Problem[] = milkRefusals({ make, setup });
  if (refusals.length > 0) throw new InputError(refusals);
  const steps = make.steps
    .filter((step) => step.set.ingredient !== 'calcium' || setup.calcium.has)
    .map((step) => plannedStep({ step, setup }));
  const amounts = amountsOf({ make, setup, steps });
  const changes = answers.changes === undefined ? {} : { changes: answers.changes };
  return { make, setup, assumed, amounts, steps, ...changes, remarks: remarksOf({ make, setup, amounts }) };
}

function plannedStep(input: { readonly step: Step; readonly setup: Setup }): PlannedStep {
  const { step, setup } = input;
  const set: Partial<Record<keyof Step['set'], number | string | boolean>> = {};
  for (const [name, setting] of settingsOf(step)) set[name] = setting;
  if (set.pieceG !== undefined && setup.pieceG !== undefined) set.pieceG = setup.pieceG;
  const { hands, ...kept } = step;
  return {
    ...kept,
    set,
    handsMin: { start: hands.startMin.value, during: hands.duringMin.value, end: hands.endMin.value },
  };
}

function settingsOf(step: Step): [keyof Step['set'], number | string | boolean][] {
  const { set } = step;
  const names = Object.keys(set).filter((name): name is keyof Step['set'] => Object.hasOwn(set, name));
  return names.flatMap((name): [keyof Step['set'], number | string | boolean][] => {
    const setting = set[name];
    if (setting === undefined) return [];
    return [[name, typeof setting === 'object' ? setting.value : setting]];
  });
}

/** Minutes that a step is expected to last by the make's own time, or undefined where only the milk decides. */
export function expectedMin(step: Pick<PlannedStep, 'until'>): number | undefined {
  for (const condition of step.until.of) if (condition.kind === 'time') return condition.minutes.value;
  return undefined;
}

/** Length of the plan's own rests for acid, min: the expectations beside their judgements, added up. */
export function plannedRestMin(plan: Pick<Plan, 'steps'>): number {
  return plan.steps
    .filter((step) => step.verb === 'restToAcid')
    .reduce((minutes, step) => minutes + (expectedMin(step) ?? 0), 0);
}
