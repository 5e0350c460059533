/** A whole store as two tables, for a spreadsheet: every batch in a row, every reading in a row. */
import type { BatchRecord } from '../../record/batch-record.ts';
import { csvText, type CsvCell } from './csv.ts';
import { isoInstant } from './iso-instant.ts';
import { RECORD_HEAD, recordRows } from './record-csv.ts';

const BATCH_HEAD = [
  'batch', 'lotCode', 'name', 'makeId', 'makeName', 'zeroAt', 'finishedAt', 'milkL', 'milkSpecies', 'milkTreatment', 'steps', 'readings', 'judgements', 'cheeseKg', 'events', 'notUnderstood',
] as const; // prettier-ignore

/** The heads, to stand once over all rows. */
export const batchesHead = (): string => csvText([[...BATCH_HEAD]]);
export const readingsHead = (): string => csvText([['batch', ...RECORD_HEAD]]);

/**
 * One row: instants in UTC (ISO 8601), litres, the last weighing of the cheese in kilograms, and how much was noted. What the make
 * leaves to be assumed is empty here.
 */
export function batchRow(record: BatchRecord): string {
  const { batchId, lotCode, name, make, answers } = record;
  const text = (value: unknown): string | null => (typeof value === 'string' ? value : null);
  const cheeseKg = record.weighed.filter(({ what }) => what === 'cheese').at(-1)?.massKg ?? null;
  const row: CsvCell[] = [
    batchId, lotCode, name, text(make?.['id']), text(make?.['name']), isoInstant(record.zeroAt), record.finishedAt === null ? null : isoInstant(record.finishedAt),
    answers?.milk.volumeL ?? null, answers?.milk.species ?? null, answers?.milk.treatment ?? null,
    record.steps.length, record.readings.length, record.judgements.length, cheeseKg, record.entries.length, record.unknown.length,
  ]; // prettier-ignore
  return csvText([row]);
}

/** The readings of one batch, those that were set right or taken back marked as such. */
export const readingRows = (record: BatchRecord): string =>
  csvText(recordRows(record, 'reading').map((row) => [record.batchId, ...row]));
