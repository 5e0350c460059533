/**
 * A copy of a log as open text (NDJSON): a first line that says what it is and how much, one event a line, and a last line with
 * the sum of all before it. The lines are those of `docs/copy.schema.json`.
 */
import { z } from 'zod';
import { LARGEST_EVENT_CHARS, type Event } from '../../record/event.ts';
import { canonicalText } from '../../record/merge.ts';

export const COPY_FORMAT = 'vatside-copy';
export const COPY_VERSION = 1;
/** Beside the copy, where the schema is handed on with it. */
export const COPY_SCHEMA = 'copy.schema.json';

/** Longest line: an event at its largest, every character of it written as an escape of six. */
export const LONGEST_LINE_CHARS = 6 * LARGEST_EVENT_CHARS;

const counts = { streams: z.int().min(0), events: z.int().min(0) };

export const copyHeaderSchema = z.strictObject({
  format: z.literal(COPY_FORMAT),
  version: z.literal(COPY_VERSION),
  schema: z.literal(COPY_SCHEMA),
  ...counts,
});
export const copyEndSchema = z.strictObject({
  end: z.literal(COPY_FORMAT),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});

/** How much a copy holds. */
export interface CopyCounts {
  readonly streams: number;
  readonly events: number;
}

/** The first line, with its line end. */
export const headerLine = ({ streams, events }: CopyCounts): string =>
  `${JSON.stringify({ format: COPY_FORMAT, version: COPY_VERSION, schema: COPY_SCHEMA, streams, events })}\n`;

/**
 * Signs that break a line in some readers, or turn the words after them round; inside JSON they can only stand in strings, and
 * mean the same as escapes.
 */
const LOOSE = /[\u007F-\u009F\u061C\u200E\u200F\u2028-\u202E\u2066-\u2069\uFEFF]/g;

/** One event, with its line end: fields in one order, so that the same event is always the same line. */
export const eventLine = (event: Event): string =>
  `${canonicalText(event).replaceAll(LOOSE, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`)}\n`;

/** The last line, with its line end. @param sha256 of every byte before it */
export const endLine = (sha256: string): string => `${JSON.stringify({ end: COPY_FORMAT, sha256 })}\n`;
