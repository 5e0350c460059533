import type { Noted, RecordedStep, RecordEntry } from './batch-record.ts';

/** A start or an end of a step with what tells two clocks apart. */
export interface StepNote {
  readonly note: Noted<'stepStarted'> | Noted<'stepEnded'>;
  readonly loggedAt: number;
  /** Its place in the fold order. */
  readonly place: number;
}

/** The notes with when they were written down and where they stand in the fold order. */
export function stepNotes<K extends 'stepStarted' | 'stepEnded'>(
  notes: readonly Noted<K>[],
  entries: readonly RecordEntry[],
): (StepNote & { readonly note: Noted<K> })[] {
  const places = new Map(entries.map(({ eventId, loggedAt }, place) => [eventId, { loggedAt, place }]));
  return notes.map((note) => ({ note, ...(places.get(note.eventId) ?? { loggedAt: note.at, place: -1 }) }));
}

/**
 * Each step as it really went, by when it began: the earliest start that was noted, and the earliest end after it.
 *
 * An end that says it was before the start belongs to nothing that ran. But where it was written down after the start, by a
 * clock that showed less, the clocks disagree and the end is the true one: the step has ended, no earlier than it began.
 *
 * @param input.starts, input.ends  by the time they tell
 */
export function stepsOf(input: {
  readonly starts: readonly (StepNote & { readonly note: Noted<'stepStarted'> })[];
  readonly ends: readonly (StepNote & { readonly note: Noted<'stepEnded'> })[];
}): RecordedStep[] {
  const began = new Map<string, StepNote & { readonly note: Noted<'stepStarted'> }>();
  for (const start of input.starts) if (!began.has(start.note.stepId)) began.set(start.note.stepId, start);
  const ids = new Set([...input.starts, ...input.ends].map(({ note }) => note.stepId));
  const steps = [...ids].map((stepId): RecordedStep => {
    const start = began.get(stepId);
    const ends = input.ends.filter(({ note }) => note.stepId === stepId);
    const end =
      ends.find(({ note }) => start === undefined || note.at >= start.note.at) ??
      ends.find((one) => start !== undefined && one.place > start.place && one.loggedAt < start.loggedAt);
    const startedAt = start?.note.at ?? null;
    return {
      stepId,
      startedAt,
      endedAt: end === undefined ? null : Math.max(end.note.at, startedAt ?? end.note.at),
      said: end?.note.said ?? null,
      startEventId: start?.note.eventId ?? null,
      endEventId: end?.note.eventId ?? null,
    };
  });
  const moment = ({ startedAt, endedAt }: RecordedStep): number => startedAt ?? endedAt ?? 0;
  return steps.sort((a, b) => moment(a) - moment(b));
}
