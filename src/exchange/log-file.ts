import { z } from 'zod';
import { InputError } from '../numbers/validity.ts';
import type { Event } from '../record/event.ts';
import { inOrder } from '../record/order.ts';
import { parseEvent, VAT_KINDS } from '../record/parse-event.ts';

const LOG_FILE_VERSION = 1;

const logFileSchema = z.looseObject({
  format: z.literal('vatside-log'),
  version: z.int().min(1).max(LOG_FILE_VERSION),
  events: z.array(z.unknown()),
});

/** A log as one file to keep, to hand on, or to replay: one event a line, in order. */
export function logFileText(events: readonly Event[]): string {
  const lines = inOrder(events).map((event) => JSON.stringify(event));
  return `{"format":"vatside-log","version":${LOG_FILE_VERSION},"events":[\n${lines.join(',\n')}\n]}\n`;
}

/**
 * Reads a log file. Kinds this program does not know are kept.
 * @param kinds those whose bodies are looked at; the vat's where left out
 * @throws InputError with every problem and its path (`events[3].body.value`)
 */
export function parseLogFile(text: string, kinds = VAT_KINDS): Event[] {
  const { events } = envelopeOf(text);
  const read: Event[] = [];
  const problems = events.flatMap((json, index) => {
    try {
      read.push(parseEvent(json, kinds));
      return [];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return error.problems.map((problem) => ({ ...problem, field: `events[${index}].${problem.field}` }));
    }
  });
  if (problems.length > 0) throw new InputError(problems);
  return read;
}

function envelopeOf(text: string): z.infer<typeof logFileSchema> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw notALog('JSON text');
  }
  const parsed = logFileSchema.safeParse(json);
  if (!parsed.success) throw notALog(`"format": "vatside-log", "version" up to ${LOG_FILE_VERSION} and "events"`);
  return parsed.data;
}

function notALog(expected: string): InputError {
  return new InputError([
    {
      code: 'unreadable',
      field: 'file',
      value: undefined,
      expected,
      remedy: 'Choose a file that Vatside saved, or update the program if a newer one saved it.',
    },
  ]);
}
