import type { DayOf } from '../../../exchange/typical-day.ts';
import type { MakeFacts } from '../../../make/make-facts.ts';

/** A make as lists carry it: its facts, and how long its day is with little and with much of its own milk. */
export interface ListedMake {
  readonly facts: MakeFacts;
  readonly days: readonly DayOf[];
}
