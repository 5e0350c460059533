/** Spoons beside grams and millilitres, for what is taken by the spoon in a kitchen; the weight stands first. */
import { spoonsFor, type KitchenIngredient, type SpoonMeasure, type SpoonRegion } from './kitchen-measures.ts';
import type { Amount } from './plan.ts';

/** What each amount is as a spoon holds it. What is poured thin weighs as water does, within the spoon's own error. */
const HELD: Readonly<Record<string, KitchenIngredient>> = {
  'acid-citric': 'citric-acid',
  'acid-vinegar': 'water',
  'acid-lemon': 'water',
  lipase: 'lipase-powder',
  'dry-salt': 'cheese-salt',
};

/**
 * The nearest spoon for an amount of a plan.
 * @returns null for what is not taken by the spoon, and where no spoon comes near
 */
export function spoonBeside(input: {
  readonly amount: Pick<Amount, 'id' | 'unit' | 'value'>;
  readonly region: SpoonRegion;
}): SpoonMeasure | null {
  const { amount, region } = input;
  const ingredient = HELD[amount.id];
  if (ingredient === undefined || (amount.unit !== 'g' && amount.unit !== 'mL') || amount.value <= 0) return null;
  return spoonsFor({ massG: amount.value, ingredient, region });
}
