import fc from 'fast-check';
import { eventJsonSchema } from '../../../src/exchange/json-schema.ts';
import { ALL_KINDS } from '../../../src/record/keeping-events.ts';
import { fromSchema, type Schema } from './from-schema.ts';
import { opened } from './opened-make.ts';
import { hostilePart, inAddress, noJson, sentOf } from './spoilt.ts';
import { ASKERS, type Asker, type Target } from './target.ts';

/** One request of an attack. */
export interface Attack {
  /** As the description has it: `post /api/events`; empty for a path or a method that there is not. */
  readonly route: string;
  readonly method: string;
  readonly path: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body?: string;
  readonly asker: Asker;
}

interface Operation {
  readonly parameters: readonly { readonly name: string; readonly in: string; readonly schema: unknown }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: unknown }>> };
}

/** The API as it describes itself. */
export interface Described extends Schema {
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
}

/** How much of the whole each route gets; the sums share one part, being many and alike. */
const WEIGHTS: Readonly<Record<string, number>> = {
  'post /api/events': 30,
  'post /api/batches/{batchId}/readings': 12,
  'get /api/streams/{streamId}/events': 8,
  'post /api/pair': 8,
  // Reads all that is kept: rare, so that a run stays short.
  'get /api/ageing.ics': 1,
  'get /api/streams': 1,
};
const SUM_WEIGHT = 1;
const OTHER_WEIGHT = 3;

const JSON_HEADERS = { 'content-type': 'application/json' };
const asker: fc.Arbitrary<Asker> = fc.oneof(
  { weight: 6, arbitrary: fc.constant<Asker>('owner') },
  { weight: 4, arbitrary: fc.constantFrom(...ASKERS) },
);

/** Parts of a path by their name in the description; a name that is not here fails the run. */
function pathParts(target: Pick<Target, 'deviceIds'>): Readonly<Record<string, fc.Arbitrary<string>>> {
  const streams = fc.constantFrom('batch:ash', 'batch:birch', 'piece:rowan', 'lot:1', 'device:x').map(inAddress);
  const orHostile = (good: fc.Arbitrary<string>): fc.Arbitrary<string> => fc.oneof(good, hostilePart);
  return {
    streamId: orHostile(streams),
    batchId: orHostile(fc.constantFrom('ash', 'birch', 'batch:ash', 'nobody')),
    // The devices of this run are not taken away from under it.
    deviceId: orHostile(fc.constantFrom(...target.deviceIds.map((id) => `${id}x`))),
  };
}

/** What is asked in an address: known names with good and bad values, names twice, names that there are not. */
function query(parameters: Operation['parameters'], root: Schema): fc.Arbitrary<string> {
  const names = parameters.filter((one) => one.in === 'query');
  const odd = fc.constantFrom('__proto__=1', '__proto__[polluted]=1', 'constructor[prototype][polluted]=1', 'x=1', '&&&', '%', '=', 'a=%ff', 'a=%00', `long=${'x'.repeat(9000)}`); // prettier-ignore
  const known = names.map(({ name, schema }) => {
    const value = fc.oneof(fromSchema(schema, root).map((one) => inAddress(String(one))), hostilePart, fc.constantFrom('', '-1', '1e309', 'NaN', '1.5', '0x10', '9007199254740993', ' 5')); // prettier-ignore
    return value.map((text) => `${name}=${text}`);
  });
  const none = fc.constant('');
  if (known.length === 0) return fc.oneof({ weight: 4, arbitrary: none }, { weight: 1, arbitrary: odd.map((text) => `?${text}`) }); // prettier-ignore
  const some = fc.array(fc.oneof(...known, odd), { minLength: 1, maxLength: 3 }).map((pairs) => `?${pairs.join('&')}`);
  return fc.oneof({ weight: 1, arbitrary: none }, { weight: 4, arbitrary: some });
}

/** So few ids that some come twice, and that corrections find what they replace. */
const IDS = 400;

