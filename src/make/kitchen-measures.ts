/**
 * Spoons, cups and drops, and what a spoon of a powder weighs: how amounts are measured where there is no scale.
 * A spoon of powder is a guess with a known size; a weight is not. A culture is taken by the share of its packet first
 * (`shares.ts`), then by weight, and by the spoon only when nothing else is there.
 */
import { convert } from '../numbers/units.ts';

export const SPOON_REGIONS = ['us', 'metric', 'australia', 'imperial'] as const;
export type SpoonRegion = (typeof SPOON_REGIONS)[number];

export const SPOON_NAMES = [
  'tablespoon',
  'dessertspoon',
  'teaspoon',
  'half-teaspoon',
  'quarter-teaspoon',
  'eighth-teaspoon',
  'dash',
  'pinch',
  'smidgen',
] as const;
export type SpoonName = (typeof SPOON_NAMES)[number];

const US_TEASPOON_ML = convert({ value: 1, from: 'us-teaspoon', to: 'mL' });
const METRIC_TEASPOON_ML = convert({ value: 1, from: 'metric-teaspoon', to: 'mL' });
const IMPERIAL_FLUID_OUNCE_ML = convert({ value: 1, from: 'imperial-fluid-ounce', to: 'mL' });

/**
 * Teaspoon, dessertspoon and tablespoon by region [mL]. US: exact by definition of the gallon; labels and shops round to 5
 * and 15. Metric and Australian: common practice (no source). Old imperial: 1/6, 1/3 and 1/2 fl oz, common practice
 * (no source); three older teaspoons (3.55, 4.74, 5.92 mL) are about.
 */
const LARGE_SPOONS_ML: Readonly<Record<SpoonRegion, { teaspoon: number; dessertspoon: number; tablespoon: number }>> = {
  us: { teaspoon: US_TEASPOON_ML, dessertspoon: 2 * US_TEASPOON_ML, tablespoon: 3 * US_TEASPOON_ML },
  metric: { teaspoon: METRIC_TEASPOON_ML, dessertspoon: 10, tablespoon: 15 },
  australia: { teaspoon: METRIC_TEASPOON_ML, dessertspoon: 10, tablespoon: 20 },
  imperial: {
    teaspoon: IMPERIAL_FLUID_OUNCE_ML / 6,
    dessertspoon: IMPERIAL_FLUID_OUNCE_ML / 3,
    tablespoon: IMPERIAL_FLUID_OUNCE_ML / 2,
  },
};

/**
 * Parts of a teaspoon, and how far off a level one is by hand, percent. Names below an eighth follow no standard: common
 * practice (no source), the pages seen disagree (a dash is 1/16 to 1/8, a pinch 1/24 to 1/8, a smidgen 1/48 to 1/32).
 */
const TEASPOON_PARTS: Readonly<
  Record<Exclude<SpoonName, 'tablespoon' | 'dessertspoon'>, { readonly share: number; readonly handPercent: number }>
> = {
  teaspoon: { share: 1, handPercent: 10 }, // common practice (no source)
  'half-teaspoon': { share: 1 / 2, handPercent: 10 }, // common practice (no source)
  'quarter-teaspoon': { share: 1 / 4, handPercent: 15 }, // common practice (no source)
  'eighth-teaspoon': { share: 1 / 8, handPercent: 20 }, // common practice (no source)
  dash: { share: 1 / 8, handPercent: 50 }, // common practice (no source)
  pinch: { share: 1 / 16, handPercent: 50 }, // common practice (no source)
  smidgen: { share: 1 / 32, handPercent: 50 }, // common practice (no source)
};

/**
 * Volume of a spoon.
 * @param input.spoon its name
 * @param input.region whose spoon
 * @returns volume of a level spoon [mL] and how far off it is by hand [%]
 */
export function spoonVolume(input: { readonly spoon: SpoonName; readonly region: SpoonRegion }): {
  readonly volumeML: number;
  readonly handPercent: number;
} {
  const large = LARGE_SPOONS_ML[input.region];
  if (input.spoon === 'tablespoon' || input.spoon === 'dessertspoon')
    return { volumeML: large[input.spoon], handPercent: 10 }; // common practice (no source)
  const { share, handPercent } = TEASPOON_PARTS[input.spoon];
  return { volumeML: share * large.teaspoon, handPercent };
}

