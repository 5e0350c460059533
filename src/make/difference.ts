/** What one make does otherwise than another, figure by figure; doors put it in words. */
import type { Make } from './make.ts';
import { sourceWords } from './make-facts.ts';
import { isRecord } from './problems.ts';

/** A value as it stands in a make: a figure's number, a range's three, a word, a list of words. */
export type Leaf =
  string | number | boolean | readonly string[] | { readonly low: number; readonly aim: number; readonly high: number };

/** Where a difference stands: of the whole make, or of one of its steps. */
export interface Where {
  /** Name of the step; null where it is of the whole make. */
  readonly step: string | null;
  /** Path below that: `doses.culture.packetFraction`, `set.toC`, `until.time.minutes`. */
  readonly field: string;
}

export type Difference =
  | { readonly kind: 'changed'; readonly at: Where; readonly was: Leaf; readonly now: Leaf }
  | { readonly kind: 'added'; readonly at: Where; readonly now: Leaf }
  | { readonly kind: 'removed'; readonly at: Where; readonly was: Leaf }
  | { readonly kind: 'step-added' | 'step-removed' | 'step-moved'; readonly step: string };

/** What names a saving and not the cheese. */
const NOT_THE_CHEESE: ReadonlySet<string> = new Set(['$schema', 'id', 'version', 'status', 'sources', 'steps']);

/**
 * Every difference between two makes: of the whole make first, then step by step in the order of the newer one.
 * @param input.was the original
 * @param input.now what was made of it; steps are the same where their ids are
 * @returns nothing where both make the same cheese the same way
 */
export function differences(input: { readonly was: Make; readonly now: Make }): Difference[] {
  const { was, now } = input;
  const whole = (make: Make): Map<string, Leaf> => leavesOf(Object.fromEntries(Object.entries(make).filter(([key]) => !NOT_THE_CHEESE.has(key))), make); // prettier-ignore
  const before = new Map(was.steps.map((step) => [step.id, step]));
  const after = new Set(now.steps.map(({ id }) => id));
  const moved = movedIds(
    was.steps.map(({ id }) => id).filter((id) => after.has(id)),
    now.steps.map(({ id }) => id).filter((id) => before.has(id)),
  );
  return [
    ...compared({ was: whole(was), now: whole(now), step: null }),
    ...was.steps
      .filter(({ id }) => !after.has(id))
      .map(({ name }): Difference => ({ kind: 'step-removed', step: name })),
    ...now.steps.flatMap((step): Difference[] => {
      const old = before.get(step.id);
      if (old === undefined) return [{ kind: 'step-added', step: step.name }];
      const own = compared({ was: leavesOf(old, was), now: leavesOf(step, now), step: old.name });
      return moved.has(step.id) ? [{ kind: 'step-moved', step: step.name }, ...own] : own;
    }),
  ];
}

function compared(input: {
  readonly was: ReadonlyMap<string, Leaf>;
  readonly now: ReadonlyMap<string, Leaf>;
  readonly step: string | null;
}): Difference[] {
  const { was, now, step } = input;
  const found: Difference[] = [];
  for (const [field, leaf] of now) {
    const old = was.get(field);
    const at = { step, field };
    if (old === undefined) {
      if (!GOES_WITHOUT_SAYING.test(field)) found.push({ kind: 'added', at, now: leaf });
    } else if (!isSame(old, leaf)) found.push({ kind: 'changed', at, was: old, now: leaf });
  }
  for (const [field, leaf] of was) {
    if (!now.has(field) && !GOES_WITHOUT_SAYING.test(field))
      found.push({ kind: 'removed', at: { step, field }, was: leaf });
  }
  return found;
}

/** Of something that came or went as a whole: its key says the first two, and its source went with it. */
const GOES_WITHOUT_SAYING = /\.(?:kind|id|source)$/;

const isSame = (a: Leaf, b: Leaf): boolean => JSON.stringify(a) === JSON.stringify(b);

/** The values of a node by path; a source stands in words under its figure, so that a list in another order changes nothing. */
function leavesOf(node: object, make: Make): Map<string, Leaf> {
  const leaves = new Map<string, Leaf>();
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return void leaves.set(path, value); // prettier-ignore
    if (Array.isArray(value)) return walkList(value, path);
    if (!isRecord(value)) return;
    const { source, ...rest } = value;
    if (typeof source === 'number' || source === 'common practice')
      leaves.set(`${path}.source`, sourceWords(make, source));
    const { low, aim, high } = rest;
    if (typeof low === 'number' && typeof aim === 'number' && typeof high === 'number') {
      leaves.set(path, { low, aim, high });
      for (const [key, each] of Object.entries(rest)) if (!RANGE.has(key)) walk(each, `${path}.${key}`);
      return;
    }
    const own = Object.entries(rest);
    for (const [key, each] of own)
      walk(each, key === 'value' && own.length === 1 ? path : path === '' ? key : `${path}.${key}`);
  };
  const walkList = (list: readonly unknown[], path: string): void => {
    const words = list.filter((each) => typeof each === 'string');
    if (words.length === list.length) return void leaves.set(path, words);
    for (const [index, each] of list.entries()) walk(each, `${path}.${keyOf(each, index)}`);
  };
  walk(node, '');
  return leaves;
}

const RANGE: ReadonlySet<string> = new Set(['low', 'aim', 'high']);

/** What an entry of a list is called by: its id, its kind, or what it is of. */
function keyOf(entry: unknown, index: number): string {
  if (!isRecord(entry)) return String(index);
  const { id, kind, when, quantity, moment } = entry;
  if (typeof id === 'string') return id;
  if (typeof kind === 'string') return kind;
  if (typeof quantity === 'string' && typeof moment === 'string') return `${quantity}@${moment}`;
  if (typeof quantity === 'string') return quantity;
  return typeof when === 'string' ? when : String(index);
}

/** The fewest ids that, taken out, leave both orders the same. */
function movedIds(was: readonly string[], now: readonly string[]): ReadonlySet<string> {
  const place = new Map(was.map((id, index) => [id, index]));
  // Longest run of ids in their old order, ending at each place of the new order.
  const longest: { readonly length: number; readonly before: number }[] = [];
  for (const [index, id] of now.entries()) {
    let best = { length: 1, before: -1 };
    for (let earlier = 0; earlier < index; earlier++) {
      const run = longest[earlier];
      const isInOrder = (place.get(now[earlier] ?? '') ?? 0) < (place.get(id) ?? 0);
      if (run !== undefined && isInOrder && run.length + 1 > best.length)
        best = { length: run.length + 1, before: earlier };
    }
    longest.push(best);
  }
  let at = longest.reduce((top, run, index) => (run.length > (longest[top]?.length ?? 0) ? index : top), 0);
  const kept = new Set<string>();
  while (at >= 0 && at < now.length) {
    kept.add(now[at] ?? '');
    at = longest[at]?.before ?? -1;
  }
  return new Set(now.filter((id) => !kept.has(id)));
}
