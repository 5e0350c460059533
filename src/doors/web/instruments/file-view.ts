import { knownKey, openQuestions, readLogger, settled, type LoggerOutcome, type LoggerReading, type Question, type RowFate, type RowFault } from '../../../exchange/logger/logger-file.ts'; // prettier-ignore
import { PACES } from '../../../exchange/logger/thin.ts';
import type { Moment } from '../../../exchange/logger/stamp.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { clockAheadMs, type FileAnswers } from './file-answers.ts';

/** Milk is looked at a little before it is warmed, and cheese a little after the make is closed. Common practice (no source). */
const AROUND_MS = 3_600_000;

/** What a file comes to for one make. */
export interface FileView {
  /** What is still to be said, in the order of the sentence. */
  readonly questions: readonly (Question | 'clockBy')[];
  /** Null while something is still to be said. */
  readonly outcome: LoggerOutcome | null;
}

/** The instant of a moment on the calendar, by this device's clock where the file names no offset. */
export function instantOf(moment: Moment): number {
  const { year, month, day, hours, minutes, seconds, utcOffsetMin } = moment;
  if (utcOffsetMin !== null) return Date.UTC(year, month - 1, day, hours, minutes, seconds) - utcOffsetMin * 60_000;
  return new Date(year, month - 1, day, hours, minutes, seconds).getTime();
}

/** Reads the file by what was said about it, against the hours of the make. */
export function fileView(input: {
  readonly answers: FileAnswers;
  readonly record: BatchRecord;
  readonly nowAt: number;
}): FileView {
  const { answers, record, nowAt } = input;
  const startedAt = answers.startedAt === '' ? null : new Date(answers.startedAt).getTime();
  const ahead = clockAheadMs(answers);
  const questions = [...openQuestions({ mapping: answers.mapping, startedAt }), ...(ahead === null ? (['clockBy'] as const) : [])]; // prettier-ignore
  const mapping = settled(answers.mapping);
  if (mapping === null || ahead === null || questions.length > 0) return { questions, outcome: null };
  const { fromAt, toAt } = hoursOf(record, nowAt);
  const zero = new Date(record.zeroAt);
  const outcome = readLogger({
    rows: answers.rows,
    mapping,
    day: { year: zero.getFullYear(), month: zero.getMonth() + 1, day: zero.getDate() },
    instantOf,
    startedAt,
    clockAheadMs: ahead,
    fromAt,
    toAt,
    known: new Set(record.readings.map(knownKey)),
  });
  return { questions, outcome };
}

/** The hours of a make, with room before and after; never beyond now. */
export function hoursOf(record: BatchRecord, nowAt: number): { readonly fromAt: number; readonly toAt: number } {
  const begun = record.steps[0]?.startedAt ?? record.zeroAt;
  const over = record.finishedAt === null ? Infinity : record.finishedAt + AROUND_MS;
  return { fromAt: Math.min(record.zeroAt, begun) - AROUND_MS, toAt: Math.min(nowAt, over) };
}

interface Telling {
  readonly say: Say;
  readonly write: Writer;
}

/** How far a temperature may move unnoted, in the reader's degrees: a width, so the zero of the scale plays no part. */
export const bandText = (write: Writer, bandC: number = PACES.temperatureC.deadBand): string =>
  write.units === 'us' ? `${write.number(bandC * 1.8, 1)}\u202F°F` : `${write.number(bandC, 1)}\u202F°C`;

/** How many rows became what, one sentence a kind; kinds without a row are not told. */
export function fateLines(outcome: LoggerOutcome, { say, write }: Telling): readonly string[] {
  const counts = new Map<RowFate, number>();
  for (const fate of outcome.fates) counts.set(fate, (counts.get(fate) ?? 0) + 1);
  const thinned = Object.entries(outcome.paces).map(([quantity, { everyMs, deadBand }]) =>
    say(`instruments:file.pace.${quantity}`, {
      every: write.duration(everyMs / 60_000),
      band: quantity === 'pH' ? write.number(deadBand, 2) : bandText(write, deadBand),
    }),
  ); // prettier-ignore
  return (['reading', 'thinned', 'known', 'outside', 'fault', 'head', 'blank'] as const).flatMap((fate) => {
    const count = counts.get(fate) ?? 0;
    if (count === 0) return [];
    return [say(`instruments:file.fate.${fate}`, { count, number: write.number(count, 0), pace: thinned.join(' ') })];
  });
}

/** Row numbers of one fate as short ranges: "3–60, 62, 64–118". */
export function rowRanges(fates: readonly RowFate[], wanted: RowFate): string {
  const ranges: { from: number; to: number }[] = [];
  for (const [index, fate] of fates.entries()) {
    if (fate !== wanted) continue;
    const last = ranges.at(-1);
    if (last !== undefined && last.to === index) last.to = index + 1;
    else ranges.push({ from: index + 1, to: index + 1 });
  }
  return ranges.map(({ from, to }) => (from === to ? String(from) : `${from}–${to}`)).join(', ');
}

/** A fault in one sentence: row, column, value, and what would do. */
export const faultText = (fault: RowFault, say: Say): string =>
  say(`instruments:file.faults.${fault.code}`, { row: fault.row, column: fault.column, value: fault.value, expected: fault.expected ?? '' }); // prettier-ignore

/** Whether thinning had to go slower than usual, so that the file fits. */
export const isSlowed = (outcome: LoggerOutcome): boolean =>
  (outcome.paces.temperatureC?.everyMs ?? 0) > PACES.temperatureC.everyMs || (outcome.paces.pH?.everyMs ?? 0) > PACES.pH.everyMs; // prettier-ignore

/** First and last moment of what would be noted; null where nothing would. */
export function spanOf(readings: readonly LoggerReading[]): { readonly fromAt: number; readonly toAt: number } | null {
  const [first] = readings;
  return first === undefined ? null : { fromAt: first.at, toAt: readings.at(-1)?.at ?? first.at };
}
