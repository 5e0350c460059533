import type { BatchRecord } from '../../../record/batch-record.ts';
import { planKey } from './batch.ts';
import { earlierOf, opened, type Written } from './foresight-store.ts';

/** An older one says little of now: the card waits for the new one. */
const FRESH_MS = 15 * 60_000;
/** A storage that does not answer must not keep the card away. */
const PATIENCE_MS = 300;

/** This file as it was built: its name follows from everything that the program is built of. */
const BUILD = import.meta.url;

/** What a foresight follows from: the program, what changed the plan, and every entry of the record as it stands. */
export const versionOf = (record: BatchRecord): string =>
  [BUILD, planKey(record), ...record.entries.map(({ eventId, at, was, retracted }) => `${eventId} ${at} ${was.length} ${retracted === null}`)].join('|'); // prettier-ignore

/** Whether what was kept may still be shown for this record, marked as being worked out again. */
export const mayShow = ({
  kept,
  record,
  nowAt,
}: {
  readonly kept: Pick<Written, 'version' | 'writtenAt'>;
  readonly record: BatchRecord;
  readonly nowAt: number;
}): boolean =>
  // prettier-ignore
  kept.version === versionOf(record) && Math.abs(nowAt - kept.writtenAt) <= FRESH_MS;

const patience = (): Promise<undefined> => new Promise((done) => setTimeout(() => done(undefined), PATIENCE_MS));

/** What is kept of a batch, if the device answers soon. Never fails: without it the card only waits for its forecast. */
export async function readForesight(streamId: string): Promise<Written | null> {
  return (await Promise.race([read(streamId).catch(() => null), patience()])) ?? null;
}

async function read(streamId: string): Promise<Written | null> {
  const { store } = (await opened()).transaction('foresights');
  const [running, earlier] = await Promise.all([store.get(streamId), store.get(earlierOf(streamId))]);
  if (running === undefined || !('forecast' in running)) return null;
  const isOfSame = earlier !== undefined && 'planned' in earlier && earlier.version === running.version;
  return { ...running, planned: isOfSame ? earlier.planned : null, before: isOfSame ? earlier.before : null };
}
