/** The value at a path of keys in a plain tree; undefined where there is none. */
export function valueAt(tree: unknown, keys: readonly string[]): unknown {
  let node = tree;
  for (const key of keys) {
    if (typeof node !== 'object' || node === null) return undefined;
    node = (node as Record<string, unknown>)[key];
  }
  return node;
}

/** A copy of a plain tree with the value at `a.b.c` set; the given tree is not changed. */
export function withValue(input: { readonly tree: unknown; readonly path: string; readonly value: unknown }): unknown {
  const { tree, path, value } = input;
  const [key, ...rest] = path.split('.');
  if (key === undefined) return tree;
  const fields = typeof tree === 'object' && tree !== null ? tree : {};
  const next: unknown = (fields as Record<string, unknown>)[key];
  return { ...fields, [key]: rest.length === 0 ? value : withValue({ tree: next, path: rest.join('.'), value }) };
}
