/** Opening a book: its pages put together and looked up. */
import type { MakeFacts } from '../make/make-facts.ts';
import type { Make } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';
import { spokenFacts, spokenMake, spokenPlan } from '../make/spoken.ts';
import type { Book } from './book.ts';
import type { Language } from './words.ts';

/** Sentences by their English, and words that are only spelt otherwise. */
export interface BookPages {
  /** `Stir for {0} min.` holds places for what is put in, `{#0} to {#1}` for figures alone. */
  readonly sentences: Readonly<Record<string, string>>;
  /** Whole words, in small letters: `pasteurised` to `pasteurized`. */
  readonly spelling: Readonly<Record<string, string>>;
}

/**
 * Puts the files of a language together. A file named `spelling` holds words, every other one sentences.
 * @param files by path, as a door read them: each an object of texts
 */
export function bookPages(files: Readonly<Record<string, unknown>>): BookPages {
  const texts = (wanted: (path: string) => boolean): Record<string, string> =>
    Object.fromEntries(
      Object.entries(files)
        .filter(([path]) => wanted(path))
        .flatMap(([, page]) => Object.entries(typeof page === 'object' && page !== null ? page : {}))
        .flatMap(([english, said]: [string, unknown]) => (typeof said === 'string' ? [[english, said]] : [])),
    );
  const isSpelling = (path: string): boolean => /(^|\/)spelling(\.json)?$/.test(path);
  return { sentences: texts((path) => !isSpelling(path)), spelling: texts(isSpelling) };
}

interface Form {
  readonly pattern: RegExp;
  readonly said: string;
  /** Letters of its own. */
  readonly words: number;
}

/**
 * Opens a book. What stands in no page of it is told as it is.
 * @param input.language decides the decimal sign of figures that are put in
 */
export function openBook({ language, sentences, spelling }: BookPages & { readonly language: Language }): Book {
  const decimal = new Intl.NumberFormat(language).format(1.5).slice(1, 2);
  const forms = Object.entries(sentences).flatMap(([english, said]) => (PLACE.test(english) ? [formOf(english, said)] : [])); // prettier-ignore
  // The more of its own words a form has, the surer it is meant.
  forms.sort((a, b) => b.words - a.words);
  const told = new Map<string, string>();
  const spelt = (text: string): string =>
    Object.keys(spelling).length === 0 ? text : text.replaceAll(/\p{L}+/gu, (word) => respelt(word, spelling));
  const find = (text: string): string => {
    const whole = sentences[text];
    if (whole !== undefined) return whole;
    for (const { pattern, said } of forms) {
      const found = pattern.exec(text);
      if (found !== null) return said.replaceAll(/\{#?(\d)\}/g, (_all, place: string) => part(found[Number(place) + 1] ?? '')); // prettier-ignore
    }
    return spelt(text);
  };
  const part = (text: string): string => (FIGURE.test(text) ? text.replace('.', decimal) : tell(text));
  const tell = (text: string): string => {
    const known = told.get(text);
    if (known !== undefined) return known;
    const said = find(text);
    if (told.size >= MOST_KEPT) told.clear();
    told.set(text, said);
    return said;
  };
  const facts = new WeakMap<MakeFacts, MakeFacts>();
  const makes = new WeakMap<Make, Make>();
  const plans = new WeakMap<Plan, Plan>();
  return {
    tell,
    name: (text) => sentences[text] ?? text,
    facts: (one) => kept(facts, one, () => spokenFacts(one, tell)),
    make: (make) => kept(makes, make, () => spokenMake(make, tell)),
    plan: (plan) => kept(plans, plan, () => spokenPlan(plan, tell)),
  };
}

function kept<T extends object>(known: WeakMap<T, T>, one: T, made: () => T): T {
  const said = known.get(one) ?? made();
  known.set(one, said);
  return said;
}

const MOST_KEPT = 2000; // a card says a hundred; our own choice
const PLACE = /\{#?\d\}/;
const FIGURE = /^[-\u2212]?\d+(\.\d+)?$/;

function formOf(english: string, said: string): Form {
  const source = english
    .split(PLACES)
    .map((piece) =>
      piece.startsWith('{#')
        ? '([\\d.]+)'
        : PLACE.test(piece)
          ? '(.*?)'
          : piece.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&'),
    )
    .join('');
  return {
    pattern: new RegExp(`^${source}$`, 's'),
    said,
    words: english.replaceAll(new RegExp(PLACES, 'g'), '').length,
  };
}
const PLACES = /(\{#?\d\})/;

function respelt(word: string, spelling: Readonly<Record<string, string>>): string {
  const said = spelling[word.toLowerCase()];
  if (said === undefined) return word;
  return word[0] === word[0]?.toUpperCase() ? said[0]?.toUpperCase() + said.slice(1) : said;
}
