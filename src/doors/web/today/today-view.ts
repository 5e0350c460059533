import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { cheeseKg, type BatchSummary } from '../../../record/batch-summary.ts';
import { otherBodies, type Event } from '../../../record/event.ts';
import { foldOnce } from '../log/fold-once.ts';

/** One batch in a list of Today. */
export interface BatchLine {
  readonly batchId: string;
  readonly name: string;
  readonly lotCode: string;
  readonly day: string;
  readonly isDemo: boolean;
  /** What came of it, where it is over and was weighed. */
  readonly came: string | null;
}

/** A plan that was kept and has not been started. */
export interface PlannedLine {
  readonly eventId: string;
  readonly makeName: string;
  readonly when: string;
  readonly body: DayPlanned;
}
type DayPlanned = ReturnType<(typeof otherBodies)['dayPlanned']['parse']>;

export interface TodayView {
  /** Batches under way or made ready, the one that started first on top. */
  readonly running: readonly BatchLine[];
  readonly planned: readonly PlannedLine[];
  /** The last finished ones, newest first. */
  readonly finished: readonly BatchLine[];
  /** Whether more of them are on this device than the list shows. */
  readonly hasMore: boolean;
  readonly isEmpty: boolean;
}

/** A plan whose start is longer ago than this was not made. */
const PLAN_STALE_MS = 12 * 3_600_000;
const MOST_FINISHED = 12;
const MINUTE_MS = 60_000;

/** What is running, planned and finished, from the log as this device holds it. */
export function todayView(input: {
  readonly streams: ReadonlyMap<string, readonly Event[]>;
  readonly makeNames: ReadonlyMap<string, string>;
  readonly now: number;
  readonly say: Say;
  readonly write: Writer;
}): TodayView {
  const { streams, makeNames, now, say, write } = input;
  const records = batchRecords(streams);
  const line = (record: BatchRecord): BatchLine => ({
    ...lineOf({
      of: { ...record, cheeseKg: cheeseKg(record), milkL: record.answers?.milk?.volumeL ?? null },
      say,
      write,
    }),
    isDemo: record.demo,
  });
  const running = records.filter((record) => record.finishedAt === null).sort((a, b) => a.zeroAt - b.zeroAt);
  const finished = records.filter((record) => record.finishedAt !== null).sort((a, b) => b.zeroAt - a.zeroAt);
  const planned = [...streams]
    .filter(([id]) => id.startsWith('day:'))
    .flatMap(([, events]) => events)
    .flatMap((event) => plannedLine({ event, now, makeNames, say, write }))
    .sort((a, b) => a.body.startAt - b.body.startAt);
  return {
    running: running.map(line),
    planned,
    finished: finished.slice(0, MOST_FINISHED).map(line),
    hasMore: finished.length > MOST_FINISHED,
    isEmpty: records.length + planned.length === 0,
  };
}

/** What a line of a list is told from: a record here, or a batch as a server lists it. */
export type Listed = Pick<
  BatchSummary,
  'batchId' | 'name' | 'lotCode' | 'zeroAt' | 'finishedAt' | 'milkL' | 'cheeseKg'
>;

/** One batch in a list. */
export function lineOf({
  of,
  say,
  write,
}: {
  readonly of: Listed;
  readonly say: Say;
  readonly write: Writer;
}): BatchLine {
  const { batchId, name, lotCode, zeroAt } = of;
  return { batchId: batchId.replace(/^batch:/, ''), name, lotCode, day: write.day(zeroAt), isDemo: false, came: cameOf({ of, say, write }) }; // prettier-ignore
}

/** "1.62 kg of cheese from 12 L, in 5 h 40 min". */
function cameOf({
  of: { finishedAt, zeroAt, cheeseKg: massKg, milkL },
  say,
  write,
}: {
  readonly of: Listed;
  readonly say: Say;
  readonly write: Writer;
}): string | null {
  if (finishedAt === null || massKg === null || milkL === null) return null;
  const minutes = (finishedAt - zeroAt) / MINUTE_MS;
  return say('today:finished.came', { cheese: write.kilograms(massKg).text, milk: write.litres(milkL).text, duration: write.duration(minutes) }); // prettier-ignore
}

/** The opened batches that this device holds. */
export function batchRecords(streams: ReadonlyMap<string, readonly Event[]>): BatchRecord[] {
  return [...streams]
    .filter(([id]) => id.startsWith('batch:'))
    .map(([, events]) => foldOnce(events))
    .filter((record) => record.isOpened);
}

function plannedLine(input: {
  readonly event: Event;
  readonly now: number;
  readonly makeNames: ReadonlyMap<string, string>;
  readonly say: Say;
  readonly write: Writer;
}): PlannedLine[] {
  const { event, now, makeNames, say, write } = input;
  if (event.kind !== 'dayPlanned') return [];
  const parsed = otherBodies.dayPlanned.safeParse(event.body);
  if (!parsed.success || parsed.data.startAt < now - PLAN_STALE_MS) return [];
  const { startAt, makeId, pots } = parsed.data;
  return [
    {
      eventId: event.id,
      makeName: makeNames.get(makeId) ?? makeId,
      when: say(pots === undefined ? 'today:planned.start' : 'today:planned.startPots', { day: write.day(startAt), at: write.clock(startAt), count: pots?.count ?? 1, apart: write.duration(pots?.apartMin ?? 0) }), // prettier-ignore
      body: parsed.data,
    },
  ];
}

/** The one batch that opening the tool leads to: a single make under way, the worked example left aside. */
export function onlyRunning(streams: ReadonlyMap<string, readonly Event[]>): string | null {
  const running = batchRecords(streams).filter(
    (record) => record.finishedAt === null && !record.demo && record.steps.length > 0,
  );
  const [only, another] = running;
  return only === undefined || another !== undefined ? null : only.batchId.replace(/^batch:/, '');
}
