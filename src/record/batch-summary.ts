import type { BatchRecord } from './batch-record.ts';
import type { Event, JsonObject } from './event.ts';
import { foldBatch } from './fold.ts';
import { searchText } from './search-text.ts';

/** What a list shows of one batch, and what it is found by. */
export interface BatchSummary {
  readonly batchId: string;
  readonly makeId: string;
  readonly makeName: string;
  readonly name: string;
  readonly lotCode: string;
  /** Wall clock at minute zero, milliseconds UTC. */
  readonly zeroAt: number;
  /** `ready`: opened, and no step begun. */
  readonly state: 'ready' | 'running' | 'over';
  /** Milliseconds UTC; null while it is not over. */
  readonly finishedAt: number | null;
  /** Litres of milk as answered at its opening. */
  readonly milkL: number | null;
  /** What came of it, as last weighed whole or as the sum of its pieces; null where nobody weighed it. */
  readonly cheeseKg: number | null;
  /** Folded text of its name, lot, make and notes (`search-text.ts`). */
  readonly search: string;
}

/** Kinds that a summary is made of. All others, readings before all, leave it as it was. */
const TELLING: ReadonlySet<string> = new Set([
  'batchOpened', 'stepStarted', 'stepEnded', 'weighed', 'noted', 'labelled', 'tasted', 'batchFinished', 'joined',
  // They may touch any of these.
  'corrected', 'retracted',
]); // prettier-ignore

/** Whether an event of this kind can change the summary of its batch. */
export const isTelling = (kind: string): boolean => TELLING.has(kind);

/**
 * The summary of a batch, from its events in any order and any number of times; null while it was not opened.
 * The same as from the whole record, without the work: readings are passed over, and of the make only its name is read.
 */
export function batchSummary(events: readonly Event[]): BatchSummary | null {
  const named = new Set(events.flatMap(({ kind, body }) => (kind === 'corrected' ? [body['replaces']] : [])));
  const telling = events.filter(({ id, kind }) => isTelling(kind) || named.has(id)).map(withoutMake);
  return summaryOf(foldBatch(telling));
}

/** The summary of a folded record; null while it was not opened. */
export function summaryOf(record: BatchRecord): BatchSummary | null {
  if (!record.isOpened) return null;
  const makeId = textOf(record.make?.['id']);
  const makeName = textOf(record.make?.['name']);
  const { batchId, name, lotCode, zeroAt, finishedAt } = record;
  const texts = [...record.noted.map(({ text }) => text), ...record.tasted.map(({ words }) => words), ...record.labelled.map((label) => label.name), ...record.finished.map(({ note = '' }) => note)]; // prettier-ignore
  return {
    batchId,
    makeId,
    makeName,
    name,
    lotCode,
    zeroAt,
    state: finishedAt !== null ? 'over' : record.steps.length > 0 ? 'running' : 'ready',
    finishedAt,
    milkL: record.answers?.milk?.volumeL ?? null,
    cheeseKg: cheeseKg(record),
    search: searchText([name, lotCode, makeName, makeId, ...texts]),
  };
}

/** As last weighed whole, or the sum of its pieces; null where nobody weighed it. */
export function cheeseKg({ weighed }: Pick<BatchRecord, 'weighed'>): number | null {
  const whole = weighed.filter(({ what }) => what === 'cheese').at(-1);
  if (whole !== undefined) return whole.massKg;
  const pieces = weighed.filter(({ what }) => what === 'piece');
  return pieces.length === 0 ? null : pieces.reduce((sum, { massKg }) => sum + massKg, 0);
}

/** A make is long, and a list shows its name. */
export function withoutMake(event: Event): Event {
  const { make } = event.body;
  if (event.kind !== 'batchOpened' || typeof make !== 'object' || make === null || Array.isArray(make)) return event;
  const { id = '', name = '' } = make;
  const short: JsonObject = { id, name };
  return { ...event, body: { ...event.body, make: short } };
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');
