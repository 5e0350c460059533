import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { planKey } from './batch.ts';

/** What was foreseen of a batch when its card was last on this device. */
export interface KeptForesight {
  readonly forecast: Forecast;
  readonly planned: Forecast | null;
  readonly before: Forecast | null;
}

export interface Written extends KeptForesight {
  readonly streamId: string;
  /** Program, record and plan that it was foreseen by and for. */
  readonly version: string;
  /** Milliseconds UTC. */
  readonly writtenAt: number;
}

/** The forecast comes anew every two minutes; what was foreseen at earlier moments hardly ever, and is written by itself. */
type Running = Omit<Written, 'planned' | 'before'>;
type Earlier = Omit<Written, 'forecast'>;

interface Schema extends DBSchema {
  foresights: { key: string; value: Running | Earlier };
}

const earlierOf = (streamId: string): string => `${streamId} earlier`;

const DATABASE = 'vatside-foresights';
const FORMAT = 1;
/** An older one says little of now: the card waits for the new one. */
const FRESH_MS = 15 * 60_000;
/** Batches kept; a class has six pots, and one more day beside it. */
const MOST = 12;
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

let opening: Promise<IDBPDatabase<Schema>> | null = null;
const opened = (): Promise<IDBPDatabase<Schema>> =>
  (opening ??= openDB<Schema>(DATABASE, FORMAT, {
    upgrade: (db) => void db.createObjectStore('foresights', { keyPath: 'streamId' }),
  }));

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

/** What this page has written of earlier moments, by batch; and thereby the batches whose place it has looked after. */
const wrote = new Map<string, Pick<Earlier, 'version' | 'planned' | 'before'>>();

/** Keeps what is foreseen now in the place of what was, and drops the oldest of other batches. Never fails. */
export async function keepForesight(input: {
  readonly streamId: string;
  readonly kept: KeptForesight;
  readonly record: BatchRecord;
  readonly writtenAt: number;
}): Promise<void> {
  const { streamId, kept, record, writtenAt } = input;
  const { forecast, planned, before } = kept;
  try {
    const db = await opened();
    const version = versionOf(record);
    const known = wrote.get(streamId);
    const isKnown = known?.version === version && known.planned === planned && known.before === before;
    const { store, done } = db.transaction('foresights', 'readwrite');
    const puts = [store.put({ streamId, version, writtenAt, forecast })];
    if (!isKnown) puts.push(store.put({ streamId: earlierOf(streamId), version, writtenAt, planned, before }));
    await Promise.all([...puts, done]);
    wrote.set(streamId, { version, planned, before });
    if (known === undefined) await dropOldest(db);
  } catch (error) {
    // A full or closed storage only means that the next opening waits for its forecast.
    console.warn('What is foreseen could not be kept.', error);
  }
}

async function dropOldest(db: IDBPDatabase<Schema>): Promise<void> {
  const all = await db.getAll('foresights');
  const batches = all.filter((one) => 'forecast' in one).sort((a, b) => b.writtenAt - a.writtenAt);
  const staying = new Set(batches.slice(0, MOST).flatMap(({ streamId }) => [streamId, earlierOf(streamId)]));
  const old = all.filter(({ streamId }) => !staying.has(streamId));
  await Promise.all(old.map(({ streamId }) => db.delete('foresights', streamId)));
}
