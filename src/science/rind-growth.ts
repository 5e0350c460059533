/**
 * A key to what grows on a cheese: by what the eye sees and the rind that is wanted, what to do. It names no mould and tests
 * nothing: what makes people ill is not seen, and a rind that looks right proves nothing.
 */

/** The rind that is being grown. `fresh` has none: anything that grows on it was not meant to. */
export const GROWTH_RINDS = ['fresh', 'natural', 'bloomy', 'washed', 'blue', 'waxed', 'packed'] as const;
export type GrowthRind = (typeof GROWTH_RINDS)[number];

export const GROWTH_ACTS = ['leave', 'brush', 'wash', 'dry', 'cut', 'throw'] as const;
export type GrowthAct = (typeof GROWTH_ACTS)[number];

/** What is seen, in the order in which a key asks: colour and make of it, then smell and shape. */
export const GROWTHS = [
  'white-velvet', 'white-dust', 'grey-hair', 'green-blue', 'black', 'yellow', 'orange-smear', 'pink-spots', 'wet-slime',
  'brown-dust', 'cracks', 'bloated', 'foul', 'ammonia',
] as const; // prettier-ignore
export type Growth = (typeof GROWTHS)[number];

export interface GrowthAdvice {
  readonly act: GrowthAct;
  /** True where nobody should taste it, and the other cheeses beside it are to be looked at. */
  readonly isStop: boolean;
  readonly source: string;
}

const PRACTICE = 'common practice (no source)';
const THOM_FISK = 'Thom & Fisk (1918) The Book of Cheese, defects of cheese';
const SOFT_MOULD =
  'USDA FSIS, Molds on food: are they dangerous? (from memory): soft cheese with mould that was not meant is thrown away';
const HARD_MOULD = 'USDA FSIS, Molds on food: are they dangerous? (from memory): of hard cheese at least 2.5 cm round and below the spot'; // prettier-ignore
const BLOWN = 'Thom & Fisk (1918) The Book of Cheese, gassy curd; gas after weeks: common practice (no source)';

const say = (act: GrowthAct, source = PRACTICE, isStop = false): GrowthAdvice => ({ act, isStop, source });
const stop = (source: string): GrowthAdvice => say('throw', source, true);

type Row = Readonly<Partial<Record<GrowthRind, GrowthAdvice>>> & { readonly else: GrowthAdvice };

/** By growth: what it means on each rind; `else` for those that are not named. */
const KEY: Readonly<Record<Growth, Row>> = {
  'white-velvet': { bloomy: say('leave'), fresh: stop(SOFT_MOULD), natural: say('brush'), washed: say('wash'), blue: say('brush'), waxed: say('cut', HARD_MOULD), packed: say('cut', HARD_MOULD), else: say('brush') },
  'white-dust': { fresh: stop(SOFT_MOULD), bloomy: say('leave'), natural: say('leave'), washed: say('leave'), waxed: say('cut', HARD_MOULD), packed: say('cut', HARD_MOULD), else: say('leave') },
  'grey-hair': { fresh: stop(SOFT_MOULD), bloomy: say('dry'), natural: say('brush'), washed: say('wash'), waxed: say('cut', HARD_MOULD), packed: say('cut', HARD_MOULD), else: say('brush') },
  'green-blue': { fresh: stop(SOFT_MOULD), blue: say('leave'), bloomy: say('cut', SOFT_MOULD), natural: say('brush'), washed: say('wash'), waxed: say('cut', HARD_MOULD), packed: say('cut', HARD_MOULD), else: say('brush') },
  black: { fresh: stop(SOFT_MOULD), bloomy: stop(SOFT_MOULD), blue: say('cut'), natural: say('brush'), washed: say('wash'), waxed: say('cut', HARD_MOULD), packed: stop(HARD_MOULD), else: say('brush') },
  yellow: { fresh: stop(SOFT_MOULD), natural: say('leave'), else: say('brush') },
  'orange-smear': { fresh: stop(SOFT_MOULD), washed: say('leave'), bloomy: say('dry'), natural: say('brush'), waxed: say('cut', HARD_MOULD), packed: stop(PRACTICE), blue: say('dry'), else: say('brush') },
  'pink-spots': { else: stop(`${THOM_FISK}: rusty spot and pink colour`) },
  'wet-slime': { fresh: stop(SOFT_MOULD), packed: stop(PRACTICE), waxed: say('cut', HARD_MOULD), else: say('dry', THOM_FISK) },
  'brown-dust': { fresh: stop(PRACTICE), else: say('brush') },
  cracks: { fresh: say('throw'), else: say('cut', `${HARD_MOULD}; ${PRACTICE} for cracks`) },
  bloated: { else: stop(BLOWN) },
  foul: { else: stop(PRACTICE) },
  ammonia: { bloomy: say('dry'), washed: say('dry'), else: say('dry') },
}; // prettier-ignore

/**
 * What to do about what grows on a cheese.
 * @param input.grew what is seen
 * @param input.rind the rind that is being grown
 * @returns the act, whether it is a stop, and its source
 * Valid: what the eye and nose tell; no test. Uncertainty: unknown; where in doubt, throw it away.
 * @source each row's own
 */
export function growthAdvice(input: { readonly grew: Growth; readonly rind: GrowthRind }): GrowthAdvice {
  const row = KEY[input.grew];
  return row[input.rind] ?? row.else;
}

export const isGrowth = (name: string): name is Growth => GROWTHS.some((one) => one === name);

/** How far round and below a spot is cut away [mm]. */
export const CUT_AWAY_MM = 25; // USDA FSIS, Molds on food: at least one inch, from memory
