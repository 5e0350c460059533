import { EMPTY_BOOK, type Book } from './book.ts';

/** Raised when the book changes its form; a book of another form is begun anew. */
const FORM = 1;
const keyOf = (streamId: string): string => `vatside.bell.${streamId}`;

/** What the bell of a batch remembered here before a reload. */
export function keptBook(streamId: string): Book {
  try {
    const kept = JSON.parse(localStorage.getItem(keyOf(streamId)) ?? 'null') as { form?: number; book?: Book } | null;
    return kept?.form === FORM && kept.book !== undefined ? kept.book : EMPTY_BOOK;
  } catch {
    return EMPTY_BOOK;
  }
}

/** Keeps it; a full or closed storage only means that a reload finds less. */
export function keepBook(streamId: string, book: Book): void {
  try {
    localStorage.setItem(keyOf(streamId), JSON.stringify({ form: FORM, book }));
  } catch (error) {
    console.warn('The bell could not write down what it called.', error);
  }
}
