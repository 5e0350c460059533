/** A mishap as it was told, and what it means to the history and the plan. */
import type { Disturbance } from './disturbance.ts';
import type { Departure } from './departure.ts';
import type { History } from './history.ts';
import { mishapNamed } from './mishaps.ts';
import type { Plan } from './plan.ts';
import { INGREDIENTS, type Ingredient } from './step.ts';

/** What was said of a mishap; what was not asked or not answered is left out. */
export interface Told {
  readonly what: string;
  /** When it was told: what lasted so many minutes ended then. */
  readonly elapsedMin: number;
  readonly temperatureC?: number | undefined;
  readonly minutes?: number | undefined;
  readonly ingredient?: string | undefined;
  /** Share of the dose that went in. */
  readonly fractionOfPlan?: number | undefined;
}

/** What the sums hold for: curd and milk with culture and rennet in it. Milk proteins and rennet change above, ice forms below. */
export const TOLD_RANGE = {
  temperatureC: { low: 1, high: 60, source: 'syneresis 20 to 50 °C (Huber et al. 2001, abstract seen); milk heated to 75 °C did not clot (Ustunol & Brown 1985, abstract seen); the bounds are our own' },
  minutes: { low: 0, high: 1440, source: 'a day, our own choice' },
} as const; // prettier-ignore

/** The first thing told that lies outside what the sums hold for; null where all is inside. */
export function outsideOf(told: Told): {
  readonly field: 'temperatureC' | 'minutes';
  readonly value: number;
  readonly low: number;
  readonly high: number;
} | null {
  // prettier-ignore
  for (const field of ['temperatureC', 'minutes'] as const) {
    const value = told[field];
    const { low, high } = TOLD_RANGE[field];
    if (value !== undefined && !(value >= low && value <= high)) return { field, value, low, high };
  }
  return null;
}

/**
 * The history with a mishap in it. One whose questions are still open, or that the sums know nothing of, changes nothing.
 * @param input.history up to when it was told, or later
 */
export function toldHistory(input: { readonly history: History; readonly told: Told }): History {
  const { history, told } = input;
  const disturbance = disturbanceOf(told);
  if (disturbance !== null) return { ...history, disturbances: [...(history.disturbances ?? []), disturbance] };
  const means = mishapNamed(told.what)?.means ?? null;
  if (typeof means === 'object' && means !== null) {
    const { judgement, grade } = means;
    return { ...history, judgements: [...history.judgements, { judgement, grade, elapsedMin: told.elapsedMin }] };
  }
  const dose = doseOf(told);
  if (dose === null) return history;
  // What was noted of it as it went in was not so; what came later stays.
  const own = history.additions.findIndex((entry) => entry.ingredient === dose.ingredient && entry.elapsedMin <= told.elapsedMin); // prettier-ignore
  const entry = { ...dose, elapsedMin: history.additions[own]?.elapsedMin ?? Math.min(told.elapsedMin, 0) };
  return { ...history, additions: [entry, ...history.additions.filter((_, index) => index !== own)] };
}

function disturbanceOf({ what, elapsedMin, temperatureC, minutes = 0 }: Told): Disturbance | null {
  const means = mishapNamed(what)?.means;
  const from = { elapsedMin: elapsedMin - minutes, minutes };
  if (means === 'noHeat' && minutes > 0) return { kind: 'noHeat', ...from };
  return means === 'temperature' && temperatureC !== undefined ? { kind: 'temperature', ...from, temperatureC } : null;
}

function doseOf(told: Told): { readonly ingredient: Ingredient; readonly fractionOfPlan: number } | null {
  const mishap = mishapNamed(told.what);
  const ingredient = INGREDIENTS.find((one) => one === told.ingredient);
  const fractionOfPlan = mishap?.fractionOfPlan ?? told.fractionOfPlan;
  if (mishap?.means !== 'dose' || ingredient === undefined || fractionOfPlan === undefined) return null;
  return { ingredient, fractionOfPlan };
}

/** What a mishap takes from the kit. */
export const toldDepartures = (told: Told): readonly Departure[] =>
  mishapNamed(told.what)?.means === 'noMeter' ? [{ kind: 'withoutMeter' }] : [];

/** Ingredients whose step has begun: those that can have gone in wrongly, the last first. */
export function ingredientsIn(input: { readonly plan: Plan; readonly history: History }): readonly Ingredient[] {
  const begun = new Set(input.history.steps.map((step) => step.stepId));
  return input.plan.steps
    .filter((step) => step.verb === 'add' && begun.has(step.id))
    .flatMap((step) => INGREDIENTS.filter((one) => one === step.set.ingredient))
    .reverse();
}
