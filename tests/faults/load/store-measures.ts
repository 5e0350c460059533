import { z } from 'zod';
import { eventSchema, type Event } from '../../../src/record/event.ts';
import { foldBatch } from '../../../src/record/fold.ts';
import { RARE } from './grown-store.ts';
import { timesOf, type Times } from './percentile.ts';

const batchesSchema = z.object({ batches: z.array(z.object({ batchId: z.string(), makeId: z.string(), name: z.string(), lotCode: z.string() })) }); // prettier-ignore
const eventsSchema = z.object({ events: z.array(z.object({ n: z.int(), event: z.unknown() })), last: z.int() });
const checked = (event: unknown): Event => eventSchema.parse(event);
const streamsSchema = z.object({ streams: z.array(z.object({ streamId: z.string(), last: z.int() })), mark: z.int() });
type Listed = z.infer<typeof batchesSchema>['batches'];

/** What is asked of a server again and again, by the name that the figures have. */
export const ASKED = ['open', 'list', 'older', 'compare', 'search', 'rareSearch', 'note', 'start', 'exchange'] as const;
export type Asked = (typeof ASKED)[number];

export interface Measured {
  readonly times: Readonly<Record<Asked, Times>>;
  /** What was not as it should be, one sentence each. */
  readonly wrong: readonly string[];
}

/** Asks a running server for what a maker with many batches asks for, and holds each answer to what it must be. */
export async function measureStore(input: {
  readonly url: string;
  readonly rounds: number;
  readonly batches: number;
  readonly chance: () => number;
}): Promise<Measured> {
  const { url, rounds, batches, chance } = input;
  const wrong = new Set<string>();
  const times = Object.fromEntries(ASKED.map((name) => [name, [] as number[]])) as Record<Asked, number[]>;
  const timed = async <T>(name: Asked, work: () => Promise<T>): Promise<T> => {
    const started = performance.now();
    const result = await work();
    times[name].push(performance.now() - started);
    return result;
  };
  const json = async <T>(schema: z.ZodType<T>, path: string): Promise<T> => {
    const answer = await fetch(`${url}${path}`);
    if (!answer.ok) throw new Error(`${path} was answered with ${answer.status}`);
    return schema.parse(await answer.json());
  };
  const list = (query: string): Promise<Listed> => json(batchesSchema, `/api/batches?limit=50${query}`).then((answer) => answer.batches); // prettier-ignore
  const events = (id: string): Promise<unknown[]> => json(eventsSchema, `/api/streams/${id}/events`).then((page) => page.events.map(({ event }) => event)); // prettier-ignore
  const one = <T>(from: readonly T[]): T => from[Math.floor(chance() * from.length)]!;
  const expect = (holds: boolean, what: string): void => void (holds || wrong.add(what));

  const newest = await list('');
  let mark = (await json(streamsSchema, '/api/streams?newest=1')).mark;
  let page = newest;
  for (let round = 0; round < rounds; round++) {
    const listed = await timed('list', () => list(''));
    expect(listed.length === Math.min(50, batches), `the newest page has ${listed.length} batches`);
    // Onwards into the past, a page at a time, and from the start again at its end.
    page = await timed('older', () => list(`&before=${page.at(-1)?.batchId ?? ''}`));
    if (page.length < 50) page = newest;
    const { batchId, makeId, lotCode } = one(page);
    const opened = (await timed('open', () => events(batchId))).map(checked);
    expect(
      opened.length >= 50 && foldBatch(opened).lotCode === lotCode,
      `${batchId} opens with ${opened.length} events`,
    );
    const records = await timed('compare', async () => {
      const alike = await list(`&make=${makeId}`);
      return Promise.all(alike.slice(0, 4).map(({ batchId: id }) => events(id)));
    });
    expect(records.map((each) => foldBatch(each.map(checked))).every((record) => record.make?.['id'] === makeId), `a batch of another make than ${makeId} is beside it`); // prettier-ignore
    for (const words of [lotCode, one(page).name, makeId.replaceAll('-', ' '), 'foam milk']) {
      const found = await timed('search', () => list(`&search=${encodeURIComponent(words)}`));
      const isThere = words === lotCode ? found.some((batch) => batch.batchId === batchId) : found.length > 0;
      expect(isThere, `"${words}" is not found`);
    }
    for (const words of [RARE, 'nobody wrote this']) {
      const found = await timed('rareSearch', () => list(`&search=${encodeURIComponent(words)}`));
      expect(words === RARE || found.length === 0, `"${words}" is found`);
    }
    const answer = await timed('note', () => post(url, noteOf({ streamId: batchId, round, chance })));
    expect(answer.includes('"added"'), `a note was answered with ${answer.slice(0, 200)}`);
    const start = await timed('start', () => json(streamsSchema, '/api/streams?newest=300'));
    expect(start.streams.length === Math.min(300, batches), `a device that opens is told of ${start.streams.length} streams`); // prettier-ignore
    const grown = await timed('exchange', () => json(streamsSchema, `/api/streams?since=${mark}`));
    expect(
      grown.streams.some(({ streamId }) => streamId === batchId),
      'what has grown is not told',
    );
    mark = grown.mark;
  }
  return {
    times: Object.fromEntries(ASKED.map((name) => [name, timesOf(times[name])])) as Record<Asked, Times>,
    wrong: [...wrong],
  };
}

/** A note somebody adds to an old batch: it goes into the log and into what the batch is found by. */
function noteOf(input: { readonly streamId: string; readonly round: number; readonly chance: () => number }): Event {
  const at = Date.now();
  const id = `note-${input.round}-${Math.floor(input.chance() * 2 ** 48).toString(36)}-${at}`;
  return { id, streamId: input.streamId, kind: 'noted', version: 1, happenedAt: at, loggedAt: at, clock: `${String(at).padStart(15, '0')}-00000`, person: 'table 1', deviceId: `desk-${at}-${input.round}`, deviceSeq: 0, body: { text: 'Rind brushed' } }; // prettier-ignore
}

async function post(url: string, event: Event): Promise<string> {
  const body = JSON.stringify({ events: [event] });
  const answer = await fetch(`${url}/api/events`, { method: 'POST', headers: { 'content-type': 'application/json' }, body }); // prettier-ignore
  return answer.text();
}
