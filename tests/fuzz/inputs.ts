/**
 * Random inputs for a sum, read off its own schema: its example jolted, values drawn from its ranges and their edges,
 * and things that are no input at all.
 */
import type { Random } from '../../src/numbers/random.ts';

/** The part of JSON Schema that sums are written in. */
export interface Schema {
  readonly type?: string;
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
}

const MOST_MEMBERS = 200; // of an ensemble, so that a sum stays quick
const LONGEST_ARRAY = 12;
const EDGES = [0, -0, 1, -1, 1e-12, 5e-324, 1e12, 1e308, -1e308, 0.1, 99.999, 100, 273.15, 2 ** 53];
const RUBBISH: readonly unknown[] = [
  null, '', '37', 'NaN', Number.NaN, Infinity, -Infinity, [], {}, [[]], true, '__proto__', { constructor: 1 },
  'x'.repeat(500), { toString: 1 }, [null], '5 °C',
]; // prettier-ignore

export const pick = <T>(random: Random, from: readonly T[]): T => from[Math.floor(random.uniform() * from.length)] as T;
const chance = (random: Random, share: number): boolean => random.uniform() < share;

/** A number that the schema allows: near an edge, spread evenly, or spread over magnitudes. */
function numberFor(random: Random, schema: Schema): number {
  const low = schema.minimum ?? schema.exclusiveMinimum ?? -50;
  const high = schema.maximum ?? schema.exclusiveMaximum ?? 500;
  const draw = random.uniform();
  let value: number;
  if (draw < 0.08) value = pick(random, [low, high, ...EDGES]);
  else if (draw < 0.6) value = low + random.uniform() * (high - low);
  else value = Math.max(low, 0) + Math.exp(Math.log(1e-3) + random.uniform() * Math.log(1e6));
  value = Math.min(Math.max(value, low), high);
  return schema.type === 'integer' ? Math.round(value) : value;
}

/** A value of the schema. */
export function valueFor(random: Random, schema: Schema): unknown {
  if (schema.const !== undefined) return schema.const;
  if (schema.enum !== undefined) return pick(random, schema.enum);
  const choices = schema.anyOf ?? schema.oneOf;
  if (choices !== undefined) return valueFor(random, pick(random, choices));
  switch (schema.type) {
    case 'number':
    case 'integer':
      return numberFor(random, schema);
    case 'boolean':
      return chance(random, 0.5);
    case 'string':
      return pick(random, ['', 'cow', '2026-11-25', 'x']);
    case 'null':
      return null;
    case 'array': {
      const least = schema.minItems ?? 0;
      const most = Math.min(schema.maxItems ?? LONGEST_ARRAY, Math.max(LONGEST_ARRAY, least));
      const length = least + Math.floor(random.uniform() * (most - least + 1));
      return Array.from({ length }, () => valueFor(random, schema.items ?? {}));
    }
    case 'object': {
      const required = new Set(schema.required);
      return Object.fromEntries(
        Object.entries(schema.properties ?? {})
          .filter(([name]) => required.has(name) || chance(random, 0.4))
          .map(([name, property]) => [name, valueFor(random, property)]),
      );
    }
    default:
      return pick(random, RUBBISH);
  }
}

/** The example with its leaves moved, a little or far: numbers by a factor or a step, words to other choices. */
function jolted(random: Random, value: unknown, schema: Schema, size: number): unknown {
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => jolted(random, item, schema.items ?? {}, size));
    if (chance(random, 0.2 * size)) items.push(valueFor(random, schema.items ?? {}));
    if (chance(random, 0.1)) items.pop();
    return items;
  }
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).map(([name, each]): [string, unknown] => [
      name,
      jolted(random, each, schema.properties?.[name] ?? {}, size),
    ]);
    for (const [name, property] of Object.entries(schema.properties ?? {})) {
      if (!Object.hasOwn(value, name) && chance(random, 0.06)) entries.push([name, valueFor(random, property)]);
    }
    return Object.fromEntries(entries.filter(() => !chance(random, 0.02)));
  }
  if (typeof value === 'number') {
    if (chance(random, 0.35)) return value;
    if (chance(random, 0.05 * size)) return valueFor(random, schema);
    const moved = chance(random, 0.5)
      ? value * Math.exp(0.5 * size * random.normal())
      : value + 5 * size * random.normal();
    return schema.type === 'integer' ? Math.round(moved) : moved;
  }
  return chance(random, 0.2) ? valueFor(random, schema) : value;
}

/** Puts rubbish somewhere into an input, or an unknown field beside it, or is rubbish altogether. */
function spoilt(random: Random, input: unknown): unknown {
  if (chance(random, 0.1) || typeof input !== 'object' || input === null) return pick(random, RUBBISH);
  const names = Object.keys(input);
  const name = chance(random, 0.2) ? pick(random, ['moonPhase', 'toString', 'temperatureF']) : pick(random, names);
  return { ...input, [name]: pick(random, RUBBISH) };
}

/** One input for a sum: mostly its example jolted, else drawn from its schema; one in ten is spoilt. */
export function randomInput(random: Random, of: { readonly schema: Schema; readonly example: unknown }): unknown {
  const input = chance(random, 0.75)
    ? jolted(random, of.example, of.schema, random.uniform() ** 2)
    : valueFor(random, of.schema);
  if (typeof input === 'object' && input !== null && of.schema.properties?.['members'] !== undefined) {
    const members = 20 + Math.floor(random.uniform() * (MOST_MEMBERS - 19));
    return chance(random, 0.1) ? spoilt(random, { ...input, members }) : { ...input, members };
  }
  return chance(random, 0.1) ? spoilt(random, input) : input;
}
