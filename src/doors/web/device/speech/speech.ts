import type { Book } from '../../../../exchange/book.ts';

/** What the vat and the first screen say in one language: one file, fetched beside their code. */
export interface Speech {
  /** Catalogues by the path of their file; every other one comes with the first other screen. */
  readonly first: Readonly<Record<string, object>>;
  /** What makes and sums say. */
  readonly book: Book;
}
