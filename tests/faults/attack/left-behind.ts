import { readdirSync } from 'node:fs';
import { foldBatch } from '../../../src/record/fold.ts';
import { keptThings } from '../../../src/record/kept-things.ts';
import { ALL_KINDS } from '../../../src/record/keeping-events.ts';
import { parseEvent } from '../../../src/record/parse-event.ts';
import { canonicalText } from '../../../src/record/merge.ts';
import type { Event } from '../../../src/record/event.ts';
import { opened } from './opened-make.ts';
import type { Target } from './target.ts';

/** What stands in the store after an attack: only events that can be read, none altered, and everything can still be told from them. */
export async function left(input: {
  readonly target: Target;
  readonly folder: string;
}): Promise<{ events: number; wrong: string[] }> {
  const { target, folder } = input;
  const wrong: string[] = [];
  const streams = new Map<string, Event[]>();
  let events = 0;
  for (const { streamId, last } of await target.store.listStreams()) {
    const read: Event[] = [];
    for (let page = await target.store.readStream({ streamId, after: 0 }); page.length > 0;) {
      read.push(...page.map(({ event }) => event));
      page = await target.store.readStream({ streamId, after: page.at(-1)?.n ?? 0 });
    }
    if (read.length !== last) wrong.push(`${streamId} has ${read.length} events and says ${last}`);
    events += read.length;
    for (const event of read) wrong.push(...failureOf(`kept ${event.id}`, () => parseEvent(event, ALL_KINDS)));
    streams.set(streamId, read);
  }
  for (const event of opened()) {
    const kept = streams.get(event.streamId)?.find(({ id }) => id === event.id);
    if (canonicalText(kept) !== canonicalText(event)) wrong.push(`${event.id} is not as it was`);
  }
  for (const [streamId, read] of streams) {
    if (streamId.startsWith('batch:')) wrong.push(...failureOf(`the make ${streamId}`, () => foldBatch(read)));
  }
  wrong.push(...failureOf('what is kept', () => keptThings(streams)));
  for (const path of ['/api/health', '/api/ageing.ics', '/api/streams']) {
    const { status } = await target.ask(path, {});
    if (status !== 200) wrong.push(`${path} answers ${status} afterwards`);
  }
  const files = readdirSync(folder).filter((name) => !/^log\.sqlite(-wal|-shm)?$/.test(name));
  if (files.length > 0) wrong.push(`files that nobody asked for: ${files.join(', ')}`);
  return { events, wrong };
}

function failureOf(what: string, work: () => unknown): string[] {
  try {
    work();
    return [];
  } catch (error) {
    return [`${what}: ${error instanceof Error ? error.message : String(error)}`];
  }
}
