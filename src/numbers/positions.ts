/**
 * The place of each name in a list, as a record: for flat arrays that are read by name.
 * @param names  each once
 * @returns name to index, the first at 0
 */
export function positionsOf<K extends string>(names: readonly K[]): Readonly<Record<K, number>> {
  const at: Partial<Record<K, number>> = {};
  for (const [index, name] of names.entries()) at[name] = index;
  if (!isWhole(names, at)) throw new RangeError('every name has its place');
  return at;
}

function isWhole<K extends string>(names: readonly K[], at: Partial<Record<K, number>>): at is Record<K, number> {
  return names.every((name) => at[name] !== undefined);
}
