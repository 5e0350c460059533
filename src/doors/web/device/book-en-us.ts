import { bookPages, openBook } from '../../../exchange/open-book.ts';

/** What makes and sums say, in US spelling. */
export const BOOK = openBook({
  language: 'en-US',
  ...bookPages(import.meta.glob<unknown>('../../../../words/en-US/sentences/*.json', { eager: true, import: 'default' })), // prettier-ignore
});
