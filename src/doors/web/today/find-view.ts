import { z } from 'zod';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { summaryOf } from '../../../record/batch-summary.ts';
import type { Event } from '../../../record/event.ts';
import { searchWords } from '../../../record/search-text.ts';
import { batchRecords, lineOf, type BatchLine, type Listed } from './today-view.ts';

/** Lines that a search shows; more words find fewer. */
export const MOST_FOUND = 30;

/** A page of `/api/batches`. */
export const foundSchema = z.object({
  batches: z.array(
    z.object({ batchId: z.string(), name: z.string(), lotCode: z.string(), zeroAt: z.int(), finishedAt: z.int().nullable(), milkL: z.number().nullable(), cheeseKg: z.number().nullable() }),
  ),
}); // prettier-ignore

/**
 * What is said of a search: how many are shown, or that there are none; and where only this device was asked.
 * @param isHereOnly  the server did not answer; null while it has not been asked yet
 */
export function foundWords(input: {
  readonly count: number;
  readonly isHereOnly: boolean | null;
  readonly say: Say;
}): string {
  const { count, isHereOnly, say } = input;
  if (isHereOnly === null && count === 0) return '';
  const found = count === 0 ? say('today:find.none') : say(count < MOST_FOUND ? 'today:find.found' : 'today:find.most', { count }); // prettier-ignore
  return isHereOnly === true ? `${found} ${say('today:find.hereOnly')}` : found;
}

/** Batches that hold all of the words, on this device or found by a server, the newest first; nothing for no words. */
export function findView(input: {
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  readonly search: string;
  readonly onServer: readonly Listed[];
  readonly say: Say;
  readonly write: Writer;
}): readonly BatchLine[] {
  const { streams, search, onServer, say, write } = input;
  const words = searchWords(search);
  if (words.length === 0) return [];
  const here = batchRecords(streams)
    .filter(({ demo }) => !demo)
    .flatMap((record) => summaryOf(record) ?? [])
    .filter(({ search: text }) => words.every((word) => text.includes(word)));
  const ids = new Set(here.map(({ batchId }) => batchId));
  // What is here is at least as new as what a server lists of it.
  const all: Listed[] = [...here, ...onServer.filter(({ batchId }) => !ids.has(batchId) && !streams.has(batchId))];
  return (
    all
      .sort((a, b) => b.zeroAt - a.zeroAt)
      .slice(0, MOST_FOUND)
      // Among all that were ever made, a day without its year is none.
      .map((of) => ({ ...lineOf({ of, say, write }), day: write.date(of.zeroAt) }))
  );
}
