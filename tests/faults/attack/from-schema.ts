import fc from 'fast-check';

/** Values that a JSON Schema lets through, drawn from the schema itself, so that no shape of the API is forgotten. */

export type Schema = Readonly<Record<string, unknown>>;

/** Deeper than so, only what a schema must have is drawn: some refer to themselves. */
const DEEP = 6;
const LONGEST_LIST = 4;
const LARGEST = 1e6;

/** A JSON Schema in which `$ref` names a place of `root`. */
export function fromSchema(schema: unknown, root: Schema, depth = 0): fc.Arbitrary<unknown> {
  const node = asSchema(schema);
  const on = (inner: unknown): fc.Arbitrary<unknown> => fromSchema(inner, root, depth + 1);
  if (typeof node['$ref'] === 'string') return fromSchema(found(root, node['$ref']), root, depth);
  if ('const' in node) return fc.constant(node['const']);
  if (Array.isArray(node['enum'])) return fc.constantFrom(...(node['enum'] as unknown[]));
  const choices = node['anyOf'] ?? node['oneOf'];
  if (Array.isArray(choices)) return fc.oneof(...(depth > DEEP ? choices.slice(0, 1) : choices).map(on));
  if (Array.isArray(node['allOf'])) {
    return fc.tuple(...node['allOf'].map(on)).map((parts) => Object.assign({}, ...parts) as unknown);
  }
  const { type } = node;
  if (Array.isArray(type)) return fc.oneof(...type.map((one: unknown) => on({ ...node, type: one })));
  switch (type) {
    case 'object':
      return object(node, on, depth);
    case 'array':
      return list(node, on, depth);
    case 'string':
      return text(node);
    case 'integer':
    case 'number':
      return number(node);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    case undefined:
      return fc.jsonValue({ maxDepth: 2 });
    default:
      throw new Error(`No arbitrary for a schema of type ${JSON.stringify(type)}.`);
  }
}

function asSchema(value: unknown): Schema {
  if (value === true) return {};
  if (typeof value !== 'object' || value === null) throw new Error(`No schema: ${JSON.stringify(value)}`);
  return value as Schema;
}

function found(root: Schema, ref: string): unknown {
  let node: unknown = root;
  for (const name of ref
    .replace(/^#\/?/, '')
    .split('/')
    .filter((part) => part !== '')) {
    node = asSchema(node)[name];
  }
  return node;
}

function object(node: Schema, on: (inner: unknown) => fc.Arbitrary<unknown>, depth: number): fc.Arbitrary<unknown> {
  const properties = Object.entries((node['properties'] ?? {}) as Schema);
  const required = new Set((node['required'] ?? []) as string[]);
  const drawn = properties.filter(([name]) => required.has(name) || depth <= DEEP);
  const known = fc.record(Object.fromEntries(drawn.map(([name, inner]) => [name, on(inner)])), {
    requiredKeys: drawn.map(([name]) => name).filter((name) => required.has(name)),
    noNullPrototype: true,
  });
  const more = node['additionalProperties'];
  if (more === false || more === undefined || depth > DEEP) return known;
  const names = node['propertyNames'] === undefined ? fc.string({ maxLength: 8 }) : on(node['propertyNames']);
  return fc
    .tuple(known, fc.array(fc.tuple(names, on(more)), { maxLength: 3 }))
    .map(([one, others]) => ({ ...Object.fromEntries(others.map(([name, value]) => [String(name), value])), ...one }));
}

function list(node: Schema, on: (inner: unknown) => fc.Arbitrary<unknown>, depth: number): fc.Arbitrary<unknown> {
  if (Array.isArray(node['prefixItems'])) return fc.tuple(...node['prefixItems'].map(on));
  const { minItems, maxItems } = node as { readonly minItems?: number; readonly maxItems?: number };
  const least = minItems ?? 0;
  const most = depth > DEEP ? least : Math.max(least, Math.min(maxItems ?? LONGEST_LIST, LONGEST_LIST));
  return fc.array(on(node['items'] ?? {}), { minLength: least, maxLength: most });
}

function text(node: Schema): fc.Arbitrary<string> {
  const { pattern, format, minLength, maxLength } = node as { readonly pattern?: string; readonly format?: string; readonly minLength?: number; readonly maxLength?: number }; // prettier-ignore
  if (format === 'date-time') return fc.date({ noInvalidDate: true }).map((date) => date.toISOString());
  if (format === 'date') return fc.date({ min: new Date(0), max: new Date('2100-01-01'), noInvalidDate: true }).map((date) => date.toISOString().slice(0, 10)); // prettier-ignore
  if (pattern === '^\\d{4}-\\d{2}-\\d{2}$') return fc.oneof({ weight: 4, arbitrary: text({ format: 'date' }) }, { weight: 1, arbitrary: fc.stringMatching(/^\d{4}-\d{2}-\d{2}$/) }); // prettier-ignore
  // Most clocks of fifteen digits are of other centuries, and refused.
  if (pattern === '^\\d{15}-\\d{5}$') return fc.stringMatching(/^00[01]\d{12}-\d{5}$/);
  if (pattern !== undefined && !pattern.includes('\\p{')) return fc.stringMatching(new RegExp(pattern, 'u'));
  const most = Math.min(maxLength ?? 40, 40);
  return fc.string({ minLength: minLength ?? 0, maxLength: most, unit: 'grapheme' });
}

function number(node: Schema): fc.Arbitrary<number> {
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum } = node as Readonly<Record<string, number | undefined>>;
  const low = minimum ?? exclusiveMinimum ?? -LARGEST;
  const high = Math.max(low, maximum ?? exclusiveMaximum ?? Math.max(low, 0) + LARGEST);
  // What must be above nothing may be next to nothing.
  const ends = fc.constantFrom(low, high, ...(exclusiveMinimum === 0 ? [1e-18, 1e-300, Number.MIN_VALUE] : []));
  const inside =
    node['type'] === 'integer'
      ? fc.integer({ min: Math.ceil(Math.max(low, -0x7fffffff)), max: Math.floor(Math.min(high, 0x7fffffff)) })
      : fc.double({ min: low, max: high, noNaN: true });
  return fc.oneof({ weight: 5, arbitrary: inside }, { weight: 1, arbitrary: ends });
}