/** Drops in a millilitre: 20 of water from the pharmacopoeia's dropper (USP 32 <1101>); 8 to 75 from other tips. */
export const DROPS_PER_ML = { low: 10, typical: 20, high: 30 } as const; // ± 10 until this bottle is counted, our own reading

/** Above this share of the dose, one drop is too coarse to count by, percent. */
export const DROP_TOO_COARSE_PERCENT = 5; // our own choice

export interface BulkDensity {
  /** Grams in a level millilitre: the scatter seen, and a middle value. */
  readonly low: number;
  readonly typical: number;
  readonly high: number;
  readonly source: string;
}

const PRACTICE = 'common practice (no source)';

/** What a millilitre of each ingredient weighs [g/mL], with its scatter between packets and pages. */
export const BULK_DENSITIES = {
  'table-salt': { low: 1.18, typical: 1.23, high: 1.27, source: 'general kitchen tables, 17.7 to 19 g a tablespoon' },
  'fine-sea-salt': { low: 0.95, typical: 1.02, high: 1.1, source: 'general kitchen tables, 15 to 16 g a tablespoon' },
  'kosher-salt-rolled': {
    low: 1.0,
    typical: 1.05,
    high: 1.1,
    source: 'general kitchen tables, 15 to 16 g a tablespoon',
  },
  'kosher-salt-flake': { low: 0.6, typical: 0.68, high: 0.75, source: 'general kitchen tables, 10 g a tablespoon' },
  'flaky-salt': { low: 0.5, typical: 0.61, high: 0.72, source: 'general kitchen tables, 9 g a tablespoon' },
  'cheese-salt': { low: 1.15, typical: 1.22, high: 1.28, source: PRACTICE },
  'citric-acid': { low: 0.8, typical: 0.9, high: 1.0, source: `${PRACTICE}; from memory` },
  'calcium-chloride-flakes': { low: 0.7, typical: 0.8, high: 0.9, source: `${PRACTICE}; from memory` },
  'freeze-dried-culture': {
    low: 0.3,
    typical: 0.5,
    high: 0.71,
    source: `${PRACTICE}; 0.6 g a quarter teaspoon printed once`,
  },
  'lipase-powder': {
    low: 0.4,
    typical: 0.55,
    high: 1.14,
    source: `${PRACTICE}; 0.7 g an eighth of a teaspoon printed once`,
  },
  'baking-soda': { low: 0.93, typical: 0.95, high: 0.97, source: 'from memory' },
  milk: {
    low: 1.027,
    typical: 1.03,
    high: 1.035,
    source: 'whole and skim milk at 20 °C: partial densities of Walstra & Jenness 1984, from memory',
  },
  cream: {
    low: 0.98,
    typical: 1.0,
    high: 1.02,
    source: 'cream of 20 to 40 % fat at 20 °C: partial densities, from memory',
  },
  water: { low: 0.997, typical: 0.998, high: 1.0, source: 'Kell 1975, from memory' },
} as const satisfies Record<string, BulkDensity>;

export type KitchenIngredient = keyof typeof BULK_DENSITIES;

export const isKitchenIngredient = (name: string): name is KitchenIngredient => Object.hasOwn(BULK_DENSITIES, name);
export const kitchenIngredients: readonly KitchenIngredient[] = Object.keys(BULK_DENSITIES).filter(isKitchenIngredient);

/** Ingredients whose dose decides the make: a spoon's error is an error of the plan. */
const BY_WEIGHT: ReadonlySet<KitchenIngredient> = new Set([
  'freeze-dried-culture',
  'lipase-powder',
  'citric-acid',
  'calcium-chloride-flakes',
]);

/** A spoon that comes near the amount wanted. */
export interface SpoonMeasure {
  readonly count: number;
  readonly spoon: SpoonName;
  /** What so many level spoons weigh, on the mean [g]. */
  readonly massG: number;
  /** How far off it may be either way, percent: packing of the powder, the hand, and rounding to whole spoons. */
  readonly errorPercent: number;
  /** "about 1/8 tsp" in plain words. */
  readonly words: string;
  /** True where scales, or a share of the packet, are the surer way. */
  readonly isWeightSafer: boolean;
}

