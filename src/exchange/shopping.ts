/** What must be in the house before the day, as data: doors put the words and units. */
import type { Forecast } from '../forecast/forecast.ts';
import { readyAmount, type ReadyAmount } from '../forecast/ready-amount.ts';
import type { Plan } from '../make/plan.ts';

const SPARE_MILK_FRACTION = 0.05; // common practice (no source): a carton turns out sour, a cup is spilled
const SALT_SPARE_FRACTION = 0.1; // common practice (no source): brine is topped up after each batch
const VINEGAR_ML_PER_L_BRINE = 4; // common practice (no source): 5 % vinegar brings a new brine near the cheese's pH; add half, stir, measure
const CALCIUM_G_PER_L_BRINE = 1.5; // common practice (no source): 1-2 g anhydrous per litre keeps the rind from going slimy
const BRINE_KG_PER_L = 1.13; // sodium chloride solution of 18 % by mass at 20 °C: 10 L weigh 11.3 kg

export const SHOPPING_IDS = [
  'milk', 'culture', 'acid-citric', 'acid-vinegar', 'acid-lemon', 'acid-lactic', 'calcium', 'rennet', 'rennet-water', 'lipase',
  'ripening-culture', 'colour', 'cream', 'milk-added', 'dry-salt', 'salt', 'vinegar', 'brine-calcium', 'ice', 'gloves',
] as const; // prettier-ignore
export type ShoppingId = (typeof SHOPPING_IDS)[number];

/** One line of the list. `amount` is what to bring home: rounded up to what shops sell, spare included. */
export interface ShoppingItem {
  readonly id: ShoppingId;
  readonly unit: 'L' | 'kg' | 'g' | 'mL' | 'packets' | 'pairs';
  readonly amount: number;
  /** What the make itself takes of it. */
  readonly needed: number;
  /** Culture of a packet nobody has read: how much milk the packets must treat, by their labels [L]. */
  readonly treatsL?: number;
}

export interface ShoppingList {
  readonly items: readonly ShoppingItem[];
  /** Words to look for on the carton, and words that mean: leave it on the shelf. */
  readonly carton: { readonly buy: readonly string[]; readonly avoid: readonly string[] };
}

interface Shopper {
  readonly plan: Plan;
  readonly forecast: Pick<Forecast, 'needs'> | null;
}

/**
 * The shopping list of a plan.
 * @param input.plan a planned make
 * @param input.forecast what it will take of ice and brine; until it is there, the upper end of the plan's own range counts
 * @returns items in the order one meets them in a shop, and the words on the carton
 */
export function shoppingList(input: Shopper): ShoppingList {
  const { plan } = input;
  // Whey is what another make left: nobody buys it.
  const items = [
    ...(plan.make.milk.fill === 'whey' ? [] : [milk(plan)]),
    ...bought(plan),
    ...poured(plan),
    ...brined(input),
    ...cooled(input),
    ...handled(plan),
  ];
  return { items, carton: plan.make.milk.cartonWords };
}

/** The amount as it is made ready: the shop's figure is this one rounded up. */
function ready(id: string, { plan, forecast }: Shopper): ReadyAmount | null {
  const amount = plan.amounts.find((one) => one.id === id);
  return amount === undefined ? null : readyAmount({ amount, forecast });
}

function milk(plan: Plan): ShoppingItem {
  const needed = plan.setup.milk.volumeL;
  return { id: 'milk', unit: 'L', needed, amount: Math.ceil(needed * (1 + SPARE_MILK_FRACTION)) };
}

/** Culture, rennet and calcium: the most that the plan may come to. Of culture by the packet, the label in the shop decides. */
function bought(plan: Plan): ShoppingItem[] {
  const { culture, milk } = plan.setup;
  return plan.amounts.flatMap((amount): ShoppingItem[] => {
    const isUnread = amount.restsOn === 'unread-packet';
    const needed = isUnread ? amount.value : (amount.high ?? amount.value);
    if (amount.unit !== 'packets' && amount.unit !== 'mL' && amount.unit !== 'g') return [];
    switch (amount.id) {
      case 'culture':
      case 'rennet':
      case 'calcium':
      case 'rennet-water':
        return [
          {
            id: amount.id,
            unit: amount.unit,
            needed,
            amount: Math.ceil(needed - 1e-9),
            ...(isUnread ? { treatsL: culture.packetFraction * milk.volumeL } : {}),
          },
        ];
      default:
        return [];
    }
  });
}

/** What a shop sells of each: grams by the ten, what is poured by the hundred millilitres, cream and milk by the half litre. */
const SOLD_BY: Readonly<Record<string, { readonly id: ShoppingId; readonly by: number }>> = {
  'acid-citric': { id: 'acid-citric', by: 10 }, // common practice (no source), as all of these
  'acid-vinegar': { id: 'acid-vinegar', by: 100 },
  'acid-lemon': { id: 'acid-lemon', by: 50 },
  'acid-lactic': { id: 'acid-lactic', by: 10 },
  lipase: { id: 'lipase', by: 1 },
  'ripening-culture': { id: 'ripening-culture', by: 1 },
  colour: { id: 'colour', by: 1 },
  cream: { id: 'cream', by: 0.5 },
  'milk-added': { id: 'milk-added', by: 0.5 },
  'dry-salt': { id: 'dry-salt', by: 10 },
};

/** Acids, powders, cream, salt for the curd: the most that the plan may come to, each once, in the order of the work. */
function poured(plan: Plan): ShoppingItem[] {
  const found = new Map<ShoppingId, ShoppingItem>();
  for (const { id, unit, value, high = value } of plan.amounts) {
    const sold = SOLD_BY[id];
    if (sold === undefined || unit === 'packets' || unit === 'drops') continue;
    const needed = high + (found.get(sold.id)?.needed ?? 0);
    found.set(sold.id, { id: sold.id, unit, needed, amount: Math.ceil(needed / sold.by - 1e-9) * sold.by });
  }
  return [...found.values()];
}

function brined(input: Shopper): ShoppingItem[] {
  const brine = ready('brine', input);
  const salt = ready('salt', input);
  if (brine === null || salt === null) return [];
  const litres = brine.value / BRINE_KG_PER_L;
  const saltKg = salt.value;
  const vinegarMl = VINEGAR_ML_PER_L_BRINE * litres;
  const calciumG = CALCIUM_G_PER_L_BRINE * litres;
  return [
    { id: 'salt', unit: 'kg', needed: saltKg, amount: Math.ceil(saltKg * (1 + SALT_SPARE_FRACTION)) },
    { id: 'vinegar', unit: 'mL', needed: vinegarMl, amount: Math.ceil(vinegarMl / 10) * 10 },
    { id: 'brine-calcium', unit: 'g', needed: calciumG, amount: Math.ceil(calciumG) },
  ];
}

function cooled(input: Shopper): ShoppingItem[] {
  const ice = ready('ice', input);
  return ice === null ? [] : [{ id: 'ice', unit: 'kg', needed: ice.value, amount: Math.ceil(ice.value * 2) / 2 }];
}

/** Hands that go into hot water want lined gloves. */
function handled(plan: Plan): ShoppingItem[] {
  return plan.steps.some((step) => step.verb === 'stretch')
    ? [{ id: 'gloves', unit: 'pairs', needed: 1, amount: 1 }]
    : [];
}
