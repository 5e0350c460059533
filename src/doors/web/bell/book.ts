import { isAnswer } from '../../../record/alarm.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { standingOf } from '../vat/current-step.ts';
import type { Plan } from '../../../make/plan.ts';
import { MINUTE_MS } from './call-parts.ts';
import type { Call, CallClass } from './call.ts';

/** One call as this device has it: when it is due here, and when it sounded. Times are milliseconds UTC. */
export interface Held {
  readonly call: Call;
  readonly dueAt: number;
  /** What had been noted when a foreseen time was written down; by the clock alone it is never put off. */
  readonly basis: number;
  readonly soundedAt: number | null;
  readonly lastAt: number | null;
  readonly spokenAt: number | null;
}

/** One first sounding, for the pauses between them. */
export interface Sounding {
  readonly at: number;
  /** Only of what the maker set: it holds nothing else back. */
  readonly isAsked?: boolean;
  readonly class: CallClass;
  readonly causes: readonly string[];
}

/** The device's clock was set while a make ran: by how much, and the calls that were timed by it before. */
export interface ClockSet {
  readonly byMs: number;
  readonly ids: readonly string[];
}

/** What the bell of one batch remembers on this device, so that neither sleep nor a reload loses a call. */
export interface Book {
  readonly held: Readonly<Record<string, Held>>;
  readonly soundings: readonly Sounding[];
  readonly clockSet: readonly ClockSet[];
  /** When the bell last looked, to fifteen seconds. */
  readonly seenAt: number | null;
}

export const EMPTY_BOOK: Book = { held: {}, soundings: [], clockSet: [], seenAt: null };

/** The bell writes down that it was awake at this step. */
const SEEN_STEP_MS = 15_000;
/** A foreseen time that came to be in the past while the bell was awake is due now, not long since. */
const AWAKE_MS = 60_000;

/** A call that has come, as it is shown. */
export interface Shown {
  readonly call: Call;
  readonly dueAt: number;
  /** Whole minutes since it was due. */
  readonly lateMin: number;
}

/**
 * The book with these calls in it. A time that follows from the record is taken as it is (moved where the clock was set);
 * a foreseen time moves with the forecast until it has come, sooner at any time, later only when something was noted.
 *
 * @param input.isComplete false while there is no forecast: calls that it would give are kept from before
 * @returns the same object where nothing changed
 */
export function heldBook(input: {
  readonly book: Book;
  readonly calls: readonly Call[];
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly isComplete: boolean;
  readonly nowAt: number;
}): Book {
  const { book, calls, nowAt, isComplete } = input;
  const basis = basisOf(input.record);
  const held: Record<string, Held> = {};
  for (const call of calls) held[call.id] = heldNow({ call, book, basis, nowAt });
  for (const [id, known] of Object.entries(book.held)) {
    if (held[id] === undefined && !isComplete && stillMatters({ ...input, call: known.call })) held[id] = known;
  }
  const seenAt = Math.floor(nowAt / SEEN_STEP_MS) * SEEN_STEP_MS;
  return seenAt === book.seenAt && isSame(held, book.held) ? book : { ...book, held, seenAt };
}

function heldNow(input: {
  readonly call: Call;
  readonly book: Book;
  readonly basis: number;
  readonly nowAt: number;
}): Held {
  const { call, book, basis, nowAt } = input;
  const known = book.held[call.id];
  const dueAt = call.isExact ? call.dueAt + clockSetSince(book, call.id) : foreseenAt({ ...input, known });
  if (known === undefined) return { call, dueAt, basis, soundedAt: null, lastAt: null, spokenAt: null };
  // An exact time that moved into the future (set right, taken back) is a call that has not come yet.
  if (call.isExact && dueAt > nowAt && known.dueAt <= nowAt) return { call, dueAt, basis, soundedAt: null, lastAt: null, spokenAt: null }; // prettier-ignore
  return { ...known, call, dueAt, basis: known.dueAt <= nowAt ? known.basis : basis };
}

function foreseenAt(input: Parameters<typeof heldNow>[0] & { readonly known: Held | undefined }): number {
  const { call, book, basis, nowAt, known } = input;
  if (known !== undefined && known.dueAt <= nowAt) return known.dueAt;
  const wasAwake = book.seenAt !== null && nowAt - book.seenAt < AWAKE_MS;
  const fresh = wasAwake ? Math.max(call.dueAt, book.seenAt) : call.dueAt;
  if (known !== undefined) return known.basis === basis ? Math.min(known.dueAt, fresh) : fresh;
  const isMissed = !wasAwake && call.missedAt !== undefined && call.missedAt <= nowAt;
  return isMissed ? Math.min(call.missedAt, fresh) : fresh;
}

/** By how much the clock was set since this call was written down; what was timed before moves with it. */
const clockSetSince = (book: Book, id: string): number =>
  book.clockSet.filter(({ ids }) => ids.includes(id)).reduce((sum, { byMs }) => sum + byMs, 0);

/** The book after the maker said that the device's clock was set: durations go by the monotonic clock. */
export const withClockSet = (book: Book, byMs: number): Book => ({
  ...book,
  clockSet: [...book.clockSet, { byMs, ids: Object.values(book.held).filter(({ call }) => call.isExact).map(({ call }) => call.id) }],
}); // prettier-ignore

/** How much has been noted that a forecast could follow. */
const basisOf = (record: BatchRecord): number =>
  record.steps.length + record.readings.length + record.judgements.length + record.added.length + record.choices.length + record.mishaps.length + record.weighed.length; // prettier-ignore

/** Whether a call of before still stands: its step runs, its preparation is open. */
function stillMatters(input: { readonly call: Call; readonly record: BatchRecord; readonly plan: Plan }): boolean {
  const { call, record } = input;
  const { stage, step } = standingOf(input);
  const [, item] = /^prepare\.(.*)$/.exec(call.cause) ?? [];
  if (item !== undefined) return record.finishedAt === null && !record.prepared.some((one) => one.item === item);
  return stage === 'running' && step !== null && (call.cause === step.id || call.cause.startsWith(`${step.id}.`));
}

function isSame(a: Book['held'], b: Book['held']): boolean {
  const ids = Object.keys(a);
  return ids.length === Object.keys(b).length && ids.every((id) => sameHeld(a[id], b[id]));
}

const sameHeld = (a: Held | undefined, b: Held | undefined): boolean =>
  a !== undefined && b !== undefined && a.dueAt === b.dueAt && a.basis === b.basis && a.soundedAt === b.soundedAt && (a.call === b.call || JSON.stringify(a.call) === JSON.stringify(b.call)); // prettier-ignore

/** Every call that has come and that nobody has answered on any device, oldest first. */
export function shownCalls(input: {
  readonly book: Book;
  readonly record: BatchRecord;
  readonly nowAt: number;
}): readonly Shown[] {
  const { book, record, nowAt } = input;
  const answered = new Set(record.alarms.filter(isAnswer).map((one) => one.alarmId));
  return Object.values(book.held)
    .filter(({ call, dueAt }) => dueAt <= nowAt && !answered.has(call.id))
    .sort((a, b) => a.dueAt - b.dueAt)
    .map(({ call, dueAt }) => ({ call, dueAt, lateMin: Math.floor((nowAt - dueAt) / MINUTE_MS) }));
}
