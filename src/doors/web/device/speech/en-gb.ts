import { PLAIN_BOOK } from '../../../../exchange/book.ts';
import type { Speech } from './speech.ts';

export const SPEECH: Speech = {
  first: import.meta.glob<object>('../../../../../words/en-GB/{app,vat,advice,bell,findings,today}.json', { eager: true, import: 'default' }), // prettier-ignore
  book: PLAIN_BOOK,
};
