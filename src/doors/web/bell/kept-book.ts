import { EMPTY_BOOK, type Book } from './book.ts';

/** Raised when the book changes its form; a book of another form is begun anew. */
const FORM = 1;
const keyOf = (streamId: string): string => `vatside.bell.${streamId}`;

/** What the bell of one batch remembers on this device, through sleep, reload and a killed tab. */
export interface BookStore {
  readonly read: () => Book;
  /**
   * Writes it down, and tells all who watch. Whoever shows this very book already need not be told: it only follows the
   * forecast, and is written once the page has a moment to spare, or goes.
   */
  readonly write: (book: Book, told?: 'known') => void;
  readonly subscribe: (listener: () => void) => () => void;
}

/** A forecast comes as a quick one and a whole one, within about a second: their book is written once. */
const LATER_MS = 2_000;

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
  let owed: ReturnType<typeof setTimeout> | null = null;
  const put = (): void => {
    if (owed !== null) clearTimeout(owed);
    owed = null;
    try {
      localStorage.setItem(keyOf(streamId), JSON.stringify({ form: FORM, book }));
    } catch (error) {
      // A full or closed storage only means that a reload finds less.
      console.warn('The bell could not write down what it called.', error);
    }
  };
  const putOwed = (): void => {
    if (owed !== null) put();
  };
  // A page that is hidden may never be woken again.
  window.addEventListener('pagehide', putOwed);
  document.addEventListener('visibilitychange', putOwed);
  // What another tab of this device has called is called.
  window.addEventListener('storage', ({ key }) => {
    if (key !== keyOf(streamId)) return;
    if (owed !== null) clearTimeout(owed);
    owed = null;
    book = kept(streamId);
    for (const listener of listeners) listener();
  });
  return {
    read: () => book,
    write(next, told) {
      if (next === book) return;
      book = next;
      if (told === undefined) put();
      else owed ??= setTimeout(put, LATER_MS);
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
