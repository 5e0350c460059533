import { isRecord } from '../../../make/problems.ts';

/** A copy of a plain tree with the value at `a.b.c` set; the given tree is not changed. */
export function withValue(input: { readonly tree: unknown; readonly path: string; readonly value: unknown }): unknown {
  const { tree, path, value } = input;
  const [key, ...rest] = path.split('.');
  if (key === undefined) return tree;
  const fields = isRecord(tree) ? tree : {};
  return {
    ...fields,
    [key]: rest.length === 0 ? value : withValue({ tree: fields[key], path: rest.join('.'), value }),
  };
}
