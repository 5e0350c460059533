import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bookPages, openBook } from '../src/exchange/open-book.ts';
import { directionOf, nearestLanguage, openWords, sayFrom } from '../src/exchange/words.ts';
import { openWriter } from '../src/exchange/written.ts';
import { parseMake, type Make } from '../src/make/make.ts';
import { spokenMake } from '../src/make/spoken.ts';

/** Every word of the house in every language: nothing missing, nothing left over, no figure lost on the way. */
type Tree = { readonly [key: string]: string | Tree };
const tree = (path: string): Tree => JSON.parse(readFileSync(path, 'utf8')) as Tree;
const read = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const namesIn = (folder: string): string[] => readdirSync(folder).filter((file) => file.endsWith('.json')).map((file) => file.replace('.json', '')); // prettier-ignore
const flat = (words: Tree, prefix = ''): [string, string][] =>
  Object.entries(words).flatMap(([key, value]) => (typeof value === 'string' ? [[prefix + key, value] as [string, string]] : flat(value, `${prefix}${key}.`))); // prettier-ignore
const catalogue = (language: string, name: string): Map<string, string> =>
  new Map(flat(tree(`words/${language}/${name}.json`)));
/** `{{name}}` with its form, and the blanks `{milkL}` of the Bench's sentences. */
const places = (text: string): string[] => [...text.matchAll(/\{\{[^}]*\}\}|\{[^{}]+\}/g)].map(([place]) => place.replaceAll(/\s/g, '')).sort(); // prettier-ignore
/** One of a thing may be said without its number. */
const puts = (key: string, text: string): string[] => places(text).filter((place) => !key.endsWith('_one') || place !== '{{count}}'); // prettier-ignore
/** The figures of a sentence, whichever decimal sign they are written with. */
const figures = (text: string): string[] => [...text.replaceAll(/\{[^}]*\}+/g, '').matchAll(/\d+(?:[.,]\d+)?/g)].map(([figure]) => figure.replace(',', '.')).sort(); // prettier-ignore

const british = namesIn('words/en-GB');
const pages = (language: string): Record<string, unknown> =>
  Object.fromEntries(namesIn(`words/${language}/sentences`).map((name) => [name, read(`words/${language}/sentences/${name}.json`)])); // prettier-ignore
const { sentences } = bookPages(pages('es'));
const spanish = openBook({ language: 'es', ...bookPages(pages('es')) });
const makes: readonly Make[] = namesIn('makes').map((name) => parseMake(read(`makes/${name}.json`)));

/** All that a make says, as it is written. */
function saidBy(make: Make): ReadonlySet<string> {
  const said = new Set<string>();
  spokenMake(make, (text) => {
    said.add(text);
    return text;
  });
  return said;
}

describe('the Spanish catalogue', () => {
  it('has every place of the UK English one, and no other', () => {
    expect(namesIn('words/es')).toEqual(british);
    // Spanish has a third plural, for millions; where nobody counts so far, nobody needs it.
    const own = (language: string, name: string): string[] => [...catalogue(language, name).keys()].filter((key) => !key.endsWith('_many')).sort(); // prettier-ignore
    for (const name of british) expect(own('es', name), name).toEqual(own('en-GB', name));
  });

  it('puts the same figures and names into each sentence', () => {
    let looked = 0;
    for (const name of british) {
      const english = catalogue('en-GB', name);
      for (const [key, text] of catalogue('es', name)) {
        expect(puts(key, text), `${name}:${key}`).toEqual(
          puts(key, english.get(key.replace(/_many$/, '_other')) ?? ''),
        );
        looked += 1;
      }
    }
    expect(looked).toBeGreaterThan(2500);
  });

  it('keeps every figure: degrees, hours and percents of a caution are not lost on the way', () => {
    for (const name of british) {
      const english = catalogue('en-GB', name);
      for (const [key, text] of catalogue('es', name)) {
        if (/_(one|many|other)$/.test(key)) continue;
        expect(figures(text), `${name}:${key} ${text}`).toEqual(figures(english.get(key) ?? ''));
      }
    }
  });

  it('says nothing in English', () => {
    const leftOver = british.flatMap((name) => {
      const english = catalogue('en-GB', name);
      return [...catalogue('es', name)].filter(([key, text]) => text === english.get(key) && /[a-z]{4}/i.test(text.replaceAll(/\{\{[^}]*\}\}/g, ''))).map(([key, text]) => `${name}:${key} ${text}`); // prettier-ignore
    });
    // Names, and what the languages of the list are called in themselves.
    const same =
      /^(app:name|app:titled|app:device\.languages|bench:.*(Celsius|Fahrenheit|cottage)|labels:paper|brine:.*baume)/;
    expect(leftOver.filter((one) => !same.test(one))).toEqual([]);
  });

  it('uses no sign that the two typefaces lack, and has no doubled space', () => {
    const all = [...british.flatMap((name) => [...catalogue('es', name)]), ...Object.entries(sentences)];
    expect(all.filter(([, text]) => /[≤≥≈→‰µ↓↑′″]|\S {2,}\S/.test(text))).toEqual([]);
    // A question has both its signs.
    expect(all.filter(([, text]) => (text.match(/¿/g) ?? []).length !== (text.match(/\?/g) ?? []).length)).toEqual([]);
  });

  it('speaks by itself: nothing falls back to English', () => {
    const catalogues = { es: Object.fromEntries(british.map((name) => [name, tree(`words/es/${name}.json`)])) };
    const say = sayFrom(openWords({ language: 'es', catalogues }), spanish);
    expect([1, 5].map((count) => say('plan:makes.keeps', { count }))).toEqual(['dura 1 día', 'dura 5 días']);
    expect(say('vat:main.begin', { step: 'Cut the curd' })).toBe('Empezar: Cortar la cuajada');
  });
});

