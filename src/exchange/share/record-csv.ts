/** A record as a table: every entry in the order it happened, what was set right and what was taken back included. */
import type { BatchRecord, RecordEntry } from '../../record/batch-record.ts';
import type { JsonObject } from '../../record/event.ts';
import { csvText, type CsvCell } from './csv.ts';
import { isoInstant } from './iso-instant.ts';

export const RECORD_HEAD = [
  'lotCode', 'pot', 'happenedAt', 'loggedAt', 'elapsedMin', 'kind', 'standing', 'step', 'quantity', 'value', 'unit', 'sample', 'words', 'person', 'device', 'event', 'because', 'body',
] as const; // prettier-ignore

/**
 * @returns CSV: instants in UTC (ISO 8601), minutes since the batch's zero, values in the unit beside them, and the whole body as JSON
 */
export function recordCsv(record: BatchRecord): string {
  return csvText([[...RECORD_HEAD], ...recordRows(record)]);
}

/** The rows alone, of all entries or of those of one kind. */
export const recordRows = (record: BatchRecord, kind?: string): CsvCell[][] =>
  record.entries
    .filter((entry) => kind === undefined || entry.kind === kind)
    .flatMap((entry) => [...earlierRows(record, entry), rowOf(record, entry)]);

function earlierRows(record: BatchRecord, entry: RecordEntry): CsvCell[][] {
  return entry.was.map((was) => cells({ record, ...was, loggedAt: null, deviceId: entry.deviceId, eventId: entry.eventId, standing: `set right ${isoInstant(was.replacedAt)} by ${was.replacedBy}`, because: was.because ?? null })); // prettier-ignore
}

function rowOf(record: BatchRecord, entry: RecordEntry): CsvCell[] {
  const { retracted } = entry;
  const standing = retracted === null ? 'stands' : `taken back ${isoInstant(retracted.at)} by ${retracted.person}`;
  return cells({ record, ...entry, standing, because: null });
}

function cells(input: {
  readonly record: BatchRecord;
  readonly kind: string;
  readonly body: JsonObject;
  readonly at: number;
  readonly person: string;
  readonly loggedAt: number | null;
  readonly deviceId: string;
  readonly eventId: string;
  readonly standing: string;
  readonly because: string | null;
}): CsvCell[] {
  const { record, body, at, kind } = input;
  const value = first(body, ['value', 'amount', 'massKg']);
  return [
    record.lotCode, record.name, isoInstant(at), input.loggedAt === null ? null : isoInstant(input.loggedAt),
    Number(((at - record.zeroAt) / 60_000).toFixed(2)), kind, input.standing,
    text(body, ['stepId']), text(body, ['quantity', 'ingredient', 'judgement', 'what', 'item']), value, unitOf(kind, body), text(body, ['sample']),
    text(body, ['grade', 'said', 'text', 'words', 'note', 'choice', 'answer']), input.person, input.deviceId, input.eventId, input.because, JSON.stringify(body),
  ]; // prettier-ignore
}

const first = (body: JsonObject, names: readonly string[]): number | null => {
  for (const name of names) {
    const value = body[name];
    if (typeof value === 'number') return value;
  }
  return null;
};
const text = (body: JsonObject, names: readonly string[]): string | null => {
  for (const name of names) {
    const value = body[name];
    if (typeof value === 'string') return value;
  }
  return null;
};

/** Units of what is read, by the last part of the quantity's name; as they stand in an event. */
const UNITS: Readonly<Record<string, string>> = { temperatureC: 'C', titratableAcidityD: 'D', flocculationMin: 'min', massKg: 'kg', wheyL: 'L', saltG: 'g', iceWaterC: 'C' }; // prettier-ignore

function unitOf(kind: string, body: JsonObject): string | null {
  const unit = body['unit'];
  if (typeof unit === 'string') return unit;
  if (kind === 'weighed') return 'kg';
  const quantity = body['quantity'];
  return typeof quantity === 'string' ? (UNITS[quantity] ?? null) : null;
}
