/** `--set key=value`: the value is JSON where it can be read so, else a word; `a.b` reaches into an object. */
import { UsageError } from './world.ts';

/** @throws UsageError for a pair without "=" or with an empty part of its path */
export function withValues(base: unknown, pairs: readonly string[]): unknown {
  if (pairs.length === 0) return base;
  const root: Record<string, unknown> = isPlain(base) ? structuredClone(base) : {};
  for (const pair of pairs) {
    const at = pair.indexOf('=');
    if (at < 1) throw new UsageError(`--set ${pair}: write it as key=value, such as milkL=12 or milk.fatPercent=3.6.`);
    place({ root, path: pair.slice(0, at).split('.'), value: valueOf(pair.slice(at + 1)), pair });
  }
  return root;
}

function place(input: {
  readonly root: Record<string, unknown>;
  readonly path: readonly string[];
  readonly value: unknown;
  readonly pair: string;
}): void {
  const { root, path, value, pair } = input;
  let node = root;
  for (const [index, key] of path.entries()) {
    if (key === '' || key === '__proto__') throw new UsageError(`--set ${pair}: "${path.join('.')}" names no field.`);
    if (index === path.length - 1) {
      node[key] = value;
      return;
    }
    const next = Object.hasOwn(node, key) ? node[key] : undefined;
    const inside: Record<string, unknown> = isPlain(next) ? next : {};
    node[key] = inside;
    node = inside;
  }
}

function valueOf(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return text;
  }
}

const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
