import type { z } from 'zod';
import type { BatchRecord, Mark, Noted, RecordedStep, RecordEntry } from './batch-record.ts';
import { batchBodies, type BatchBody, type BatchKind, type Event } from './event.ts';
import { mergeEvents } from './merge.ts';
import { notedTwice } from './noted-twice.ts';
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

  const opened = notedOf('batchOpened', live)[0];
  const alarms = notedOf('alarmAnswered', live);
  const finished = notedOf('batchFinished', live);
  const joined = notedOf('joined', live);
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
    frozenPlans: notedOf('planFrozen', live),
    steps: stepsOf(live),
    readings: notedOf('reading', live),
    judgements: notedOf('judged', live),
    added: notedOf('added', live).filter(({ eventId }) => !again.has(eventId)),
    prepared: notedOf('prepared', live),
    weighed: notedOf('weighed', live),
    noted: notedOf('noted', live),
    choices: notedOf('choiceTaken', live),
    mishaps: notedOf('mishap', live),
    timers: notedOf('timerSet', live).map((timer) => ({
      ...timer,
      answeredAt: alarms.find((alarm) => alarm.alarmId === timer.timerId && alarm.at >= timer.startedAt)?.at ?? null,
    })),
    alarms,
    twice,
    labelled: notedOf('labelled', live),
    tasted: notedOf('tasted', live),
    finished,
    joined,
    answered: notedOf('answered', live),
    nextTime: notedOf('nextTime', live),
    finishedAt: ends.length === 0 ? null : Math.min(...ends),
    entries: [...entries].sort((a, b) => a.at - b.at),
    unknown,
  };
}

function notedOf<K extends BatchKind>(kind: K, live: readonly RecordEntry[]): Noted<K>[] {
  return live.flatMap((entry) => {
    const { kind: its, body, eventId, at, person, was } = entry;
    if (its !== kind || !isBodyOf(kind, body)) return [];
    // The body's own objects, not copies: a frozen make stays the same object however often the batch is folded.
    const mark: Mark = { eventId, at, person, was };
    return [{ ...body, ...mark }];
  });
}

function isBodyOf<K extends BatchKind>(kind: K, body: unknown): body is BatchBody<K> {
  return bodySchemas[kind].safeParse(body).success;
}

function stepsOf(live: readonly RecordEntry[]): RecordedStep[] {
  const steps = new Map<string, RecordedStep>();
  const step = (stepId: string): RecordedStep =>
    steps.get(stepId) ?? { stepId, startedAt: null, endedAt: null, said: null, startEventId: null, endEventId: null };
  for (const { stepId, at, eventId } of notedOf('stepStarted', live)) {
    const known = step(stepId);
    if (known.startedAt === null) steps.set(stepId, { ...known, startedAt: at, startEventId: eventId });
  }
  for (const { stepId, at, said, eventId } of notedOf('stepEnded', live)) {
    const known = step(stepId);
    // An end noted before the start belongs to nothing that ran.
    if (known.endedAt !== null || (known.startedAt !== null && at < known.startedAt)) continue;
    steps.set(stepId, { ...known, endedAt: at, said: said ?? null, endEventId: eventId });
  }
  const moment = ({ startedAt, endedAt }: RecordedStep): number => startedAt ?? endedAt ?? 0;
  return [...steps.values()].sort((a, b) => moment(a) - moment(b));
}
