/**
 * A make in the words of its reader: the same figures, steps and ids, other sentences. The make as it was written is
 * what is planned, frozen and kept; this one is only shown.
 */
import type { MakeFacts } from './make-facts.ts';
import type { Make } from './make.ts';
import type { PlannedStep, Plan } from './plan.ts';
import type { Step } from './step.ts';

/** What a sentence of a make is called in the reader's language. */
export type Tell = (text: string) => string;

/** Every sentence of a make told otherwise. Ids, figures, sources, aliases and words of the language itself stay. */
export function spokenMake(make: Make, tell: Tell): Make {
  const { milk, shelfLife } = make;
  return {
    ...make,
    name: tell(make.name),
    about: tell(make.about),
    shelfLife: { ...shelfLife, note: tell(shelfLife.note) },
    milk: {
      ...milk,
      deviations: milk.deviations.map((one) => ({ ...one, because: tell(one.because), instead: tell(one.instead) })),
      cartonWords: { buy: milk.cartonWords.buy.map(tell), avoid: milk.cartonWords.avoid.map(tell) },
    },
    aims: make.aims.map((aim) => ({ ...aim, basis: tell(aim.basis) })),
    ...(make.free === undefined ? {} : { free: make.free.map((one) => ({ ...one, name: tell(one.name) })) }),
    steps: make.steps.map((step) => spokenStep(step, tell)),
  };
}

/** What a step says, in a make and in a plan alike. */
function spokenStep<S extends Step | PlannedStep>(step: S, tell: Tell): S {
  return {
    ...step,
    name: tell(step.name),
    how: tell(step.how),
    done: tell(step.done),
    why: tell(step.why),
    prepare: step.prepare.map((one) => ({
      ...one,
      what: tell(one.what),
      ...(one.ifLate === undefined ? {} : { ifLate: tell(one.ifLate) }),
    })),
    watch: step.watch.map((one) => ({ ...one, when: tell(one.when), good: tell(one.good) })),
  };
}

/** What a list says of a make. */
export function spokenFacts(facts: MakeFacts, tell: Tell): MakeFacts {
  const { milk } = facts;
  return {
    ...facts,
    name: tell(facts.name),
    about: tell(facts.about),
    // Whoever knows it by its English name finds it too.
    aliases: tell(facts.name) === facts.name ? facts.aliases : [...facts.aliases, facts.name],
    milk: { ...milk, deviations: milk.deviations.map((one) => ({ ...one, because: tell(one.because), instead: tell(one.instead), source: tell(one.source) })) }, // prettier-ignore
    onlyByPH: facts.onlyByPH.map(tell),
    helpedByPH: facts.helpedByPH.map(tell),
  };
}

/** A plan with its make, its steps, its kitchen measures and its remarks told otherwise. */
export function spokenPlan(plan: Plan, tell: Tell): Plan {
  return {
    ...plan,
    make: spokenMake(plan.make, tell),
    steps: plan.steps.map((step) => spokenStep(step, tell)),
    amounts: plan.amounts.map(({ kitchen, spoon, ...amount }) => ({
      ...amount,
      ...(kitchen === undefined ? {} : { kitchen: { ...kitchen, words: tell(kitchen.words) } }),
      ...(spoon === undefined ? {} : { spoon: { ...spoon, words: tell(spoon.words) } }),
    })),
    ...(plan.remarks === undefined
      ? {}
      : {
          remarks: plan.remarks.map((one) => ({ ...one, because: tell(one.because), instead: tell(one.instead), source: tell(one.source) })), // prettier-ignore
        }),
  };
}
