/** Everything about a planned make that its maker may set otherwise: its free inputs, its doses, and answers of the kitchen. */
import { RENNET_DOSE, valueIn } from './changes.ts';
import type { FreeInput, Place } from './free-input.ts';
import type { Plan } from './plan.ts';
import { valueAt } from './problems.ts';
import type { Answers } from './setup.ts';

export type AdjustableUnit = FreeInput['unit'] | 'of the dose' | 'IMCU/L' | 'L';

/** One thing that may be set otherwise, and how far. */
export interface Adjustable {
  /** `brine-minutes`, `rennet-dose`, `milk`. */
  readonly id: string;
  /** In the make's own words; null where the catalogues name it. */
  readonly name: string | null;
  readonly unit: AdjustableUnit;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  /** As it stands; null where the forecast decides it (a bath left when the salt is reached). */
  readonly now: number | null;
  /** The step from whose start on it can no longer be chosen; of minutes and ends, from whose end on. */
  readonly stepId: string;
  readonly isEnd: boolean;
  /** The answer that holds it; null where it is a change of the make. */
  readonly path: readonly [string, ...string[]] | null;
}

const LEAST_MILK_SHARE = 0.25; // of the pot: less is hard to keep warm and to cut; our own choice
const MOST_MILK_SHARE = 0.85; // of the pot, as the planner advises; common practice (no source)
const PIECE_SPAN = 3; // pieces from a third to three times the size; our own choice

/** The adjustable things of a plan, in the order of the work; the kitchen's own last. */
export function adjustablesOf(plan: Pick<Plan, 'make' | 'setup' | 'steps'>): readonly Adjustable[] {
  const { make, steps } = plan;
  const order = new Map(steps.map((step, index) => [step.id, index]));
  const ofMake = (make.free ?? [])
    .filter(({ places: [first] }) => first !== undefined && order.has(first.step) && isThere(plan, first))
    .map((free) => ofFree(plan, free));
  return [...ofMake, ...doses(plan)]
    .sort((a, b) => (order.get(a.stepId) ?? 0) - (order.get(b.stepId) ?? 0))
    .concat(ofKitchen(plan));
}

/** An end by pH is chosen by those who can read it, and no other end by anybody once minutes were chosen instead. */
function isThere({ make, setup }: Pick<Plan, 'make' | 'setup'>, place: Place): boolean {
  if (place.kind !== 'until') return true;
  return valueIn(make, place) !== null && (place.condition !== 'pH' || setup.pHMeter);
}

function ofFree({ make, setup }: Pick<Plan, 'make' | 'setup'>, free: FreeInput): Adjustable {
  const [first] = free.places;
  const { id, name, unit, low, high, step } = free;
  const isEnd = first?.kind !== 'setting';
  // Minutes beside a judgement, or a pH that can be read, are an expectation: what decides stands beside them.
  const ends = make.steps.find((each) => each.id === first?.step)?.until.of ?? [];
  const isTimed = ends.every(({ kind }) => kind === 'time' || (kind === 'pH' && !setup.pHMeter));
  const decides = first?.kind !== 'minutes' || isTimed;
  const now = first === undefined || !decides ? null : valueIn(make, first);
  return { id, name, unit, low, high, step, now, isEnd, stepId: first?.step ?? '', path: null };
}

function doses({ make, setup, steps }: Pick<Plan, 'make' | 'setup' | 'steps'>): Adjustable[] {
  const stepOf = (ingredient: string): string => steps.find((step) => step.set.ingredient === ingredient)?.id ?? '';
  const { culture, rennet } = make.doses;
  const base = { name: null, isEnd: false };
  const bulk = setup.culture.bulkPercent;
  const found: (Adjustable | null)[] = [
    culture === undefined ? null : bulk === undefined
      ? { ...base, id: 'culture-dose', unit: 'of the dose', ...spanOf(culture.packetFraction), step: 0.05, now: setup.culture.packetFraction, stepId: stepOf('culture'), path: ['culture', 'packetFraction'] }
      : { ...base, id: 'culture-dose', unit: '%', ...spanOf(culture.bulkPercent), step: 0.05, now: bulk, stepId: stepOf('culture'), path: ['culture', 'bulkPercent'] },
    rennet === undefined ? null : { ...base, id: RENNET_DOSE, unit: 'IMCU/L', ...spanOf(rennet.imcuPerL), step: 0.5, now: rennet.imcuPerL.aim, stepId: stepOf('rennet'), path: null },
  ]; // prettier-ignore
  return found.filter((each) => each !== null);
}

const spanOf = ({ low, high }: { readonly low: number; readonly high: number }): { low: number; high: number } => ({ low, high }); // prettier-ignore

function ofKitchen({ setup, steps }: Pick<Plan, 'setup' | 'steps'>): Adjustable[] {
  const form = steps.find((step) => step.set.pieceG !== undefined);
  const { volumeL } = setup.pot;
  const base = { name: null, isEnd: false } as const;
  const milkL = setup.milk.volumeL;
  const milk: Adjustable = {
    ...base,
    id: 'milk',
    unit: 'L',
    low: Math.min(roundTo(LEAST_MILK_SHARE * volumeL, 0.5), milkL),
    high: Math.max(roundTo(MOST_MILK_SHARE * volumeL, 0.5), milkL),
    step: milkL < 50 ? 0.5 : 5,
    now: milkL,
    stepId: steps[0]?.id ?? '',
    path: ['milk', 'volumeL'],
  };
  const pieceG = form?.set.pieceG;
  if (form === undefined || typeof pieceG !== 'number') return [milk];
  const size = { low: roundTo(pieceG / PIECE_SPAN, 5), high: roundTo(pieceG * PIECE_SPAN, 5) };
  return [milk, { ...base, id: 'piece', unit: 'g', ...size, step: 5, now: pieceG, stepId: form.id, path: ['pieceG'] }];
}

const roundTo = (value: number, step: number): number => Math.round(value / step) * step;

/**
 * The answers with some adjustables set: changes of the make under `changes`, the rest where the maker would have answered.
 * @param input.settings value by id; ids that are not among the adjustables are left out
 */
export function answersWith(input: {
  readonly answers: Answers;
  readonly adjustables: readonly Adjustable[];
  readonly settings: Readonly<Record<string, number>>;
}): Answers {
  const { adjustables, settings } = input;
  let { answers } = input;
  for (const { id, path } of adjustables) {
    const value = settings[id];
    if (value === undefined) continue;
    answers = placed(answers, path ?? ['changes', id], value);
  }
  return answers;
}

/** A tree with one number put in; what was at other paths stays the same object. */
function placed<T extends object>(tree: T, [key, ...rest]: readonly [string, ...string[]], value: number): T {
  const [next, ...further] = rest;
  const inside = valueAt({ json: tree, path: [key] });
  const below = typeof inside === 'object' && inside !== null ? inside : {};
  return { ...tree, [key]: next === undefined ? value : placed(below, [next, ...further], value) };
}
