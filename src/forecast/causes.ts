import type { Plan, PlannedStep } from '../make/plan.ts';
import type { History } from '../make/history.ts';
import type { Ingredient, Verb } from '../make/step.ts';
import { CAUSES_IN_THE_MILK } from './causes-milk.ts';
import { CAUSES_AT_THE_VAT } from './causes-vat.ts';
import { CAUSES_AFTER_THE_VAT } from './causes-after.ts';
import type { UncertainName } from './uncertain.ts';

/**
 * Causes that are weighed against a record. Each is data: how often it happens and which of the model's inputs it changes. None
 * knows a cheese: what it touches is named by verb, setting and input, and it is weighed wherever a make has those.
 */

/** How much: the middle, and how far it varies from case to case (of a factor the standard deviation of its logarithm). */
export interface Size {
  readonly middle: number;
  readonly spread: number;
}

/** Inputs of a member that a cause may multiply. */
export type FactorName =
  | 'culture'
  | 'cultureAlive'
  | 'lag'
  | 'growth'
  | 'acidRate'
  | 'acidAfterDrain'
  | 'rennet'
  | 'rennetStrength'
  | 'rennetKept'
  | 'calcium'
  | 'heatSlowing'
  | 'softening'
  | 'wheyRate'
  | 'heatLoss';

/** Inputs of a member that a cause may move. */
export type OffsetName = 'startPH' | 'thermometerC' | 'meterPH' | 'stretchWaterC';

/** A setting of the plan's steps that was really another. */
export interface SettingChange {
  readonly verbs: readonly Verb[];
  readonly setting: keyof PlannedStep['set'];
  readonly by: 'factor' | 'offset';
  readonly size: Size;
}

/** Steps that lasted longer or shorter than milk and plan wanted; `before` = only where this verb comes next. */
export interface LastsChange {
  readonly verb: Verb;
  readonly before?: Verb;
  readonly factor: Size;
}

export interface Cause {
  /** Stable id; its words are `explain:cause.<id>`. */
  readonly id: string;
  /** Causes that leave the same record behind share a family; only the questions tell them apart. */
  readonly family?: string;
  /** Share of makes it happens in: our own choice, all of them; no count of failed kitchen makes was found. */
  readonly rate: number;
  /** What a make must have for the cause to be possible. */
  readonly needs: {
    readonly verbs?: readonly Verb[];
    readonly ingredient?: Ingredient;
    readonly pHMeter?: true;
    /** Not where the maker has said so already: then it is known, not a cause. */
    readonly unsaid?: 'homogenised' | 'high-heat';
    /** Not where the thermometer was held into ice water. */
    readonly thermometerUnchecked?: true;
  };
  readonly shifts?: Readonly<Partial<Record<UncertainName, number>>>;
  readonly factors?: Readonly<Partial<Record<FactorName, Size>>>;
  readonly offsets?: Readonly<Partial<Record<OffsetName, Size>>>;
  readonly settings?: readonly SettingChange[];
  readonly lasts?: readonly LastsChange[];
  /** An ingredient that never went in: the record may lack its note. */
  readonly forgets?: Ingredient;
  /** Where the sizes are from. */
  readonly source: string;
}

/** All causes, in the order of a make. */
export const CAUSES: readonly Cause[] = [...CAUSES_IN_THE_MILK, ...CAUSES_AT_THE_VAT, ...CAUSES_AFTER_THE_VAT];

/** Causes that could have happened in this make. */
export function causesFor(input: { readonly plan: Plan; readonly history: History }): readonly Cause[] {
  const { plan, history } = input;
  const { setup } = plan;
  const verbs = new Set(plan.steps.map((step) => step.verb));
  const ingredients = new Set(plan.steps.map((step) => step.set.ingredient));
  const isChecked = history.readings.some((reading) => reading.quantity === 'iceWaterC');
  return CAUSES.filter(({ needs, lasts }) => {
    if (needs.verbs?.every((verb) => verbs.has(verb)) === false) return false;
    if (needs.ingredient !== undefined && !ingredients.has(needs.ingredient)) return false;
    if (needs.pHMeter === true && !setup.pHMeter) return false;
    if (needs.unsaid === 'homogenised' && setup.milk.homogenised) return false;
    if (needs.unsaid === 'high-heat' && setup.milk.treatment === 'high-heat') return false;
    if (needs.thermometerUnchecked === true && isChecked) return false;
    return (lasts ?? []).every((change) => plan.steps.some((_, index) => lastsHere(change, plan, index)));
  });
}

/** True where a change of length acts on this step. */
export function lastsHere(change: LastsChange, plan: Plan, index: number): boolean {
  return (
    plan.steps[index]?.verb === change.verb &&
    (change.before === undefined || plan.steps[index + 1]?.verb === change.before)
  );
}
