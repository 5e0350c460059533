/** The same amount in the measures that people own, and as spoons, never without saying where a scale is safer. */
import {
  spoonsFor,
  type KitchenIngredient,
  isKitchenIngredient,
  type SpoonRegion,
} from '../../../make/kitchen-measures.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { askSum } from './ask-sum.ts';
import { canBecome, needsIngredient } from './measure-options.ts';
import { saidNumber } from '../../../exchange/told/rounding.ts';
import { optionLabel } from '../../../exchange/told/sum-words.ts';
import { numberAt } from '../../../exchange/told/value-at.ts';

export interface MeasureRow {
  readonly measure: string;
  readonly amount: string;
}
export interface SpoonRow {
  readonly region: string;
  readonly words: string;
  /** What to mind; null where a spoon is good enough. */
  readonly mind: string | null;
}
export interface MeasuresView {
  readonly same: readonly MeasureRow[];
  /** Null where nothing is weighed that could be spooned. */
  readonly spoons: readonly SpoonRow[] | null;
}

const OWNED = [
  'L', 'mL', 'us-gallon', 'us-quart', 'us-cup', 'us-fluid-ounce', 'us-tablespoon', 'us-teaspoon', 'us-quarter-teaspoon',
  'us-eighth-teaspoon', 'us-pinch', 'us-smidgen', 'metric-cup', 'metric-tablespoon', 'metric-teaspoon', 'australian-tablespoon',
  'imperial-pint', 'imperial-fluid-ounce', 'imperial-tablespoon', 'imperial-teaspoon', 'drop', 'kg', 'g', 'mg', 'lb', 'oz',
  'C', 'F', 'K', 'rise-C', 'rise-F', 'm', 'cm', 'mm', 'in', 'kPa', 'psi', 'd', 'h', 'min', 's',
]; // prettier-ignore
const SENSIBLE = { low: 0.2, high: 400 } as const; // our own choice: beyond, nobody counts
const REGIONS: readonly SpoonRegion[] = ['us', 'metric', 'imperial'];

/** @param input.given the input of the sum `measure` as it was asked */
export function measuresView(input: {
  readonly given: Readonly<Record<string, unknown>>;
  readonly say: Say;
  readonly write: Writer;
}): MeasuresView {
  const { given, say, write } = input;
  const { from, to, ingredient } = given;
  if (typeof from !== 'string' || typeof to !== 'string') return { same: [], spoons: null };
  const what = typeof ingredient === 'string' && isKitchenIngredient(ingredient) ? ingredient : null;
  const same = OWNED.filter((unit) => unit !== from && unit !== to && canBecome({ from, to: unit }))
    .filter((unit) => what !== null || !needsIngredient({ from, to: unit }))
    .flatMap((unit): MeasureRow[] => {
      const value = valueIn({ given, unit });
      const isScale = unit === 'C' || unit === 'F' || unit === 'K' || unit.startsWith('rise');
      if (value === null || (!isScale && (value < SENSIBLE.low || value > SENSIBLE.high))) return [];
      const { said } = saidNumber({ value, ends: null, unit: { house: null, symbol: '', decimals: null }, write });
      return [{ measure: optionLabel({ say, sum: 'measure', path: 'to', value: unit }), amount: said.number }];
    });
  return { same, spoons: what === null ? null : spoonRows({ given, what, say, write }) };
}

function valueIn(input: { readonly given: Readonly<Record<string, unknown>>; readonly unit: string }): number | null {
  const reply = askSum({ name: 'measure', input: { ...input.given, to: input.unit } });
  return 'answer' in reply ? numberAt(reply.answer.result, 'value') : null;
}

function spoonRows(input: {
  readonly given: Readonly<Record<string, unknown>>;
  readonly what: KitchenIngredient;
  readonly say: Say;
  readonly write: Writer;
}): SpoonRow[] {
  const { given, what, say, write } = input;
  const massG = valueIn({ given, unit: 'g' });
  if (massG === null || massG <= 0) return [];
  const found = REGIONS.map((region) => ({ region, spoon: spoonsFor({ massG, ingredient: what, region }) }));
  // Two kitchens with the same spoons get one line.
  const words = [...new Set(found.map(({ spoon }) => spoon?.words ?? ''))];
  return words.map((these): SpoonRow => {
    const alike = found.filter(({ spoon }) => (spoon?.words ?? '') === these);
    const region = alike.map((one) => say(`bench:measures.groups.${one.region}`)).join(', ');
    const spoons = alike.flatMap(({ spoon }) => (spoon === null ? [] : [spoon]));
    const [first] = spoons;
    if (first === undefined) return { region, words: say('bench:measures.noSpoon'), mind: null };
    const masses = spoons.map((spoon) => spoon.massG);
    const [low, high] = [write.grams(Math.min(...masses)), write.grams(Math.max(...masses))];
    const mass = low.text === high.text ? low.text : say('bench:measures.between', { low: low.unit === high.unit ? low.number : low.text, high: high.text }); // prettier-ignore
    const error = write.percent(Math.max(...spoons.map((spoon) => spoon.errorPercent))).text;
    const mind = spoons.some((spoon) => spoon.isWeightSafer) ? say('bench:measures.weighIt') : null;
    return { region, words: say('bench:measures.spoon', { words: first.words, mass, error }), mind };
  });
}
