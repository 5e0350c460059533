import { bookPages, openBook } from '../../../exchange/open-book.ts';

/** What makes and sums say, in Spanish: one file for the whole language. */
export const BOOK = openBook({
  language: 'es',
  ...bookPages(import.meta.glob<unknown>('../../../../words/es/sentences/*.json', { eager: true, import: 'default' })), // prettier-ignore
});
