import { columnNames, proposeMapping, signatureOf, type LoggerMapping, type Rows } from '../../../exchange/logger/mapping.ts'; // prettier-ignore
import { vatSampleAt } from '../../../exchange/probe/vat-sample.ts';
import type { Sample } from '../../../make/step.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';

/** What the probe hung in: whatever was in the vat at each moment, or one thing all along. */
export const SAMPLE_CHOICES = ['vat', 'curd', 'cheese', 'brine', 'water', 'room'] as const;
export type SampleChoice = (typeof SAMPLE_CHOICES)[number];

/** A file as it was brought, and everything its reader said about it. */
export interface FileAnswers {
  readonly name: string;
  readonly rows: Rows;
  readonly signature: string;
  readonly mapping: LoggerMapping;
  /** What the file itself leaves open, so that its blank stays in the sentence once it is filled. */
  readonly asksDayOrder: boolean;
  readonly isRemembered: boolean;
  /** As the browser's own field gives it, `2026-03-04T08:00`; empty while it is not said. */
  readonly startedAt: string;
  readonly clock: 'right' | 'ahead' | 'behind';
  /** By how many minutes, as typed. */
  readonly clockBy: string;
  readonly sample: SampleChoice;
}

/** What is proposed for a file: by its words, and by what was chosen for the last one like it. */
export function answersFor(input: {
  readonly name: string;
  readonly rows: Rows;
  readonly keptFor: (signature: string) => (Pick<LoggerMapping, 'time' | 'temperature' | 'pHColumn' | 'dayOrder'> & { readonly sample: SampleChoice }) | null; // prettier-ignore
}): FileAnswers {
  const { name, rows } = input;
  const proposed = proposeMapping(rows);
  const signature = signatureOf(rows, proposed);
  const kept = input.keptFor(signature);
  const mapping = kept === null ? proposed : { headRows: proposed.headRows, time: kept.time, temperature: kept.temperature, pHColumn: kept.pHColumn, dayOrder: proposed.dayOrder ?? kept.dayOrder }; // prettier-ignore
  return {
    name,
    rows,
    signature,
    mapping,
    asksDayOrder: proposed.dayOrder === null,
    isRemembered: kept !== null,
    startedAt: '',
    clock: 'right',
    clockBy: '',
    sample: kept?.sample ?? 'vat',
  };
}

/** The columns by the names that the file gives them, else by their number. */
export function columnLabels(answers: FileAnswers, numbered: (column: number) => string): readonly string[] {
  return columnNames(answers.rows, answers.mapping.headRows).map((name, column) => (name === '' ? numbered(column + 1) : name)); // prettier-ignore
}

/** Milliseconds that the logger's clock stood ahead of the wall clock; null where what is typed is no number. */
export function clockAheadMs({ clock, clockBy }: Pick<FileAnswers, 'clock' | 'clockBy'>): number | null {
  if (clock === 'right') return 0;
  const minutes = Number(clockBy.trim().replace(',', '.'));
  if (clockBy.trim() === '' || !Number.isFinite(minutes) || minutes < 0) return null;
  return minutes * 60_000 * (clock === 'ahead' ? 1 : -1);
}

/** What a value was read in at its moment. */
export const sampleAt = (input: {
  readonly choice: SampleChoice;
  readonly record: BatchRecord;
  readonly at: number;
}): Sample =>
  // prettier-ignore
  input.choice === 'vat' ? vatSampleAt(input) : input.choice;
