/**
 * Which makes fit this milk, these hours, this stove and these hands; why; and what rules each of the others out. Codes and
 * numbers only: doors put the words.
 */
import type { MakeFacts, MilkDeviation } from './make-facts.ts';
import type { Species, Treatment } from './make.ts';
import { FULL_POT } from './remarks.ts';
import type { Ingredient } from './step.ts';

export const SKILLS = ['new', 'some', 'practised'] as const;
export type Skill = (typeof SKILLS)[number];

/** Where a cheese can lie for weeks: nowhere, a box in the fridge, or a cool damp room. */
export const AGEING_PLACES = ['none', 'box', 'room'] as const;
export type AgeingPlace = (typeof AGEING_PLACES)[number];

/** What somebody has who asks what can be made. */
export interface ChoosingFacts {
  /** What there is so much of: milk, or fresh whey from another make. */
  readonly fill: 'milk' | 'whey';
  readonly milkL: number;
  readonly species: Species;
  readonly treatment: Treatment;
  readonly homogenised: boolean;
  /** Left out where the carton says "whole". */
  readonly fatPercent?: number;
  /** From when one can begin to when one must be done [min]; null where the day is open. */
  readonly freeMin: number | null;
  readonly burners: number;
  readonly hasPHMeter: boolean;
  readonly potL: number;
  readonly skill: Skill;
  readonly ageing: AgeingPlace;
  /** It is wanted on the table within so many days; null where there is no hurry. */
  readonly withinDays: number | null;
  /** What is in the house besides milk, salt and water; null where nobody has listed it. */
  readonly inStore: ReadonlySet<Ingredient> | null;
}

/** How long the day of a make is, from a forecast [min]: the likeliest, and what 18 makes in 20 keep. */
export interface DayLength {
  readonly likelyMin: number;
  readonly keptMin: number;
}

/** Why a make does not fit. The first ones no change of the day can lift. */
export type Ruling =
  | { readonly code: 'milk-refused'; readonly when: MilkDeviation['when']; readonly because: string; readonly instead: string; readonly source: string }
  | { readonly code: 'other-fill'; readonly fill: 'milk' | 'whey' }
  | { readonly code: 'other-animal'; readonly species: readonly Species[] }
  | { readonly code: 'other-treatment'; readonly treatments: readonly Treatment[] }
  | { readonly code: 'too-long'; readonly moreMin: number; readonly takesMin: number }
  | { readonly code: 'meter'; readonly step: string }
  | { readonly code: 'burners'; readonly wants: number }
  | { readonly code: 'ageing-place'; readonly days: number }
  | { readonly code: 'not-ripe'; readonly days: number }
  | { readonly code: 'skill'; readonly difficulty: number }; // prettier-ignore

/** What speaks for it. */
export type Reason =
  | { readonly code: 'time-left'; readonly minutes: number }
  | { readonly code: 'any-time'; readonly takesMin: number }
  | { readonly code: 'own-milk' }
  | { readonly code: 'one-burner' }
  | { readonly code: 'no-meter'; readonly step: string | null }
  | { readonly code: 'easy'; readonly difficulty: number }
  | { readonly code: 'in-store' }
  | { readonly code: 'fresh' };

/** What to know of it all the same. */
export type Note =
  | { readonly code: 'milk'; readonly when: MilkDeviation['when']; readonly because: string; readonly instead: string; readonly source: string }
  | { readonly code: 'to-buy'; readonly what: readonly Ingredient[] }
  | { readonly code: 'pot'; readonly litres: number }
  | { readonly code: 'second-burner' }
  | { readonly code: 'tight'; readonly minutes: number }
  | { readonly code: 'stretching'; readonly difficulty: number }; // prettier-ignore

export interface Choice {
  readonly facts: MakeFacts;
  readonly day: DayLength | null;
  readonly fits: boolean;
  /** Why not, what cannot be changed first; empty where it fits. */
  readonly rulings: readonly Ruling[];
  readonly reasons: readonly Reason[];
  readonly notes: readonly Note[];
}

