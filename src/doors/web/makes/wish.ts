/** What somebody who chooses has said besides milk and pot, which stand in the plan's own draft. */
import { z } from 'zod';
import type { UnitSystem } from '../../../exchange/written.ts';
import { AGEING_PLACES, SKILLS, type ChoosingFacts } from '../../../make/choosing.ts';
import { INGREDIENTS } from '../../../make/step.ts';
import type { KeptLot } from '../lots/kept-lots.ts';
import { answersOf, type Draft } from '../plan/draft.ts';
import { localDay, wallInstant } from '../plan/wall-clock.ts';

export const BURNERS = ['0', '1', '2', '4'] as const;
/** Days until it is wanted on the table; `any` where there is no hurry. */
export const WITHIN = ['1', '7', '30', 'any'] as const;

const wishSchema = z.object({
  fill: z.enum(['milk', 'whey']).catch('milk'),
  day: z.string(),
  from: z.string(),
  to: z.string(),
  burners: z.enum(BURNERS),
  skill: z.enum(SKILLS),
  ageing: z.enum(AGEING_PLACES),
  within: z.enum(WITHIN),
});
export type Wish = z.infer<typeof wishSchema>;

const KEY = 'vatside.choosing';
const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;

const firstWish = (now: number): Wish => ({
  fill: 'milk',
  day: localDay(now + DAY_MS),
  from: '09:00',
  to: '17:00',
  burners: '1',
  skill: 'new',
  ageing: 'none',
  within: 'any',
});

/** The wish as it was left on this device; a day that is over becomes tomorrow. */
export function keptWish(now: number): Wish {
  try {
    const kept = wishSchema.parse(JSON.parse(localStorage.getItem(KEY) ?? ''));
    return kept.day < localDay(now) ? { ...kept, day: localDay(now + DAY_MS) } : kept;
  } catch {
    return firstWish(now);
  }
}

export function keepWish(wish: Wish): void {
  localStorage.setItem(KEY, JSON.stringify(wish));
}

/** From when one can begin to when one must be done [min]; past midnight where the end is not after the start. Null where a time is not one. */
export function freeMinutes({ day, from, to }: Pick<Wish, 'day' | 'from' | 'to'>): number | null {
  const [start, end] = [wallInstant({ day, time: from }), wallInstant({ day, time: to })];
  if (start === null || end === null) return null;
  const minutes = (end - start) / MINUTE_MS;
  return minutes > 0 ? minutes : minutes + DAY_MS / MINUTE_MS;
}

/** Draft and wish as the chooser takes them; null while an answer cannot be read. */
export function haveOf(input: {
  readonly draft: Draft;
  readonly wish: Wish;
  readonly lots: readonly KeptLot[];
  readonly units: UnitSystem;
}): ChoosingFacts | null {
  const { draft, wish, lots, units } = input;
  const { answers } = answersOf({ draft, units });
  if (answers === null) return null;
  const { milk, pot, instruments } = answers;
  const kinds = INGREDIENTS.filter((one) => lots.some(({ lot }) => lot.kind === one));
  return {
    fill: wish.fill,
    milkL: milk.volumeL,
    species: milk.species ?? 'cow',
    treatment: milk.treatment ?? 'pasteurised',
    homogenised: milk.homogenised ?? false,
    ...(milk.fatPercent === undefined ? {} : { fatPercent: milk.fatPercent }),
    freeMin: freeMinutes(wish),
    burners: Number(wish.burners),
    hasPHMeter: instruments?.pHMeter ?? false,
    potL: pot?.volumeL ?? milk.volumeL / 0.8, // a pot that nobody named is taken to hold the milk with room to stir
    skill: wish.skill,
    ageing: wish.ageing,
    withinDays: wish.within === 'any' ? null : Number(wish.within),
    inStore: kinds.length === 0 ? null : new Set(kinds),
  };
}

/** The plan's draft with what was chosen here: this make, done by the end of the hours that are free. */
export const chosenDraft = (input: { readonly draft: Draft; readonly wish: Wish; readonly makeId: string }): Draft => ({
  ...input.draft,
  makeId: input.makeId,
  clock: { mode: 'done-by', time: input.wish.to, day: doneDay(input.wish) },
});

/** The day on which one must be done: the next one where the hours go past midnight. */
function doneDay({ day, from, to }: Wish): string {
  const noon = wallInstant({ day, time: '12:00' });
  return to > from || noon === null ? day : localDay(noon + DAY_MS);
}
