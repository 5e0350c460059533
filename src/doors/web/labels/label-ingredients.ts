import type { Amount, Plan } from '../../../make/plan.ts';

/** What went into the cheese, by the id of its words on a label. */
export type LabelIngredient = 'milk' | 'cream' | 'salt' | 'rennet' | 'culture' | 'calcium' | 'acid' | 'lipase' | 'ripeningCulture' | 'colour'; // prettier-ignore

const MILK_KG_PER_L = 1.03; // from memory, whole cow's milk at 20 °C; it only sorts
const DROPS_PER_ML = 20; // common practice (no source); it only sorts
/** Things that are weighed for a make and are no ingredient: water, ice, and the brine that stays behind. */
const NOT_IN_IT: ReadonlySet<string> = new Set(['milk', 'salt', 'rennet-water', 'stretch-water', 'ice', 'wash-water', 'whey-drawn', 'brine']); // prettier-ignore
const KNOWN: readonly LabelIngredient[] = ['cream', 'rennet', 'culture', 'calcium', 'acid', 'lipase', 'ripeningCulture', 'colour']; // prettier-ignore

/**
 * The ingredients of a cheese by falling weight as they go in, milk first. Salt counts by what the cheese is meant to
 * hold, not by what the brine holds; an ingredient whose weight nobody knows stands last. Descending weight is the
 * order of Reg. (EU) 1169/2011 Art. 18; that what is under 2 % may follow in any order is from memory (Annex VII).
 */
export function labelIngredients(plan: Plan): readonly LabelIngredient[] {
  const milkG = plan.setup.milk.volumeL * MILK_KG_PER_L * 1000;
  const weights = new Map<LabelIngredient, number>([['milk', milkG]]);
  const saltG = saltInCheeseG(plan);
  if (saltG !== null) weights.set('salt', saltG);
  for (const amount of plan.amounts) {
    const known = KNOWN.find((one) => one === amount.id);
    if (known === undefined || NOT_IN_IT.has(amount.id)) continue;
    weights.set(known, (weights.get(known) ?? 0) + gramsOf(amount));
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
    case 'L':
      return amount.value * 1000;
    case 'g':
    case 'mL':
      return amount.value;
    case 'drops':
      return amount.value / DROPS_PER_ML;
    case 'packets':
      return 0;
  }
}
