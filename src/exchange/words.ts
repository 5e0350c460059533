import { createInstance, type i18n, type Resource } from 'i18next';
import { PLAIN_BOOK, type Book } from './book.ts';

/** The catalogues. US English holds only what differs and falls back to UK English; Spanish is complete by itself. */
export const LANGUAGES = ['en-GB', 'en-US', 'es'] as const;
export type Language = (typeof LANGUAGES)[number];

/** The catalogues that a language needs: its own, and the one it falls back to. */
export const cataloguesOf = (language: Language): readonly Language[] =>
  language === 'en-US' ? ['en-GB', 'en-US'] : [language];

/** The catalogue nearest to a locale as systems name it (`es-MX`, `es_ES.UTF-8`, `en_US`); UK English where none is near. */
export function nearestLanguage(locale: string): Language {
  const [spoken, place] = locale.toLowerCase().split(/[-_.@]/);
  return spoken === 'es' ? 'es' : spoken === 'en' && place === 'us' ? 'en-US' : 'en-GB';
}

/** Languages that are written from right to left, by their first two letters. */
const FROM_THE_RIGHT = new Set(['ar', 'fa', 'he', 'ur']);

/** Which way a page of this language runs. */
export const directionOf = (language: string): 'ltr' | 'rtl' =>
  FROM_THE_RIGHT.has(language.slice(0, 2)) ? 'rtl' : 'ltr';

/** Catalogue files by name (`plan`, `vat`, `findings`, …) for each language, as a door read them. */
export type Catalogues = Readonly<Partial<Record<Language, Readonly<Record<string, object>>>>>;

/** A sentence from the catalogues: `say('plan:start.at', { time: '09:05' })`. Plurals by `count`. */
export interface Say {
  (key: string, values?: Readonly<Record<string, string | number>>): string;
  /** What a sentence of a make or a sum is called in the reader's language; left out where that is UK English. */
  readonly tell?: Book['tell'];
}

/** A sentence that a make or a sum carries, in the words of whoever is spoken to. */
export const told = (say: Say, text: string): string => say.tell?.(text) ?? text;

/**
 * Opens the catalogues for one reader. A key that is missing comes back as the key itself, so that nothing is blank;
 * the word test finds every such key before a person does.
 * @param input.language which catalogue speaks first
 * @param input.catalogues the files, by language and name; doors read them (bundled on the web, from disk elsewhere)
 * @returns an i18next instance, ready to use at once
 */
export function openWords(input: { readonly language: Language; readonly catalogues: Catalogues }): i18n {
  const words = createInstance();
  void words.init({
    lng: input.language,
    fallbackLng: 'en-GB',
    supportedLngs: [...LANGUAGES],
    resources: resourcesOf(input.catalogues),
    ns: [...new Set(Object.values(input.catalogues).flatMap((files) => Object.keys(files)))],
    defaultNS: 'app',
    initAsync: false,
    returnNull: false,
    interpolation: { escapeValue: false },
  });
  return words;
}

/** i18next writes into what it is given, so it gets records of its own. */
function resourcesOf(catalogues: Catalogues): Resource {
  return Object.fromEntries(
    Object.entries(catalogues).map(([language, files]) => [
      language,
      Object.fromEntries(Object.entries(files).map(([name, words]) => [name, { ...words }])),
    ]),
  );
}

/** Sentences kept of those said; a card says a hundred, and a new one whenever a number in it changes. */
const MOST_KEPT = 2000;

/**
 * The plain speaking function of opened catalogues, for view models and the command line. What was said before is not put
 * together again: a card says nearly the same each second.
 */
export function sayFrom(words: i18n, book: Book = PLAIN_BOOK): Say {
  const said = new Map<string, string>();
  words.store.on('added', () => said.clear());
  const say: Say = (key, values) => {
    const asked = values === undefined ? key : `${key} ${JSON.stringify(values)}`;
    const known = said.get(asked);
    if (known !== undefined) return known;
    if (said.size >= MOST_KEPT) said.clear();
    const text = words.t(key, values === undefined ? {} : named(values, book));
    said.set(asked, text);
    return text;
  };
  return Object.assign(say, book === PLAIN_BOOK ? {} : { tell: book.tell });
}

/** Names of steps and makes that are put into a sentence are told as the book has them. */
function named(values: Readonly<Record<string, string | number>>, book: Book): Record<string, string | number> {
  if (book === PLAIN_BOOK) return { ...values };
  return Object.fromEntries(Object.entries(values).map(([name, value]) => [name, typeof value === 'string' ? book.name(value) : value])); // prettier-ignore
}