/** Hardest make that each skill is offered. Our own choice: a first make should be one that forgives. */
const MOST_DIFFICULT: Readonly<Record<Skill, number>> = { new: 3, some: 4, practised: 5 };
const EASY_UP_TO: Readonly<Record<Skill, number>> = { new: 2, some: 3, practised: 4 }; // our own choice
const TIGHT_MIN = 30; // our own choice: less to spare than this is worth a word
const BOX_DAYS = 60; // common practice (no source): a box in the fridge carries a cheese for weeks, not for a season
const FRESH_DAYS = 2; // our own choice: lying so long is no ageing that wants a place

/** Order in which obstacles are told: what no change of the day can lift comes first. */
const WEIGHT: Readonly<Record<Ruling['code'], number>> = {
  'other-fill': 110,
  'milk-refused': 100,
  'other-animal': 90,
  'other-treatment': 80,
  meter: 40,
  'ageing-place': 30,
  'not-ripe': 25,
  burners: 20,
  'too-long': 15,
  skill: 10,
};

/**
 * Every make, ranked: those that fit first, each with its reasons; then the others, the nearest to fitting first, each with
 * what rules it out.
 * @param input.makes with the length of their day, from a forecast for this milk or for a typical one; null where none is there yet
 * @returns as many choices as makes, in a stable order
 */
export function chooseMakes(input: {
  readonly makes: readonly { readonly facts: MakeFacts; readonly day: DayLength | null }[];
  readonly have: ChoosingFacts;
}): Choice[] {
  return input.makes
    .map((make) => choiceOf(make, input.have))
    .map((choice) => ({ choice, cost: costOf(choice, input.have) }))
    .sort((a, b) => a.cost - b.cost || a.choice.facts.name.localeCompare(b.choice.facts.name))
    .map(({ choice }) => choice);
}

function choiceOf(make: { readonly facts: MakeFacts; readonly day: DayLength | null }, have: ChoosingFacts): Choice {
  const rulings = [...rulingsOf(make, have)].sort((a, b) => WEIGHT[b.code] - WEIGHT[a.code]);
  const fits = rulings.length === 0;
  return { ...make, fits, rulings, reasons: fits ? [...reasonsOf(make, have)] : [], notes: [...notesOf(make, have)] };
}

type Dated = { readonly facts: MakeFacts; readonly day: DayLength | null };

function* rulingsOf({ facts, day }: Dated, have: ChoosingFacts): Generator<Ruling> {
  const { milk } = facts;
  if (milk.fill !== have.fill) yield { code: 'other-fill', fill: milk.fill };
  const deviations = milk.deviations.filter(({ when }) => deviates(when, facts, have));
  for (const { effect, when, because, instead, source } of deviations) {
    if (effect === 'refuse') yield { code: 'milk-refused', when, because, instead, source };
  }
  const isKnown = (when: string): boolean => deviations.some((deviation) => deviation.when === when);
  if (!milk.species.includes(have.species) && !isKnown(have.species)) {
    yield { code: 'other-animal', species: milk.species };
  }
  if (!milk.treatments.includes(have.treatment) && !isKnown(have.treatment)) {
    yield { code: 'other-treatment', treatments: milk.treatments };
  }
  const [byPH] = facts.onlyByPH;
  if (byPH !== undefined && !have.hasPHMeter) yield { code: 'meter', step: byPH };
  if (facts.agesDays > FRESH_DAYS && (have.ageing === 'none' || (have.ageing === 'box' && facts.agesDays > BOX_DAYS))) {
    yield { code: 'ageing-place', days: facts.agesDays };
  }
  if (have.withinDays !== null && facts.agesDays > have.withinDays) yield { code: 'not-ripe', days: facts.agesDays };
  if (facts.burners > have.burners && have.burners === 0) yield { code: 'burners', wants: facts.burners };
  if (day !== null && have.freeMin !== null && day.keptMin > have.freeMin) {
    yield { code: 'too-long', moreMin: day.keptMin - have.freeMin, takesMin: day.keptMin };
  }
  if (facts.difficulty > MOST_DIFFICULT[have.skill]) yield { code: 'skill', difficulty: facts.difficulty };
}

