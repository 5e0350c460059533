import { EMPTY_BOOK, type Book } from './book.ts';

/** Raised when the book changes its form; a book of another form is begun anew. */
const FORM = 1;
const keyOf = (streamId: string): string => `vatside.bell.${streamId}`;

/** What the bell of one batch remembers on this device, through sleep, reload and a killed tab. */
export interface BookStore {
  readonly read: () => Book;
  /** Writes it down, and tells all who watch; whoever shows this very book already need not be told. */
  readonly write: (book: Book, told?: 'known') => void;
  readonly subscribe: (listener: () => void) => () => void;
}

const stores = new Map<string, BookStore>();

/** The one book of this batch in this page. */
export function bookStore(streamId: string): BookStore {
  const known = stores.get(streamId) ?? opened(streamId);
  stores.set(streamId, known);
  return known;
}

function opened(streamId: string): BookStore {
  const listeners = new Set<() => void>();
  let book = kept(streamId);
  // What another tab of this device has called is called.
  window.addEventListener('storage', ({ key }) => {
    if (key !== keyOf(streamId)) return;
    book = kept(streamId);
    for (const listener of listeners) listener();
  });
  return {
    read: () => book,
    write(next, told) {
      if (next === book) return;
      book = next;
      try {
        localStorage.setItem(keyOf(streamId), JSON.stringify({ form: FORM, book }));
      } catch (error) {
        // A full or closed storage only means that a reload finds less.
        console.warn('The bell could not write down what it called.', error);
      }
      if (told === undefined) for (const listener of listeners) listener();
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

function kept(streamId: string): Book {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(keyOf(streamId)) ?? 'null');
    return isKept(found) ? found.book : EMPTY_BOOK;
  } catch {
    return EMPTY_BOOK;
  }
}

/** Written by this form of the program, and therefore a book. */
const isKept = (found: unknown): found is { readonly form: number; readonly book: Book } =>
  typeof found === 'object' && found !== null && 'form' in found && found.form === FORM && 'book' in found;
