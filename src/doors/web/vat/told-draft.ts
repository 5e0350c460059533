import type { History } from '../../../make/history.ts';
import type { Mishap } from '../../../make/mishaps.ts';
import type { Plan, PlannedStep } from '../../../make/plan.ts';
import { ingredientsIn, type Told } from '../../../make/told.ts';
import type { Ingredient } from '../../../make/step.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { convert } from '../../../numbers/units.ts';

/** A mishap as far as it has been told; what is not answered yet is left out. */
export interface ToldDraft {
  readonly what: string;
  readonly temperatureC?: number;
  readonly minutes?: number;
  readonly ingredient?: string;
  readonly fractionOfPlan?: number;
}

/** Taken for the second question until it is answered, and said to be so. Our own choice. */
const TAKEN = { minutes: 10, fractionOfPlan: 0.5 } as const;

export const MINUTES = [5, 10, 20, 40, 60, 120] as const;
export const SHARES = [
  { name: 'quarter', share: 0.25 },
  { name: 'half', share: 0.5 },
  { name: 'andHalf', share: 1.5 },
  { name: 'twice', share: 2 },
] as const;

/** True once something was answered: then the page waits for the rest. */
export const isBegun = (draft: ToldDraft): boolean => Object.keys(draft).length > 1;

/**
 * What is told so far, fit to be forecast: null while the first question is open; the second is taken for granted.
 * @param input.history its now is when it was told
 */
export function toldOfDraft(input: {
  readonly draft: ToldDraft;
  readonly mishap: Mishap;
  readonly plan: Plan;
  readonly history: History;
}): { readonly told: Told; readonly taken: 'minutes' | 'share' | null } | null {
  const { draft, mishap, history } = input;
  const begun = ingredientsIn(input);
  const only = begun.length === 1 ? begun[0] : undefined;
  const ingredient = draft.ingredient ?? (mishap.asks.includes('ingredient') ? only : undefined);
  const told = { ...draft, ...(ingredient === undefined ? {} : { ingredient }), elapsedMin: history.nowMin };
  const [first, second] = mishap.asks;
  if (first === 'temperature' && draft.temperatureC === undefined) return null;
  if (first === 'minutes' && draft.minutes === undefined) return null;
  if (first === 'ingredient' && ingredient === undefined) return null;
  if (second === 'minutes' && draft.minutes === undefined) return { told: { ...told, minutes: TAKEN.minutes }, taken: 'minutes' }; // prettier-ignore
  if (second === 'share' && draft.fractionOfPlan === undefined) return { told: { ...told, fractionOfPlan: TAKEN.fractionOfPlan }, taken: 'share' }; // prettier-ignore
  return { told, taken: null };
}

/** Ingredients that can be meant, the last first. */
export const askedIngredients = (input: { readonly plan: Plan; readonly history: History }): readonly Ingredient[] => ingredientsIn(input); // prettier-ignore

const TILES = 15;
const STEP = { metric: 1, us: 2 } as const; // whole degrees; two of Fahrenheit's are one of Celsius'

/** Temperatures to choose from, °C: away from what the step wants, hotter or colder; `page` shifts them by a row of tiles. */
export function temperatureTiles(input: {
  readonly step: PlannedStep | null;
  readonly isHot: boolean;
  readonly units: UnitSystem;
  readonly page: number;
}): readonly number[] {
  const { step, isHot, units, page } = input;
  const wanted = [step?.set.atC, step?.set.stopAtC, step?.set.toC].find((each) => typeof each === 'number');
  const fromC = typeof wanted === 'number' ? wanted : 37;
  const shown = Math.round(units === 'us' ? convert({ value: fromC, from: 'C', to: 'F' }) : fromC);
  const sign = isHot ? 1 : -1;
  return Array.from({ length: TILES }, (_, index) => shown + sign * STEP[units] * (1 + index + page * TILES)).map(
    (value) => (units === 'us' ? convert({ value, from: 'F', to: 'C' }) : value),
  );
}
