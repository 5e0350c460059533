import type { i18n } from 'i18next';
import { PLAIN_BOOK, type Book } from '../../../exchange/book.ts';
import { cataloguesOf, LANGUAGES, openWords, type Language } from '../../../exchange/words.ts';
import type { Speech } from './speech/speech.ts';

/** What the page waits for, of each language only once it is spoken. */
const speeches: Readonly<Record<Language, () => Promise<{ readonly SPEECH: Speech }>>> = {
  'en-GB': () => import('./speech/en-gb.ts'),
  'en-US': () => import('./speech/en-us.ts'),
  es: () => import('./speech/es.ts'),
};

/** The catalogues of this checkout as the page holds them. */
export interface WordShelf {
  /** The words of a language; whatever is fetched later is added to them. */
  readonly open: (language: Language) => i18n;
  /** The book of a language; the plain one until it is here. */
  readonly book: (language: Language) => Book;
  /** Fetches the first words of a language, and the others where they were asked for already. */
  readonly begin: (language: Language) => Promise<void>;
  /** Fetches what is not here yet; every screen but the vat waits for it. Asked again after a failure, it tries again. */
  readonly fill: () => Promise<void>;
}

const placeOf = (path: string): { readonly language: Language; readonly name: string } | null => {
  const [, spoken, name] = /\/([a-zA-Z-]+)\/([a-z-]+)\.json$/.exec(path) ?? [];
  const language = LANGUAGES.find((one) => one === spoken);
  return language === undefined || name === undefined ? null : { language, name };
};

/** Opens an empty shelf. */
function openShelf(): WordShelf {
  const held: Partial<Record<Language, Record<string, object>>> = {};
  const opened = new Map<Language, i18n>();
  const books = new Map<Language, Book>();
  const coming = new Map<string, Promise<void>>();
  const add = (path: string, words: object): void => {
    const place = placeOf(path);
    if (place === null) return;
    (held[place.language] ??= {})[place.name] = words;
    for (const one of opened.values()) one.addResourceBundle(place.language, place.name, { ...words });
  };
  const once = async (name: string, fetched: () => Promise<void>): Promise<void> => {
    const asked = coming.get(name) ?? fetched();
    coming.set(name, asked);
    try {
      await asked;
    } catch (error) {
      coming.delete(name);
      throw error;
    }
  };
  const speak = (language: Language): Promise<void> =>
    once(language, async () => {
      const { first, book } = (await speeches[language]()).SPEECH;
      books.set(language, book);
      for (const [path, words] of Object.entries(first)) add(path, words);
    });
  let isAsked = false;
  const fill = async (): Promise<void> => {
    isAsked = true;
    const { others } = await import('./other-catalogues.ts');
    const own = Object.entries(others).filter(([path]) => books.has(placeOf(path)?.language ?? 'en-GB'));
    await Promise.all(own.map(([path, load]) => once(path, async () => add(path, await load()))));
  };
  return {
    open(language) {
      const words = opened.get(language) ?? openWords({ language, catalogues: held });
      opened.set(language, words);
      return words;
    },
    book: (language) => books.get(language) ?? PLAIN_BOOK,
    async begin(language) {
      await Promise.all(cataloguesOf(language).map(speak));
      if (isAsked) await fill();
    },
    fill,
  };
}

/** The one shelf of this page. */
export const wordShelf = openShelf();

/** A screen with the words it says: loads both side by side. */
export async function worded<T>(load: () => Promise<T>): Promise<T> {
  const [screen] = await Promise.all([load(), wordShelf.fill()]);
  return screen;
}
