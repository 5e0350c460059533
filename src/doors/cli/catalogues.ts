/** The words of the house, read from disk. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { PLAIN_BOOK, type Book } from '../../exchange/book.ts';
import { bookPages, openBook } from '../../exchange/open-book.ts';
import { cataloguesOf, openWords, sayFrom, type Language, type Say } from '../../exchange/words.ts';

export const ROOT = fileURLToPath(new URL('../../../', import.meta.url));

/** A speaking function over the catalogues of the checkout. */
export function sayIn(language: Language): Say {
  const catalogues = Object.fromEntries(cataloguesOf(language).map((name) => [name, filesOf(join(ROOT, 'words', name))])); // prettier-ignore
  return sayFrom(openWords({ language, catalogues }), bookIn(language));
}

/** What makes and sums say in a language. */
export function bookIn(language: Language): Book {
  if (language === 'en-GB') return PLAIN_BOOK;
  return openBook({ language, ...bookPages(filesOf(join(ROOT, 'words', language, 'sentences'))) });
}

function filesOf(folder: string): Record<string, object> {
  return Object.fromEntries(
    readdirSync(folder)
      .filter((name) => name.endsWith('.json'))
      .map((name) => [name.slice(0, -'.json'.length), readCatalogue(join(folder, name))]),
  );
}

function readCatalogue(path: string): object {
  const words: unknown = JSON.parse(readFileSync(path, 'utf8'));
  return typeof words === 'object' && words !== null ? words : {};
}
