/** The buying list with all that belongs to it: what is in the house already, what can stand in, what to make ready the night before. */
import type { Forecast } from '../forecast/forecast.ts';
import { preparedAmount, type ReadyAmount } from '../forecast/ready-amount.ts';
import type { MilkDeviation } from '../make/make-facts.ts';
import { sourceWords } from '../make/make-facts.ts';
import type { Plan } from '../make/plan.ts';
import type { Preparation } from '../make/step.ts';
import { isForTheEvening } from './schedule.ts';
import { shoppingList, type ShoppingId, type ShoppingItem } from './shopping.ts';
import { substitutesOf, type Substitute } from './substitutes.ts';

/** One packet or bottle in the house. */
export interface StockLine {
  /** What it is, as the make language has its ingredients. */
  readonly ingredient: string;
  readonly name: string;
  /** Null where nobody said how much there is. */
  readonly left: { readonly value: number; readonly unit: string } | null;
  /** Of a packet: the milk that what is left of it treats [L]; null where its label was not read. */
  readonly treatsL: number | null;
}

/** What the house has of one line of the list. */
export type Standing =
  | { readonly state: 'none' }
  /** There is some, but how much nobody said. */
  | { readonly state: 'look'; readonly names: readonly string[] }
  | { readonly state: 'enough'; readonly names: readonly string[] }
  | { readonly state: 'short'; readonly names: readonly string[]; readonly missing: number }; // prettier-ignore

export interface BuyingItem extends ShoppingItem {
  readonly standing: Standing;
  readonly substitutes: readonly Substitute[];
}

/** Something to do the evening before, and where it then stands. */
export interface EveningJob {
  readonly id: string;
  readonly where: 'freezer' | 'fridge' | 'table';
  /** The make's own words; null for what every make asks. */
  readonly what: string | null;
  readonly ready: ReadyAmount | null;
}

/** A word on the carton that decides, and what it does to this make. */
export interface CartonWarning {
  readonly when: MilkDeviation['when'];
  readonly effect: 'caution' | 'refuse';
  readonly because: string;
  readonly instead: string;
  readonly source: string;
}

export interface BuyingList {
  readonly items: readonly BuyingItem[];
  readonly carton: { readonly buy: readonly string[]; readonly avoid: readonly string[] };
  readonly warnings: readonly CartonWarning[];
  readonly evening: readonly EveningJob[];
}

/** Which ingredient of the store each line of the list is. */
const INGREDIENT: Readonly<Partial<Record<ShoppingId, string>>> = {
  milk: 'milk',
  'milk-added': 'milk',
  culture: 'culture',
  rennet: 'rennet',
  calcium: 'calcium',
  'brine-calcium': 'calcium',
  'acid-citric': 'acid',
  'acid-lactic': 'acid',
  lipase: 'lipase',
  'ripening-culture': 'ripeningCulture',
  colour: 'colour',
  cream: 'cream',
  salt: 'salt',
  'dry-salt': 'salt',
};

/** Words on a carton that are told of in the shop; the animal is no word of the carton. */
const ON_THE_CARTON: ReadonlySet<string> = new Set(['raw', 'high-heat', 'uht', 'homogenised', 'low-fat']);

/**
 * Everything to bring home for a plan.
 * @param input.forecast what it will take of ice and brine; until it is there, the plan's own range counts
 * @param input.stock what is in the house; nothing where nobody has listed it
 */
export function buyingList(input: {
  readonly plan: Plan;
  readonly forecast: Pick<Forecast, 'needs'> | null;
  readonly stock: readonly StockLine[];
}): BuyingList {
  const { plan, stock } = input;
  const { items, carton } = shoppingList(input);
  const substitutes = substitutesOf({ plan });
  return {
    items: items.map((item) => ({
      ...item,
      standing: standingOf({ item, stock }),
      substitutes: substitutes.filter(
        ({ insteadOf }) => item.id === insteadOf || (insteadOf === 'acid' && item.id.startsWith('acid-')),
      ),
    })),
    carton,
    warnings: plan.make.milk.deviations
      .filter(({ when }) => ON_THE_CARTON.has(when))
      .map(({ source, ...deviation }) => ({ ...deviation, source: sourceWords(plan.make, source) })),
    evening: eveningJobs(input),
  };
}

/** What the house has of a line, counted where it can be counted. */
export function standingOf(input: {
  readonly item: Pick<ShoppingItem, 'id' | 'unit' | 'needed' | 'treatsL'>;
  readonly stock: readonly StockLine[];
}): Standing {
  const { item } = input;
  const wanted = INGREDIENT[item.id];
  const lines = input.stock.filter(({ ingredient }) => ingredient === wanted);
  if (wanted === undefined || lines.length === 0) return { state: 'none' };
  const names = lines.map(({ name }) => name);
  const amounts = lines.map((line) => inUnitOf(line, item));
  if (amounts.includes(null)) return { state: 'look', names };
  const missing = neededOf(item) - amounts.reduce<number>((sum, each) => sum + (each ?? 0), 0);
  return missing <= 1e-9 ? { state: 'enough', names } : { state: 'short', names, missing };
}

/** Of a packet nobody has read the milk it must treat counts, not how many there are. */
const neededOf = ({ needed, treatsL }: Pick<ShoppingItem, 'needed' | 'treatsL'>): number => treatsL ?? needed;

const THOUSANDTHS: Readonly<Record<string, readonly [base: string, factor: number]>> = {
  g: ['g', 1],
  kg: ['g', 1000],
  mL: ['mL', 1],
  L: ['mL', 1000],
};

function inUnitOf({ left, treatsL }: StockLine, item: Pick<ShoppingItem, 'unit' | 'treatsL'>): number | null {
  if (item.treatsL !== undefined) return treatsL;
  if (left === null) return null;
  if (left.unit === item.unit) return left.value;
  const [from, to] = [THOUSANDTHS[left.unit], THOUSANDTHS[item.unit]];
  return from === undefined || to === undefined || from[0] !== to[0] ? null : (left.value * from[1]) / to[1];
}

const PLACE: Readonly<Partial<Record<Preparation['amount'], EveningJob['where']>>> = {
  'ice-bath': 'freezer',
  brine: 'fridge',
  'wash-water': 'fridge',
};

/** What the make asks for the evening before, and what every make with rennet or milk does. */
function eveningJobs({ plan, forecast }: Parameters<typeof buyingList>[0]): EveningJob[] {
  const asked = plan.steps.flatMap((step) =>
    step.prepare.filter(isForTheEvening).map((preparation): EveningJob => ({
      id: `${step.id}-${preparation.id}`,
      where: PLACE[preparation.amount] ?? 'table',
      what: preparation.what,
      ready: preparedAmount({ plan, forecast, step, preparation }),
    })),
  );
  const water = plan.amounts.find(({ id }) => id === 'rennet-water');
  return [
    ...(plan.make.milk.fill === 'whey' ? [] : [{ id: 'milk', where: 'fridge', what: null, ready: null } as const]),
    ...(water === undefined ? [] : [{ id: 'rennet-water', where: 'fridge', what: null, ready: { id: water.id, unit: water.unit, value: water.value, used: null } } as const]), // prettier-ignore
    ...asked,
  ];
}
