import type { MakeFacts } from '../../../make/make-facts.ts';

/** So many stand side by side in a plan; the others are a link away. Our own choice. */
const SIDE_BY_SIDE = 4;

/**
 * The ids of a make and of those most like it, in the order of the list: its family's easiest, and itself. Choosing one of
 * them leaves the row as it is, as long as it is among them.
 */
export function kinOf(input: { readonly makes: readonly MakeFacts[]; readonly makeId: string }): readonly string[] {
  const own = input.makes.find(({ id }) => id === input.makeId) ?? input.makes[0];
  if (own === undefined) return [];
  const family = input.makes.filter(({ family }) => family === own.family).map(({ id }) => id);
  const first = family.slice(0, SIDE_BY_SIDE);
  return first.includes(own.id) ? first : [...first.slice(0, SIDE_BY_SIDE - 1), own.id];
}
