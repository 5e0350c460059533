import { z } from 'zod';
import { InputError, type Problem } from '../numbers/validity.ts';
import { LARGEST_EVENT_CHARS, type Event } from '../record/event.ts';
import { parseEvent, VAT_KINDS, type EventKinds } from '../record/parse-event.ts';
import { checkedJson, DEEPEST } from './copy/checked-json.ts';
import { beginsAsCopy, CopyReader } from './copy/read-copy.ts';
import { sha256 } from './copy/sha256.ts';

/** The form that copies had before they were lines with a sum; read for ever, written no more. */
export const OLD_LOG_FORMAT = 'vatside-log';
const LOG_FILE_VERSION = 1;

const logFileSchema = z.looseObject({
  format: z.literal(OLD_LOG_FORMAT),
  version: z.int().min(1).max(LOG_FILE_VERSION),
  events: z.array(z.unknown()),
});

/**
 * Reads a log file whole: a copy, or the form that copies had before. Kinds this program does not know are kept.
 * @param kinds those whose bodies are looked at; the vat's where left out
 * @throws InputError with every problem and its place (`line 4: body.value`, `events[3].body.value`)
 */
export function parseLogFile(text: string, kinds = VAT_KINDS): Event[] {
  if (beginsAsCopy(text)) return parseCopy(text, kinds);
  const { events } = envelopeOf(text);
  const read: Event[] = [];
  const problems = events.flatMap((json, index): readonly Problem[] => {
    // No server would take it, and all that waits behind it would wait for ever.
    if (JSON.stringify(json).length > LARGEST_EVENT_CHARS) return [{ code: 'unreadable', field: `events[${index}]`, value: undefined, expected: `at most ${LARGEST_EVENT_CHARS} characters`, remedy: 'Choose a file that Vatside saved, or update the program if a newer one saved it.' }]; // prettier-ignore
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

function parseCopy(text: string, kinds: EventKinds): Event[] {
  const reader = new CopyReader({ sum: sha256(), kinds });
  const lines = text.endsWith('\n') ? text.slice(0, -1).split('\n') : text.split('\n');
  const events = lines.flatMap((line) => reader.line(line) ?? []);
  reader.end();
  return events;
}

function envelopeOf(text: string): z.infer<typeof logFileSchema> {
  const read = checkedJson(text);
  if (!('json' in read)) throw notALog(read.fault === 'no-json' ? 'JSON text' : `JSON nested at most ${DEEPEST} deep`);
  const parsed = logFileSchema.safeParse(read.json);
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
