import { beginsAsCopy } from '../../exchange/copy/read-copy.ts';
import { parseLogFile } from '../../exchange/log-file.ts';
import { InputError, type Problem } from '../../numbers/validity.ts';
import type { Event } from '../../record/event.ts';
import { ALL_KINDS } from '../../record/keeping-events.ts';
import { parseEvent } from '../../record/parse-event.ts';
import { readJson } from './make-files.ts';
import type { World } from './world.ts';

/**
 * The events of a record file: a copy, a saved log of the older form, `{"events": [...]}`, or a bare list.
 * @throws InputError with every event that cannot be read and its place
 */
export function readRecordFile(world: World, file: string): Event[] {
  let text: string;
  try {
    text = world.readFile(file);
  } catch {
    throw refused({ code: 'unreadable', value: file, expected: 'a file that can be read', remedy: 'Check the path and that you may read it.' }); // prettier-ignore
  }
  if (beginsAsCopy(text)) return parseLogFile(text, ALL_KINDS);
  const json = readJson({ text, field: 'record', named: file });
  const list = Array.isArray(json) ? json : isObject(json) ? json['events'] : undefined;
  if (!Array.isArray(list)) {
    throw refused({ code: 'wrong-type', value: file, expected: '{"events": [...]} or a list of events', remedy: 'Give a record that Vatside saved.' }); // prettier-ignore
  }
  const events: Event[] = [];
  const problems: Problem[] = [];
  for (const [index, item] of list.entries()) {
    try {
      events.push(parseEvent(item, ALL_KINDS));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      problems.push(...error.problems.map((problem) => ({ ...problem, field: `events[${index}].${problem.field}` })));
    }
  }
  if (problems.length > 0) throw new InputError(problems);
  return events;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const refused = (problem: Omit<Problem, 'field'>): InputError => new InputError([{ ...problem, field: 'record' }]);