/** Spoons that people own, large to small: the tiny ones only in the US, where they are sold as a set. */
const MEASURING: Readonly<Record<SpoonRegion, readonly SpoonName[]>> = {
  us: ['tablespoon', 'teaspoon', 'half-teaspoon', 'quarter-teaspoon', 'eighth-teaspoon', 'pinch', 'smidgen'],
  metric: ['tablespoon', 'teaspoon', 'half-teaspoon', 'quarter-teaspoon', 'eighth-teaspoon'],
  australia: ['tablespoon', 'teaspoon', 'half-teaspoon', 'quarter-teaspoon'],
  imperial: ['tablespoon', 'dessertspoon', 'teaspoon', 'half-teaspoon', 'quarter-teaspoon'],
};

const MOST_SPOONS = 4; // our own choice: beyond, people miscount or reach for a larger spoon
const COUNTING_COST_PERCENT = 2; // our own choice: what one more spoonful must gain in closeness
const SURE_ENOUGH_PERCENT = 25; // our own choice
const DOSE_SURE_ENOUGH_PERCENT = 10; // our own choice for what decides the make

const SPOON_WORDS: Readonly<Record<SpoonName, readonly [one: string, several: string]>> = {
  tablespoon: ['1 tbsp', 'tbsp'],
  dessertspoon: ['1 dessertspoon', 'dessertspoons'],
  teaspoon: ['1 tsp', 'tsp'],
  'half-teaspoon': ['1/2 tsp', 'times 1/2 tsp'],
  'quarter-teaspoon': ['1/4 tsp', 'times 1/4 tsp'],
  'eighth-teaspoon': ['1/8 tsp', 'times 1/8 tsp'],
  dash: ['1 dash', 'dashes'],
  pinch: ['1 pinch (1/16 tsp)', 'pinches (of 1/16 tsp)'],
  smidgen: ['1 smidgen (1/32 tsp)', 'smidgens (of 1/32 tsp)'],
};

/**
 * The nearest practical spoon for a mass, with its error.
 * @param input.massG mass wanted [g], above 0
 * @param input.ingredient what it is
 * @param input.region whose spoons
 * @returns count and name of the spoon, its error and whether a weight is surer; null where no spoon comes within a third
 */
export function spoonsFor(input: {
  readonly massG: number;
  readonly ingredient: KitchenIngredient;
  readonly region: SpoonRegion;
}): SpoonMeasure | null {
  const { massG, ingredient, region } = input;
  const density: BulkDensity = BULK_DENSITIES[ingredient];
  let best: SpoonMeasure | null = null;
  let bestCost = Infinity;
  for (const spoon of MEASURING[region]) {
    const { volumeML, handPercent } = spoonVolume({ spoon, region });
    const most = spoon === 'tablespoon' ? 3 * MOST_SPOONS : MOST_SPOONS;
    const count = Math.min(most, Math.max(1, Math.round(massG / (volumeML * density.typical))));
    const taken = count * volumeML * density.typical;
    const roundingPercent = 100 * Math.abs(taken / massG - 1);
    const packingPercent = (50 * (density.high - density.low)) / density.typical;
    // Hand and packing are independent; rounding is not chance and adds in full. Several spoonfuls average the hand.
    const errorPercent = roundingPercent + Math.hypot(packingPercent, handPercent / Math.sqrt(count));
    const cost = errorPercent + COUNTING_COST_PERCENT * count;
    if (roundingPercent > 34 || cost >= bestCost) continue;
    bestCost = cost;
    const limit = BY_WEIGHT.has(ingredient) ? DOSE_SURE_ENOUGH_PERCENT : SURE_ENOUGH_PERCENT;
    const [one, several] = SPOON_WORDS[spoon];
    best = {
      count,
      spoon,
      massG: taken,
      errorPercent,
      words: `about ${count === 1 ? one : `${count} ${several}`}`,
      isWeightSafer: errorPercent > limit,
    };
  }
  return best;
}

/** Drops for a volume of liquid, with the span of an uncounted bottle. */
export function dropsFor(input: { readonly volumeML: number; readonly dropsPerML?: number }): {
  readonly drops: number;
  readonly low: number;
  readonly high: number;
  /** True where one drop is more than a twentieth of the dose: measure by syringe, or dilute. */
  readonly isTooCoarse: boolean;
} {
  const { volumeML, dropsPerML } = input;
  const drops = volumeML * (dropsPerML ?? DROPS_PER_ML.typical);
  return {
    drops,
    low: dropsPerML === undefined ? volumeML * DROPS_PER_ML.low : drops,
    high: dropsPerML === undefined ? volumeML * DROPS_PER_ML.high : drops,
    isTooCoarse: 100 > DROP_TOO_COARSE_PERCENT * drops,
  };
}
