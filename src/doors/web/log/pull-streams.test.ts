import { describe, expect, it } from 'vitest';
import { notingDevice } from '../../../../tests/store/sample-events.ts';
import type { Event } from '../../../record/event.ts';
import { pullStreams } from './pull-streams.ts';
import type { StreamPage } from './server-link.ts';

const note = notingDevice('phone');
/** Three batches on a server: so many events of each. */
const streams = new Map(['ash', 'birch', 'cedar'].map((name, at) => [`batch:${name}`, Array.from({ length: at + 2 }, (_, n) => note(`look ${n}`, `batch:${name}`))])); // prettier-ignore

/** A server that gives so many events in one answer, and fails for some streams. */
function serverOf(room: number, failing: readonly string[] = []) {
  const asked: string[][] = [];
  return {
    asked,
    pages(places: readonly { readonly streamId: string; readonly after: number }[]): Promise<StreamPage[]> {
      asked.push(places.map(({ streamId, after }) => `${streamId} ${after}`));
      if (places.some(({ streamId }) => failing.includes(streamId))) return Promise.reject(new Error('it failed'));
      const pages: StreamPage[] = [];
      let left = room;
      for (const { streamId, after } of places) {
        if (left <= 0) break;
        const all = streams.get(streamId) ?? [];
        const events = all.slice(after, after + left).map((event, index) => ({ n: after + index + 1, event }));
        pages.push({ streamId, events, last: all.length });
        left -= events.length;
      }
      return Promise.resolve(pages);
    },
  };
}

async function pulled(server: ReturnType<typeof serverOf>, refusing = '') {
  const taken: Event[] = [];
  const store = {
    takePulled: ({ events }: { readonly events: readonly Event[] }) => {
      if (events.some(({ streamId }) => streamId === refusing))
        return Promise.reject(new Error('exists with other content'));
      taken.push(...events);
      return Promise.resolve([]);
    },
  };
  const wanted = [...streams].map(([streamId, { length }]) => ({ streamId, after: 0, last: length }));
  const problems = pullStreams({ store, server, wanted, now: () => 0, onTaken: () => undefined });
  const failure = await problems.then(() => null, (error: unknown) => (error instanceof Error ? error.message : 'odd')); // prettier-ignore
  return { taken, failure, problems: failure === null ? await problems : [] };
}
const all = [...streams.values()].flat();

describe('many makes read on at once', () => {
  it('come whole and once, however little there is room for in one answer', async () => {
    for (const room of [1, 2, 4, 100]) {
      const server = serverOf(room);
      const { taken, failure } = await pulled(server);
      expect(failure).toBeNull();
      expect(taken.map(({ id }) => id).toSorted()).toEqual(all.map(({ id }) => id).toSorted());
      if (room === 100) expect(server.asked).toHaveLength(1);
    }
  });

  it('are all taken but the one that the server fails for, and the failure is told', async () => {
    const { taken, failure } = await pulled(serverOf(100, ['batch:birch']));
    expect(failure).toBe('it failed');
    expect(new Set(taken.map(({ streamId }) => streamId))).toEqual(new Set(['batch:ash', 'batch:cedar']));
  });

  it('are not asked for one by one where the server fails for all of them', async () => {
    const server = serverOf(100, [...streams.keys()]);
    expect((await pulled(server)).failure).toBe('it failed');
    expect(server.asked).toHaveLength(4);
  });

  it('are taken but the one that says something else than is known, with the problem told', async () => {
    const { taken, problems } = await pulled(serverOf(100), 'batch:ash');
    expect(problems).toEqual(['exists with other content']);
    expect(taken).toHaveLength(7);
  });
});