/** Events of every kind, as the published schema has them, mostly in streams that are there, and some about each other. */
function pushes(): fc.Arbitrary<unknown> {
  const schema = eventJsonSchema() as Schema;
  const earlier = fc.oneof(
    fc.nat({ max: IDS }).map((n) => `e.${n}`),
    fc.constantFrom(...opened().map(({ id }) => id)),
  );
  const drawn = fc.tuple(
    fromSchema(schema, schema),
    fc.constantFrom('ash', 'birch', 'rowan', '1'),
    fc.nat({ max: IDS }),
    earlier,
  );
  const tidy = drawn.map(([event, name, n, replaces]) => {
    const { kind, body, ...rest } = event as {
      readonly kind: string;
      readonly body: Readonly<Record<string, unknown>>;
    };
    const [stream = 'batch'] = ALL_KINDS.streamsOf(kind);
    const about = 'replaces' in body ? { ...body, replaces } : body;
    return { ...rest, kind, body: about, id: `e.${n}`, version: 1, streamId: `${stream}:${name}` };
  });
  return fc.array(tidy, { minLength: 1, maxLength: 3 }).map((events) => ({ events }));
}

/** Requests of every route of the description, and of paths that there are not, in any method. */
export function attacks(input: {
  readonly described: Described;
  readonly target: Pick<Target, 'deviceIds'>;
  readonly examples: ReadonlyMap<string, unknown>;
}): fc.Arbitrary<Attack> {
  const { described, target, examples } = input;
  const parts = pathParts(target);
  const ownBodies: Readonly<Record<string, fc.Arbitrary<unknown>>> = { 'post /api/events': pushes() };
  const routes = Object.entries(described.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => {
      const key = `${method} ${path}`;
      const schema = operation.requestBody?.content['application/json']?.schema;
      const drawn = schema === undefined ? undefined : (ownBodies[key] ?? fromSchema(schema, described));
      const example = examples.get(path);
      const valid = drawn !== undefined && example !== undefined ? fc.oneof(fc.constant(example), drawn) : drawn;
      const body: fc.Arbitrary<string | undefined> = valid === undefined ? fc.constant(undefined) : fc.oneof({ weight: 12, arbitrary: sentOf(valid) }, { weight: 1, arbitrary: noJson }); // prettier-ignore
      const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name ?? '');
      const filled = fc.tuple(...names.map((name) => parts[name] ?? missing(key, name))).map((values) => values.reduce((so, value, i) => so.replace(`{${names[i] ?? ''}}`, () => value), path)); // prettier-ignore
      return {
        weight: WEIGHTS[key] ?? (path.startsWith('/api/calc/') ? SUM_WEIGHT : OTHER_WEIGHT),
        arbitrary: fc.tuple(filled, query(operation.parameters, described), body, asker).map(([at, asked, text, by]): Attack => ({ route: key, method: method.toUpperCase(), path: `${at}${asked}`, headers: text === undefined ? {} : JSON_HEADERS, ...(text === undefined ? {} : { body: text }), asker: by })), // prettier-ignore
      };
    }),
  );
  const anyPath = fc.oneof(hostilePart.map((part) => `/api/${part}`), fc.constantFrom(...Object.keys(described.paths)), hostilePart.map((part) => `/api/calc/${part}`)); // prettier-ignore
  const strange = fc.record({
    route: fc.constant(''),
    method: fc.constantFrom('HEAD', 'OPTIONS', 'PUT', 'DELETE', 'PATCH', 'POST', 'GET', 'PROPFIND'),
    path: anyPath,
    headers: fc.constantFrom<Record<string, string>>({}, JSON_HEADERS, { 'content-type': 'text/plain' }, { 'content-type': 'application/json; charset=utf-16' }, { host: 'larkenshaw.invalid' }, { origin: 'null' }, { 'sec-fetch-site': 'cross-site' }, { cookie: 'vatside=__proto__' }, { authorization: `Bearer ${'x'.repeat(4000)}` }, { accept: 'text/html', 'x-forwarded-for': '127.0.0.1' }), // prettier-ignore
    asker,
  });
  return fc.oneof(...routes, { weight: 8, arbitrary: strange });
}

function missing(route: string, name: string): never {
  throw new Error(`${route}: nothing says what to put for {${name}}; say it in tests/faults/attack/requests.ts.`);
}
