import { readFileSync } from 'node:fs';
import { openWords, sayFrom, type Say } from '../src/exchange/words.ts';
import { openWriter } from '../src/exchange/written.ts';

type Writer = ReturnType<typeof openWriter>;

const file = (language: string, name: string): object => JSON.parse(readFileSync(new URL(`../words/${language}/${name}.json`, import.meta.url), 'utf8')) as object; // prettier-ignore

/** One reader of UK English in litres, with the catalogues that a test asks for. */
export function reader(...catalogues: readonly string[]): { readonly say: Say; readonly write: Writer } {
  const held = Object.fromEntries(catalogues.map((name) => [name, file('en-GB', name)]));
  return {
    say: sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': held } })),
    write: openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' }),
  };
}

/** Without the spaces that hold numbers to their units. */
export const plain = (text: string): string => text.replace(/[\u202F\u00A0]/g, ' ');

const PLURAL = /_(?:zero|one|many|other)$/;

/** Every key of a catalogue as `a.b.c`, plural forms counted once. */
export function keysOf(language: string, name: string): string[] {
  const walk = (node: object, path: string): string[] =>
    Object.entries(node).flatMap(([key, value]: [string, unknown]) => {
      const at = path === '' ? key : `${path}.${key}`;
      return typeof value === 'object' && value !== null ? walk(value, at) : [at.replace(PLURAL, '')];
    });
  return [...new Set(walk(file(language, name), ''))].sort();
}
