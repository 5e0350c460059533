import { bookPages, openBook } from '../../../../exchange/open-book.ts';
import type { Speech } from './speech.ts';

export const SPEECH: Speech = {
  first: import.meta.glob<object>('../../../../../words/en-US/{app,vat,advice,bell,findings,today}.json', { eager: true, import: 'default' }), // prettier-ignore
  book: openBook({
    language: 'en-US',
    ...bookPages(import.meta.glob<unknown>('../../../../../words/en-US/sentences/*.json', { eager: true, import: 'default' })), // prettier-ignore
  }),
};