function* reasonsOf({ facts, day }: Dated, have: ChoosingFacts): Generator<Reason> {
  if (day !== null && have.freeMin !== null && have.freeMin - day.keptMin >= TIGHT_MIN) {
    yield { code: 'time-left', minutes: have.freeMin - day.keptMin };
  }
  if (day !== null && have.freeMin === null) yield { code: 'any-time', takesMin: day.likelyMin };
  if (!facts.milk.deviations.some(({ when }) => deviates(when, facts, have))) yield { code: 'own-milk' };
  if (have.burners === 1 && facts.burners === 1) yield { code: 'one-burner' };
  if (!have.hasPHMeter) yield { code: 'no-meter', step: facts.helpedByPH[0] ?? null };
  if (facts.difficulty <= EASY_UP_TO[have.skill]) yield { code: 'easy', difficulty: facts.difficulty };
  if (have.inStore !== null && toBuy(facts, have).length === 0) yield { code: 'in-store' };
  if (have.withinDays !== null && facts.agesDays <= FRESH_DAYS) yield { code: 'fresh' };
}

function* notesOf({ facts, day }: Dated, have: ChoosingFacts): Generator<Note> {
  for (const { when, effect, because, instead, source } of facts.milk.deviations) {
    if (effect === 'caution' && deviates(when, facts, have)) yield { code: 'milk', when, because, instead, source };
  }
  const most = FULL_POT * have.potL;
  if (have.milkL > most) yield { code: 'pot', litres: most };
  if (facts.burners > have.burners && have.burners > 0) yield { code: 'second-burner' };
  if (day !== null && have.freeMin !== null) {
    const spare = have.freeMin - day.keptMin;
    if (spare >= 0 && spare < TIGHT_MIN) yield { code: 'tight', minutes: spare };
  }
  if (facts.difficulty > EASY_UP_TO[have.skill] && facts.difficulty <= MOST_DIFFICULT[have.skill]) {
    yield { code: 'stretching', difficulty: facts.difficulty };
  }
  const missing = toBuy(facts, have);
  if (have.inStore !== null && missing.length > 0) yield { code: 'to-buy', what: missing };
}

/** Water, salt and milk are in every kitchen; the rest is looked for in the store. */
const IN_EVERY_KITCHEN: ReadonlySet<Ingredient> = new Set(['water', 'salt']);

const toBuy = ({ ingredients }: MakeFacts, { inStore }: ChoosingFacts): Ingredient[] =>
  ingredients.filter((one) => !IN_EVERY_KITCHEN.has(one) && inStore?.has(one) !== true);

/** True where this milk is not the make's own in the way that a deviation names. */
function deviates(when: MilkDeviation['when'], facts: MakeFacts, have: ChoosingFacts): boolean {
  switch (when) {
    case 'raw':
    case 'high-heat':
    case 'uht':
      return have.treatment === when;
    case 'homogenised':
      return have.homogenised;
    case 'low-fat':
      return have.fatPercent !== undefined && have.fatPercent < facts.milk.leastFatPercent;
    default:
      return have.species === when;
  }
}

/** The lower, the better it fits; what does not fit stands behind all that does. Our own choice of weights. */
function costOf({ facts, fits, rulings, notes }: Choice, have: ChoosingFacts): number {
  const above = Math.max(0, facts.difficulty - EASY_UP_TO[have.skill]);
  const cautions = notes.filter(({ code }) => code === 'milk').length;
  const missing = notes.reduce((sum, note) => sum + (note.code === 'to-buy' ? note.what.length : 0), 0);
  const others = notes.filter(({ code }) => code === 'tight' || code === 'second-burner' || code === 'pot').length;
  const within = 4 * above + 3 * cautions + 2 * missing + 2 * others + facts.difficulty / 2;
  if (fits) return within;
  return 1000 + 10 * rulings.reduce((sum, { code }) => sum + WEIGHT[code], 0) + within;
}
