import type { z } from 'zod';
import type { BatchRecord, Mark, Noted, RecordEntry } from './batch-record.ts';
import { batchBodies, type BatchBody, type BatchKind, type Event } from './event.ts';
import { mergeEvents } from './merge.ts';
import { notedTwice } from './noted-twice.ts';
import { stepNotes, stepsOf } from './recorded-steps.ts';
import { standing } from './standing.ts';

const bodySchemas: { readonly [K in BatchKind]: z.ZodType<BatchBody<K>> } = batchBodies;

/**
 * What happened in one batch, as it stands now: the fold of its events, given in any order and any number of times.
 * Corrected values replace, retracted ones are left out; `entries` shows everything. Events this program cannot read
 * are kept in `unknown`.
 * @throws EventConflictError when one id stands for two different events
 */
export function foldBatch(events: readonly Event[]): BatchRecord {
  const ordered = mergeEvents(events, []);
  const { entries, unknown } = standing(ordered);
  const live = entries.filter((entry) => entry.isUnderstood && entry.retracted === null);
  // Plots and lists go by when it happened; the fold order settles ties (the sort is stable).
  live.sort((a, b) => a.at - b.at);

  const noted = notesOf(live);
  const opened = noted('batchOpened')[0];
  const alarms = noted('alarmAnswered');
  const finished = noted('batchFinished');
  const joined = noted('joined');
  const twice = notedTwice(live);
  // Until somebody says that it went in twice, what two devices noted of one step went in once.
  const again = new Set(twice.flatMap((one) => (one.answer === 'both' ? [] : one.again)));
  const ends = [...finished, ...joined.filter(({ way }) => way === 'gave')].map(({ at }) => at);
  return {
    batchId: ordered[0]?.streamId ?? '',
    isOpened: opened !== undefined,
    name: opened?.name ?? '',
    lotCode: opened?.lotCode ?? '',
    make: opened?.make ?? null,
    answers: opened?.answers ?? null,
    zeroAt: opened?.zeroAt ?? live[0]?.at ?? 0,
    demo: opened?.demo ?? false,
    together: opened?.together ?? null,
    frozenPlans: noted('planFrozen'),
    steps: stepsOf({
      starts: stepNotes(noted('stepStarted'), entries),
      ends: stepNotes(noted('stepEnded'), entries),
    }),
    readings: noted('reading'),
    judgements: noted('judged'),
    added: noted('added').filter(({ eventId }) => !again.has(eventId)),
    prepared: noted('prepared'),
    weighed: noted('weighed'),
    noted: noted('noted'),
    choices: noted('choiceTaken'),
    mishaps: noted('mishap'),
    timers: timersOf(entries),
    alarms,
    twice,
    labelled: noted('labelled'),
    tasted: noted('tasted'),
    finished,
    joined,
    answered: noted('answered'),
    nextTime: noted('nextTime'),
    finishedAt: ends.length === 0 ? null : Math.min(...ends),
    entries: [...entries].sort((a, b) => a.at - b.at),
    unknown,
  };
}

/** Gives the notes of a kind, in the order of the entries. Sorted by kind once: a batch may hold a day of a probe's readings. */
function notesOf(entries: readonly RecordEntry[]): <K extends BatchKind>(kind: K) => Noted<K>[] {
  const byKind = new Map<string, RecordEntry[]>();
  for (const entry of entries) {
    const known = byKind.get(entry.kind);
    if (known === undefined) byKind.set(entry.kind, [entry]);
    else known.push(entry);
  }
  return <K extends BatchKind>(kind: K) =>
    (byKind.get(kind) ?? []).flatMap(({ body, eventId, at, person, was }) => {
      if (!isBodyOf(kind, body)) return [];
      // The body's own objects, not copies: a frozen make stays the same object however often the batch is folded.
      const mark: Mark = { eventId, at, person, was };
      return [{ ...body, ...mark }];
    });
}

/**
 * Timers in the order they were set, whatever the clocks of the devices that set them show: the last one of an id counts, and
 * whoever answers has seen it set, so an answer to it stands after it.
 */
function timersOf(entries: readonly RecordEntry[]): BatchRecord['timers'] {
  const inPlace = entries.filter((entry) => entry.isUnderstood && entry.retracted === null);
  const places = new Map(inPlace.map(({ eventId }, place) => [eventId, place]));
  const placeOf = ({ eventId }: Mark): number => places.get(eventId) ?? -1;
  const noted = notesOf(inPlace);
  const alarms = noted('alarmAnswered');
  return noted('timerSet').map((timer) => ({
    ...timer,
    answeredAt: alarms.find((alarm) => alarm.alarmId === timer.timerId && placeOf(alarm) > placeOf(timer))?.at ?? null,
  }));
}

function isBodyOf<K extends BatchKind>(kind: K, body: unknown): body is BatchBody<K> {
  return bodySchemas[kind].safeParse(body).success;
}
