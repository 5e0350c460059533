import type { Amount, Plan } from '../../../make/plan.ts';

/** What went into the cheese, by the id of its words on a label. */
export type LabelIngredient =
  | 'milk'
  | 'whey'
  | 'cream'
  | 'salt'
  | 'rennet'
  | 'culture'
  | 'calcium'
  | 'acid-citric'
  | 'acid-vinegar'
  | 'acid-lemon'
  | 'acid-lactic'
  | 'lipase'
  | 'ripening-culture'
  | 'colour';

const MILK_KG_PER_L = 1.03; // from memory, whole cow's milk at 20 °C; it only sorts
const DROPS_PER_ML = 20; // common practice (no source); it only sorts
/**
 * Amounts of a plan that are an ingredient, by what a label calls them. What is left out is no ingredient: water, ice, the whey
 * that is drawn, the brine that stays behind; salt counts by what the cheese is to hold.
 */
const CALLED: Readonly<Record<string, LabelIngredient>> = {
  milk: 'milk',
  'milk-added': 'milk',
  whey: 'whey',
  cream: 'cream',
  rennet: 'rennet',
  culture: 'culture',
  calcium: 'calcium',
  'acid-citric': 'acid-citric',
  'acid-vinegar': 'acid-vinegar',
  'acid-lemon': 'acid-lemon',
  'acid-lactic': 'acid-lactic',
  lipase: 'lipase',
  'ripening-culture': 'ripening-culture',
  colour: 'colour',
};

/**
 * The ingredients of a cheese by falling weight as they go in, milk or whey first. Salt counts by what the cheese is meant to
 * hold, not by what the brine holds; an ingredient whose weight nobody knows stands last. Descending weight is the
 * order of Reg. (EU) 1169/2011 Art. 18; that what is under 2 % may follow in any order is from memory (Annex VII).
 */
export function labelIngredients(plan: Plan): readonly LabelIngredient[] {
  const weights = new Map<LabelIngredient, number>();
  const saltG = saltInCheeseG(plan);
  if (saltG !== null) weights.set('salt', saltG);
  for (const amount of plan.amounts) {
    const called = CALLED[amount.id];
    if (called !== undefined) weights.set(called, (weights.get(called) ?? 0) + gramsOf(amount));
  }
  return [...weights].sort(([, a], [, b]) => b - a).map(([id]) => id);
}

/** Salt that the finished cheese is meant to hold, g; null where the make salts nothing. */
function saltInCheeseG(plan: Plan): number | null {
  if (!plan.steps.some(({ verb, set }) => verb === 'brine' || verb === 'drySalt' || set.ingredient === 'salt'))
    return null;
  const aim = (quantity: string): number | undefined => plan.make.aims.find((one) => one.quantity === quantity)?.aim;
  const percent = aim('saltPercent') ?? 1; // common practice (no source): a cheese holds 1 to 2 % salt
  const yieldKgPerL = aim('cheesePerMilkKgPerL') ?? 0.1; // common practice (no source): a tenth of the milk
  return (percent / 100) * yieldKgPerL * plan.setup.milk.volumeL * 1000;
}

function gramsOf(amount: Amount): number {
  const grams = amount.also?.find(({ unit }) => unit === 'g');
  if (grams !== undefined) return grams.value;
  switch (amount.unit) {
    case 'kg':
      return amount.value * 1000;
    case 'L':
      return amount.value * MILK_KG_PER_L * 1000;
    case 'g':
    case 'mL':
      return amount.value;
    case 'drops':
      return amount.value / DROPS_PER_ML;
    case 'packets':
      return 0;
  }
}
