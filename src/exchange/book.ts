/**
 * Makes are data and sums are code, and both carry their sentences in UK English. A book says these sentences in another
 * language: it is looked up by the English sentence itself, so that a frozen copy of a make, an older version of it or
 * one that its maker changed is told in the reader's language wherever the sentence is the same, and in the English it
 * was written in where it is not.
 */

import type { MakeFacts } from '../make/make-facts.ts';
import type { Make } from '../make/make.ts';
import type { Plan } from '../make/plan.ts';

/** What makes and sums say, for one reader. */
export interface Book {
  /** What a sentence is called in the reader's language. */
  readonly tell: (text: string) => string;
  /** The same for what stands in the book as a whole, a name for instance, without looking for figures in it. */
  readonly name: (text: string) => string;
  /** A make as the reader is shown it; what is planned, frozen and kept is the make as it was written. */
  readonly make: (make: Make) => Make;
  /** What a list says of a make. */
  readonly facts: (facts: MakeFacts) => MakeFacts;
  /** A plan as the reader is shown it: the same object each time, as forecasts go by its identity. */
  readonly plan: (plan: Plan) => Plan;
}

const plain = <T>(one: T): T => one;

/** The English in which makes and sums are written. */
export const PLAIN_BOOK: Book = { tell: plain, name: plain, facts: plain, make: plain, plan: plain };
