/** Reading a copy line by line, so that one of any size can be held to its word before a single event is taken in. */
import { InputError, type Problem } from '../../numbers/validity.ts';
import { LARGEST_EVENT_CHARS, type Event } from '../../record/event.ts';
import { parseEvent, problemsOf, type EventKinds } from '../../record/parse-event.ts';
import { checkedJson, DEEPEST } from './checked-json.ts';
import { COPY_FORMAT, copyEndSchema, copyHeaderSchema, LONGEST_LINE_CHARS, type CopyCounts } from './copy-format.ts';
import type { Sum } from './sha256.ts';

/** A file that is something else has a fault a line; so many are told, and the rest is not read. Our own choice. */
const MOST_PROBLEMS = 20;
const ANOTHER_COPY = 'It was cut off or altered on the way: take another copy.';

/** True for text that begins as a copy does. */
export function beginsAsCopy(text: string): boolean {
  const read = checkedJson(text.slice(0, LONGEST_LINE_CHARS).split('\n', 1)[0] ?? '');
  return 'json' in read && fieldOf(read.json, 'format') === COPY_FORMAT;
}

/** One reading of one copy. */
export class CopyReader {
  readonly #sum: Sum;
  readonly #kinds: EventKinds;
  readonly #problems: Problem[] = [];
  readonly #streams = new Set<string>();
  #header: CopyCounts | null = null;
  #lines = 0;
  #events = 0;
  #isEnded = false;

  /** @param input.sum  a sum that nothing was put into yet; SHA-256 */
  constructor(input: { readonly sum: Sum; readonly kinds: EventKinds }) {
    this.#sum = input.sum;
    this.#kinds = input.kinds;
  }

  /**
   * Takes the next line, without its line end.
   * @returns the event in it; null for the first and the last line and for one with a fault, which `end` tells
   * @throws InputError when it cannot be a copy, or has too many faults to read on
   */
  line(text: string): Event | null {
    this.#lines++;
    if (text.length > LONGEST_LINE_CHARS) this.#stop(text, `at most ${LONGEST_LINE_CHARS} characters a line`, ANOTHER_COPY); // prettier-ignore
    if (this.#isEnded) this.#stop(text, 'nothing after the last line', ANOTHER_COPY);
    const read = checkedJson(text);
    if (this.#header === null) {
      this.#readHeader(text, 'json' in read ? read.json : null);
      return null;
    }
    if (!('json' in read)) {
      this.#note(text, read.fault === 'no-json' ? 'JSON text' : `JSON nested at most ${DEEPEST} deep`);
      this.#sum.update(`${text}\n`);
      return null;
    }
    if (fieldOf(read.json, 'end') !== undefined) {
      this.#readEnd(read.json);
      return null;
    }
    this.#sum.update(`${text}\n`);
    return this.#readEvent(read.json, text);
  }

  /**
   * The file is over.
   * @returns how much was in it
   * @throws InputError with everything that does not fit, by line and field
   */
  end(): CopyCounts {
    const found = { streams: this.#streams.size, events: this.#events };
    if (this.#lines === 0) this.#stop('', 'a file that Vatside saved', ANOTHER_COPY);
    if (!this.#isEnded) {
      this.#lines++;
      this.#note('', 'a last line with the sum of all before it', ANOTHER_COPY);
    }
    if (this.#problems.length > 0) throw new InputError(this.#problems);
    for (const name of ['streams', 'events'] as const) {
      const said = this.#header?.[name];
      if (said !== found[name]) this.#problems.push({ code: 'contradiction', field: `line 1: ${name}`, value: said, expected: `${found[name]}, as the lines say`, remedy: ANOTHER_COPY }); // prettier-ignore
    }
    if (this.#problems.length > 0) throw new InputError(this.#problems);
    return found;
  }

  #readHeader(text: string, json: unknown): void {
    const read = copyHeaderSchema.safeParse(json);
    if (read.success) {
      this.#header = read.data;
      this.#sum.update(`${text}\n`);
      return;
    }
    if (fieldOf(json, 'format') !== COPY_FORMAT) this.#stop(text, `a first line with "format": "${COPY_FORMAT}"`, 'Choose a file that Vatside saved, or update the program if a newer one saved it.'); // prettier-ignore
    throw new InputError(this.#atLine(problemsOf(read.error, ''), 'Choose a file that Vatside saved, or update the program if a newer one saved it.')); // prettier-ignore
  }

  #readEnd(json: unknown): void {
    this.#isEnded = true;
    const read = copyEndSchema.safeParse(json);
    if (!read.success) this.#problems.push(...this.#atLine(problemsOf(read.error, ''), ANOTHER_COPY));
    else {
      const sum = this.#sum.hex();
      if (read.data.sha256 !== sum) this.#problems.push({ code: 'contradiction', field: `line ${this.#lines}: sha256`, value: read.data.sha256, expected: `${sum}, the sum of all before it`, remedy: ANOTHER_COPY }); // prettier-ignore
    }
  }

  #readEvent(json: unknown, text: string): Event | null {
    this.#events++;
    if (text.length > LARGEST_EVENT_CHARS && JSON.stringify(json).length > LARGEST_EVENT_CHARS) {
      this.#note(text, `an event of at most ${LARGEST_EVENT_CHARS} characters`);
      return null;
    }
    try {
      const event = parseEvent(json, this.#kinds);
      this.#streams.add(event.streamId);
      return event;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      this.#add(this.#atLine(error.problems));
      return null;
    }
  }

  #atLine(problems: readonly Problem[], remedy?: string): Problem[] {
    return problems.map((problem) => ({
      ...problem,
      field: `line ${this.#lines}: ${problem.field}`,
      ...(remedy === undefined ? {} : { remedy }),
    }));
  }

  #note(text: string, expected: string, remedy = ANOTHER_COPY): void {
    this.#add([{ code: 'unreadable', field: `line ${this.#lines}`, value: text.slice(0, 200), expected, remedy }]);
  }

  #stop(text: string, expected: string, remedy: string): never {
    this.#note(text, expected, remedy);
    throw new InputError(this.#problems);
  }

  #add(problems: readonly Problem[]): void {
    this.#problems.push(...problems);
    if (this.#problems.length >= MOST_PROBLEMS) throw new InputError(this.#problems.slice(0, MOST_PROBLEMS));
  }
}

const fieldOf = (json: unknown, name: string): unknown =>
  typeof json === 'object' && json !== null && Object.hasOwn(json, name) ? Reflect.get(json, name) : undefined;