describe('US English', () => {
  it('only holds places that UK English has, with the same figures and names', () => {
    for (const name of namesIn('words/en-US')) {
      const english = catalogue('en-GB', name);
      for (const [key, text] of catalogue('en-US', name)) expect(places(text), `${name}:${key}`).toEqual(places(english.get(key) ?? 'not there')); // prettier-ignore
    }
  });

  it('spells what a make says its own way, and leaves the rest', () => {
    const american = openBook({ language: 'en-US', ...bookPages(pages('en-US')) });
    expect(american.tell('Pasteurise it first, or buy pasteurised milk.')).toBe('Pasteurize it first, or buy pasteurized milk.'); // prettier-ignore
    const all = makes.flatMap((make) => [...saidBy(make)]).map(american.tell);
    expect(
      all.filter((text) => /(ised|urise|isation|itres?|ibres?|colour|flavour|mould|yoghurt)\b/.test(text)),
    ).toEqual([]);
  });
});

describe('what a make says', () => {
  it.each(makes.map((make) => [make.id, make] as const))('%s, it says in Spanish too', (_id, make) => {
    const said = saidBy(make);
    expect(said.size).toBeGreaterThan(60);
    expect([...said].filter((text) => sentences[text] === undefined)).toEqual([]);
  });

  it('keeps its figures in Spanish, and fits the card as the English does', () => {
    for (const make of makes) {
      for (const text of saidBy(make)) expect(figures(spanish.tell(text)), text).toEqual(figures(text));
      for (const { name, how, done } of spokenMake(make, spanish.tell).steps) {
        expect(name.length, name).toBeLessThanOrEqual(40);
        expect(how.length, how).toBeLessThanOrEqual(160);
        expect(done.length, done).toBeLessThanOrEqual(28);
      }
    }
  });

  it('has the same figures in every sentence of the book', () => {
    const plain = Object.entries(sentences).filter(([english]) => !english.includes('{'));
    expect(plain.length).toBeGreaterThan(400);
    for (const [english, said] of plain) expect(figures(said), english).toEqual(figures(english));
  });

  it('is the same whichever file it is looked up in, and is still said by some make', () => {
    const files = Object.entries(pages('es')) as [string, Record<string, string>][];
    for (const [file, page] of files) for (const [english, said] of Object.entries(page)) expect(said, `${file}: ${english}`).toBe(sentences[english]); // prettier-ignore
    const all = new Set(makes.flatMap((make) => [...saidBy(make)]));
    // While a make is still to come, what it shares with others may wait for it too.
    const isComing = files.some(([file]) => !['shared', 'code'].includes(file) && !makes.some(({ id }) => id === file));
    const ofMakes = files.filter(([file]) => (file === 'shared' && !isComing) || makes.some(({ id }) => id === file));
    expect(ofMakes.flatMap(([, page]) => Object.keys(page)).filter((english) => !all.has(english))).toEqual([]);
  });

  it('stays as it was written where somebody wrote it otherwise', () => {
    const make = makes.find(({ id }) => id === 'stretched-ball');
    if (make === undefined) throw new Error('no make');
    const changed = { ...make, name: 'My own ball' };
    const spoken = spanish.make(changed);
    expect(spoken.name).toBe('My own ball');
    expect(spoken.steps[0]?.name).toBe('Calentar la leche');
    expect(spoken.steps.map(({ id, set }) => [id, set])).toEqual(make.steps.map(({ id, set }) => [id, set]));
    expect(spanish.make(changed)).toBe(spoken);
  });
});

describe('a reader of Spanish', () => {
  it('reads a decimal comma, a day of 24 hours and days by their Spanish names', () => {
    const write = openWriter({ language: 'es', units: 'metric', timeZone: 'UTC' });
    expect(write.kilograms(1.5).text).toBe('1,50\u202Fkg');
    expect(write.clock(Date.UTC(2026, 10, 29, 14, 5))).toBe('14:05');
    expect(write.day(Date.UTC(2026, 10, 29))).toBe('domingo, 29 de noviembre');
  });

  it('is found from what the machine is called', () => {
    expect(['es-MX', 'es_ES.UTF-8', 'en-US', 'en_US.UTF-8', 'en-IE', 'C', ''].map(nearestLanguage)).toEqual(['es', 'es', 'en-US', 'en-US', 'en-GB', 'en-GB', 'en-GB']); // prettier-ignore
    expect(['es', 'en-US', 'ar', 'he-IL'].map(directionOf)).toEqual(['ltr', 'ltr', 'rtl', 'rtl']);
  });
});
