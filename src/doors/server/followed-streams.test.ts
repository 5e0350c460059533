import { describe, expect, it } from 'vitest';
import { emptyStore } from '../../../tests/store/empty-store.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { followedStreams, MOST_GROWN } from './followed-streams.ts';

const batch = (index: number) => ({ streamId: `batch:${index}`, last: 3 });
const PLACE = { streamId: 'place:cave', last: 1 };

/** A dairy of so many batches, one place to age them in, and nothing else; all of it has grown since any mark. */
function dairyOf(batches: number): ServedStore {
  const all = Array.from({ length: batches }, (_, index) => batch(index));
  return {
    ...emptyStore,
    readGrown: ({ most }) => Promise.resolve({ streams: all.slice(0, most), mark: 7 }),
    listStreams: () => Promise.reject(new Error('Nobody needs all of a large dairy.')),
    batches: {
      ...emptyStore.batches,
      newestStreams: ({ count }) => Promise.resolve([PLACE, ...all.slice(-count)]),
    },
  };
}

describe('what a device of a dairy of 100,000 batches is told of', () => {
  const store = dairyOf(100_000);
  const told = (query: object) => followedStreams({ store, query });

  it('is every place and lot and the newest thousand batches, where it does not say what it wants', async () => {
    const { streams, mark } = await told({});
    expect([streams.length, streams[0], streams.at(-1), mark]).toEqual([1001, PLACE, batch(99_999), 7]);
  });

  it('is as much as one that opens is told, and what grew last, where more has grown than is told one by one', async () => {
    const { streams } = await told({ since: 0 });
    expect(streams).toHaveLength(1 + 300 + MOST_GROWN);
    expect(streams).toContainEqual(PLACE);
    expect(streams).toContainEqual(batch(99_999));
    expect(streams).toContainEqual({ ...batch(0), isOld: true });
  });

  it('is what has grown and no more, in a dairy where little has', async () => {
    const { streams } = await followedStreams({ store: dairyOf(2), query: { since: 5 } });
    expect(streams.map(({ streamId }) => streamId)).toEqual(['batch:0', 'batch:1']);
  });
});
