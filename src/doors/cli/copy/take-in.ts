/** Taking a copy into a store: looked through to its last line first, then written in steps that are each whole. */
import { InputError, type Problem } from '../../../numbers/validity.ts';
import { isDemoStream, type Event } from '../../../record/event.ts';
import { isSameEvent } from '../../../record/merge.ts';
import type { EventStore } from '../../../store/port.ts';
import { readCopyFile } from './read-copy-file.ts';

/** Events written in one step: few enough for every engine's transactions. */
const STEP = 500;
const MOST_PROBLEMS = 20;

/** What became of a copy. */
export interface TakenIn {
  readonly added: number;
  readonly known: number;
  /** Events of the worked example, which are no record and are passed over. */
  readonly demo: number;
}

/** Writing stopped in the middle: what is in is whole, and the same command goes on where it stopped. */
export class TakingStoppedError extends Error {
  constructor(input: { readonly file: string; readonly taken: TakenIn; readonly cause: unknown }) {
    const { file, taken, cause } = input;
    const why = cause instanceof Error ? cause.message : String(cause);
    super(`${file}: stopped after ${taken.added + taken.known} events, all of them whole in the store: ${why} The same command goes on from there; what is in already is passed over.`, { cause }); // prettier-ignore
    this.name = 'TakingStoppedError';
  }
}

/**
 * Holds a copy to its word and to the store, and writes nothing.
 * @throws InputError with the faults of the file, or every event that the store has with other content; UsageError
 */
export async function checkCopy(store: EventStore, file: string): Promise<void> {
  try {
    await checkEvents(store, file);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    throw new InputError(error.problems.map((problem) => ({ ...problem, field: `${file}, ${problem.field}` })));
  }
}

async function checkEvents(store: EventStore, file: string): Promise<void> {
  const problems: Problem[] = [];
  for await (const { events } of stepsOf(file)) {
    const known = new Map((await store.find(events.map(({ id }) => id))).map((event) => [event.id, event]));
    for (const event of events) {
      const before = known.get(event.id);
      known.set(event.id, event);
      if (before === undefined || isSameEvent(before, event)) continue;
      problems.push({ code: 'contradiction', field: 'id', value: event.id, expected: 'what the store has under this id, or an id of its own', remedy: 'Events are never edited, so one of the two was altered. Nothing was taken in.' }); // prettier-ignore
      if (problems.length >= MOST_PROBLEMS) throw new InputError(problems);
    }
  }
  if (problems.length > 0) throw new InputError(problems);
}

/**
 * Writes what a copy holds and the store has not; doing it again adds nothing. Check it first.
 * @throws TakingStoppedError when a step failed; the steps before it stand
 */
export async function takeCopy(store: EventStore, file: string): Promise<TakenIn> {
  let taken: TakenIn = { added: 0, known: 0, demo: 0 };
  try {
    for await (const { events, demo } of stepsOf(file)) {
      const answers = await store.append(events);
      const added = answers.filter(({ state }) => state === 'added').length;
      taken = { added: taken.added + added, known: taken.known + answers.length - added, demo: taken.demo + demo };
    }
    return taken;
  } catch (error) {
    throw new TakingStoppedError({ file, taken, cause: error });
  }
}

async function* stepsOf(file: string): AsyncGenerator<{ readonly events: Event[]; readonly demo: number }> {
  let events: Event[] = [];
  let demo = 0;
  for await (const event of readCopyFile(file)) {
    if (isDemoStream(event.streamId)) demo++;
    else events.push(event);
    if (events.length < STEP) continue;
    yield { events, demo };
    events = [];
    demo = 0;
  }
  if (events.length + demo > 0) yield { events, demo };
}
