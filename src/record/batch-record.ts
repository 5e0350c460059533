import type { Answers } from '../make/setup.ts';
import type { BatchBody, BatchKind, Event, JsonObject } from './event.ts';
import type { NotedTwice } from './noted-twice.ts';

/** A value that was set right later; it stays visible, struck through. */
export interface Earlier {
  readonly kind: string;
  readonly body: JsonObject;
  readonly at: number;
  readonly person: string;
  /** Who set it right, when (milliseconds UTC) and why. */
  readonly replacedBy: string;
  readonly replacedAt: number;
  readonly because?: string;
}

/** What every noted thing carries beside its body. */
export interface Mark {
  readonly eventId: string;
  /** When it happened, milliseconds UTC. */
  readonly at: number;
  readonly person: string;
  /** Earlier values, oldest first; empty when nothing was set right. */
  readonly was: readonly Earlier[];
}

/** A thing noted: the body as it stands now, with its mark. */
export type Noted<K extends BatchKind> = BatchBody<K> & Mark;

/** One step as it really went. When two devices noted the same step, the earliest note counts; `entries` shows both. */
export interface RecordedStep {
  readonly stepId: string;
  /** Null when only its end was noted. */
  readonly startedAt: number | null;
  readonly endedAt: number | null;
  /** What the maker pressed or said at its end ("It breaks clean"). */
  readonly said: string | null;
  readonly startEventId: string | null;
  readonly endEventId: string | null;
}

/** One line of the printed record: what was noted, how it stands now, and everything it was before. */
export interface RecordEntry extends Mark {
  readonly kind: string;
  readonly body: JsonObject;
  readonly loggedAt: number;
  readonly deviceId: string;
  /** Who took it back and when; null while it stands. */
  readonly retracted: { readonly at: number; readonly person: string } | null;
  /** False when this program cannot read it; shown as "from a newer version". */
  readonly isUnderstood: boolean;
}

/** An event that was kept without being folded, and why. */
export interface UnknownEvent {
  readonly event: Event;
  readonly because: 'unknown-kind' | 'newer-version' | 'unreadable-body' | 'names-nothing';
}

/** The fold of one batch's events: what happened, as it stands now. */
export interface BatchRecord {
  readonly batchId: string;
  /** False until `batchOpened` has arrived; then `make` and `answers` are null. */
  readonly isOpened: boolean;
  readonly name: string;
  readonly lotCode: string;
  readonly make: JsonObject | null;
  readonly answers: Answers | null;
  /** Wall clock at minute zero, milliseconds UTC; the earliest event's time while the batch is not opened. */
  readonly zeroAt: number;
  readonly demo: boolean;
  /** The pots that this one was opened together with; null where it stands alone. */
  readonly together: NonNullable<BatchBody<'batchOpened'>['together']> | null;
  readonly frozenPlans: readonly Noted<'planFrozen'>[];
  /** In the order of their starts. */
  readonly steps: readonly RecordedStep[];
  readonly readings: readonly Noted<'reading'>[];
  readonly judgements: readonly Noted<'judged'>[];
  /** What two devices noted of one step counts once, unless somebody said that it went in twice. */
  readonly added: readonly Noted<'added'>[];
  readonly prepared: readonly Noted<'prepared'>[];
  readonly weighed: readonly Noted<'weighed'>[];
  readonly noted: readonly Noted<'noted'>[];
  readonly choices: readonly Noted<'choiceTaken'>[];
  readonly mishaps: readonly Noted<'mishap'>[];
  /** `answeredAt` is the first answer to the alarm of the same id. */
  readonly timers: readonly (Noted<'timerSet'> & { readonly answeredAt: number | null })[];
  readonly alarms: readonly Noted<'alarmAnswered'>[];
  /** Ends of a step that two devices noted, oldest first. */
  readonly twice: readonly NotedTwice[];
  readonly labelled: readonly Noted<'labelled'>[];
  readonly tasted: readonly Noted<'tasted'>[];
  /** What its closing said. */
  readonly finished: readonly Noted<'batchFinished'>[];
  /** Curd that went into another pot, or came in from one. */
  readonly joined: readonly Noted<'joined'>[];
  readonly answered: readonly Noted<'answered'>[];
  readonly nextTime: readonly Noted<'nextTime'>[];
  /** When it was closed, or its curd was joined to another pot's, whichever came first. */
  readonly finishedAt: number | null;
  /** Everything in time order, as the printed record shows it. */
  readonly entries: readonly RecordEntry[];
  readonly unknown: readonly UnknownEvent[];
}
