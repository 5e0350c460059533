import fc from 'fast-check';
import { hostileTexts } from '../../hostile-texts.ts';

/** A valid JSON value with one thing wrong in it, as text: some of what is sent here no object can hold. */

const HUGE = 'x'.repeat(300_000);
const DEEP_LIST = `${'['.repeat(100_000)}${']'.repeat(100_000)}`;

/** JSON texts to stand in the place of a value. */
export const hostileValue: fc.Arbitrary<string> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.constantFrom(
      'null', 'true', '{}', '[]', '""', '0', '-0', '-1', '1e309', '-1e309', '1e308', '5e-324', '0.1', '1.5', '9007199254740993',
      '8640000000000000', '8640000000000001', '-8640000000000000', '9007199254740991', '-9007199254740991', '253402300800000',
      '"12"', '"NaN"', '"1e9"', '"\\ud800"', '"\\udc00x"', '"\\u0000"', '"a\\u0000b"', '"\\u202e"', '"\\ufeff"',
      '"0000-00-00"', '"0001-01-01"', '"9999-12-31"', '"9999-99-99"', '"2026-02-30"', '"-271821-04-20T00:00:00Z"', '"+275760-09-13T00:00:00.000Z"',
      '"batch:../../x"', '"batch:%2e%2e%2f"', '"batch:a/b"', '"piece:\\u0000"', '"..\\\\..\\\\x"', '"/etc/passwd"',
      '{"__proto__":{"polluted":1}}', '{"constructor":{"prototype":{"polluted":1}}}', '{"toString":1}', '{"then":1}', '[[[[[[[[]]]]]]]]', '{"length":1e9}',
      '[null]', '[1,2,3]', '[{"__proto__":[]}]', 'NaN', 'undefined', "'x'", '01', '+1', '.5', '1.', '0x10', '"\\x41"', '"\n"',
    ), // prettier-ignore
  },
  { weight: 2, arbitrary: fc.constantFrom(...hostileTexts()).map((text) => JSON.stringify(text)) },
  { weight: 2, arbitrary: fc.string({ unit: 'binary', maxLength: 40 }).map((text) => JSON.stringify(text)) },
  { weight: 2, arbitrary: fc.double().map((value) => String(value)) },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 130 }).map((deep) => '['.repeat(deep) + ']'.repeat(deep)) },
);

/** As rare as they are slow: 300 kB of text, 100,000 lists in each other. */
const heavyValue = fc.constantFrom(JSON.stringify(HUGE), DEEP_LIST, JSON.stringify('\u0000'.repeat(60_000)));

const extraName = fc.oneof(
  fc.constantFrom('__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', '', 'extra', 'then', '\u0000', '$ref', 'toJSON', 'valueOf'), // prettier-ignore
  fc.string({ maxLength: 10 }),
);

type Change =
  | { readonly what: 'replaced'; readonly by: string }
  | { readonly what: 'extra'; readonly name: string; readonly by: string }
  | { readonly what: 'dropped' }
  | { readonly what: 'doubled' };

const change: fc.Arbitrary<Change> = fc.oneof(
  { weight: 40, arbitrary: hostileValue.map((by): Change => ({ what: 'replaced', by })) },
  { weight: 1, arbitrary: heavyValue.map((by): Change => ({ what: 'replaced', by })) },
  { weight: 16, arbitrary: fc.tuple(extraName, hostileValue).map(([name, by]): Change => ({ what: 'extra', name, by })) }, // prettier-ignore
  { weight: 6, arbitrary: fc.constant<Change>({ what: 'dropped' }) },
  { weight: 3, arbitrary: fc.constant<Change>({ what: 'doubled' }) },
);

/** JSON text of a value with one place in it changed; which one, `seat` says. */
export function spoilt(value: unknown, input: { readonly seat: number; readonly change: Change }): string {
  const places = count(value);
  let at = input.seat % places;
  const written = (node: unknown): string => {
    const isHere = at-- === 0;
    const { change: how } = input;
    if (isHere && how.what === 'replaced') return how.by;
    if (Array.isArray(node)) {
      const items = node.map(written);
      return `[${(isHere && how.what === 'doubled' ? [...items, ...items] : isHere && how.what === 'dropped' ? items.slice(1) : items).join(',')}]`; // prettier-ignore
    }
    if (typeof node !== 'object' || node === null) return JSON.stringify(node) ?? 'null';
    const fields = Object.entries(node).filter(([, inner]) => inner !== undefined).map(([name, inner]) => `${JSON.stringify(name)}:${written(inner)}`); // prettier-ignore
    if (isHere && how.what === 'extra') fields.push(`${JSON.stringify(how.name)}:${how.by}`);
    if (isHere && how.what === 'dropped') fields.splice(input.seat % Math.max(1, fields.length), 1);
    if (isHere && how.what === 'doubled' && fields[0] !== undefined) fields.push(fields[0].replace(/:.*$/s, ':null'));
    return `{${fields.join(',')}}`;
  };
  return written(value);
}

function count(node: unknown): number {
  if (typeof node !== 'object' || node === null) return 1;
  return Object.values(node).filter((inner) => inner !== undefined).reduce((sum: number, inner) => sum + count(inner), 1); // prettier-ignore
}

/** What of a valid value is sent: itself, or with one thing wrong; now and then with two. */
export function sentOf(valid: fc.Arbitrary<unknown>): fc.Arbitrary<string> {
  const one = fc.tuple(valid, fc.nat({ max: 10_000 }), change).map(([value, seat, how]) => spoilt(value, { seat, change: how })); // prettier-ignore
  const two = fc.tuple(one, fc.nat({ max: 10_000 }), change).map(([text, seat, how]) => twice(text, { seat, change: how })); // prettier-ignore
  const none = valid.map((value) => JSON.stringify(value) ?? 'null');
  return fc.oneof({ weight: 2, arbitrary: none }, { weight: 12, arbitrary: one }, { weight: 2, arbitrary: two });
}

function twice(text: string, input: { readonly seat: number; readonly change: Change }): string {
  if (text.length > 10_000) return text;
  try {
    return spoilt(JSON.parse(text), input);
  } catch {
    return text;
  }
}

/** Bodies that are no JSON value of any kind. */
export const noJson: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom('', '{', '[[[[', 'null', '"', '\u0000', '\uFEFF{}', '{}{}', '['.repeat(100_000), '{"a":'.repeat(50_000), DEEP_LIST), // prettier-ignore
  fc.string({ unit: 'binary', maxLength: 200 }),
  fc.json({ maxDepth: 6 }),
);

/** One part of an address: half characters become whole ones, since no client can send them. */
export const inAddress = (text: string): string =>
  encodeURIComponent(new TextDecoder().decode(new TextEncoder().encode(text)));

/** Parts of a path as somebody writes them who wants out of the folder; some are not encoded at all. */
export const hostilePart: fc.Arbitrary<string> = fc.oneof(
  fc.constantFrom('..%2f..%2fetc%2fpasswd', '%2e%2e', '..%5c..%5cx', '%252e%252e%252f', '%', '%ff', '%00', '%c0%ae%c0%ae', '.', '...', '%2f', 'a%2fb', 'a;b', 'a%0d%0ab', '__proto__', 'constructor', 'x'.repeat(9000), '%F0%9F%A7%80', '%ED%A0%80', '*', ':id', '{id}', '%E2%80%AE'), // prettier-ignore
  fc.string({ unit: 'binary', minLength: 1, maxLength: 80 }).map(inAddress),
  fc.constantFrom(...hostileTexts()).map(inAddress),
);
