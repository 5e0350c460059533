/** A make while it is being written: plain JSON, changed at a path, without ever losing the rest. */
import { isRecord, pathText, valueAt } from '../../../../make/problems.ts';
import { STEP_KIT_FREE, type Written } from './written.ts';

export type Path = readonly (string | number)[];

/** What stands at a path; undefined where there is nothing. */
export const at = (json: Written, path: Path): unknown => valueAt({ json, path });

/** The text of a path as problems of a make carry it: `steps[3].set.toC.value`. */
export const fieldOf = (path: Path): string => pathText(path);

/** The same with another value at a path; what is missing on the way is made. `undefined` takes it out. */
export function put(json: Written, path: Path, value: unknown): Written {
  const changed = putIn(json, path, value);
  return isRecord(changed) ? { ...changed } : json;
}

function putIn(node: unknown, path: Path, value: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  if (typeof key === 'number') {
    const list: unknown[] = Array.isArray(node) ? [...(node as readonly unknown[])] : [];
    if (rest.length === 0 && value === undefined) list.splice(key, 1);
    else list[key] = putIn(list[key], rest, value);
    return list;
  }
  const record = isRecord(node) ? node : {};
  if (rest.length === 0 && value === undefined) {
    return Object.fromEntries(Object.entries(record).filter(([name]) => name !== key));
  }
  return { ...record, [key]: putIn(record[key], rest, value) };
}

/** The entries of a list at a path; none where there is no list. */
export function listAt(json: Written, path: Path): readonly unknown[] {
  const found = at(json, path);
  return Array.isArray(found) ? (found as readonly unknown[]) : [];
}

/** The same with one entry more, after a place of the list; at its end where none is given. */
export function inserted(json: Written, path: Path, entry: unknown, after?: number): Written {
  const list = [...listAt(json, path)];
  list.splice(after === undefined ? list.length : after + 1, 0, entry);
  return put(json, path, list);
}

/** The same with an entry of a list one place earlier (-1) or later (1); at the ends it stays. */
export function shifted(json: Written, path: Path, index: number, by: -1 | 1): Written {
  const list = [...listAt(json, path)];
  const to = index + by;
  if (to < 0 || to >= list.length) return json;
  const [moved] = list.splice(index, 1);
  list.splice(to, 0, moved);
  return put(json, path, list);
}

const idsOf = (json: Written): string[] =>
  listAt(json, ['steps']).flatMap((step) => (isRecord(step) && typeof step['id'] === 'string' ? [step['id']] : []));

/** An id that no other step has, from the verb: `stir`, `stir-2`. */
export function freeId(json: Written, verb: string): string {
  const taken = new Set(idsOf(json));
  const base = verb.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  for (let count = 1; ; count++) {
    const id = count === 1 ? base : `${base}-${count}`;
    if (!taken.has(id)) return id;
  }
}

/** The same with a new, nearly blank step after a place. */
export function withStep(json: Written, input: { readonly verb: string; readonly after: number }): Written {
  const practice = { value: 0, source: 'common practice' };
  const step = {
    id: freeId(json, input.verb),
    verb: input.verb,
    name: '',
    how: '',
    done: '',
    set: {},
    until: { join: 'first', of: [{ kind: 'time', minutes: { value: 10, source: 'common practice' } }] },
    hands: { startMin: practice, duringMin: practice, endMin: practice },
    kit: STEP_KIT_FREE,
    prepare: [],
    watch: [],
    why: '',
    cautions: [],
  };
  return inserted(json, ['steps'], step, input.after);
}

/** The same without a step, and without what stood on it: its aims, and what a plan may choose of it. */
export function withoutStep(json: Written, index: number): Written {
  const id = at(json, ['steps', index, 'id']);
  const isOf = (entry: unknown): boolean => isRecord(entry) && entry['step'] === id;
  const aims = listAt(json, ['aims']).filter((aim) => !(isRecord(aim) && aim['moment'] === id));
  const free = listAt(json, ['free']).flatMap((input) => {
    if (!isRecord(input) || !Array.isArray(input['places'])) return [input];
    const places = (input['places'] as readonly unknown[]).filter((place) => !isOf(place));
    return places.length === 0 ? [] : [{ ...input, places }];
  });
  const without = put(put(json, ['steps', index], undefined), ['aims'], aims);
  return at(json, ['free']) === undefined ? without : put(without, ['free'], free);
}

/** A name as an id may be: `Aunt's ball` becomes `aunt-s-ball`; never empty, never beginning with a figure. */
export function slugOf(name: string): string {
  const plain = name
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  return /^[a-z]/.test(plain) ? plain.slice(0, 40) : `make-${plain}`.slice(0, 40).replace(/-$/, '');
}
