import type { ServedStore } from '../../src/store/kept-store.ts';

/** A store that nobody writes to, for what does not ask it. */
export const emptyStore: ServedStore = {
  append: () => Promise.resolve([]),
  readStream: () => Promise.resolve([]),
  listStreams: () => Promise.resolve([]),
  streamState: (streamId) => Promise.resolve({ streamId, last: 0 }),
  find: () => Promise.resolve([]),
  readAll: () => Promise.resolve([]),
  readGrown: () => Promise.resolve({ streams: [], mark: 0 }),
  batches: {
    list: () => Promise.resolve([]),
    newestOf: () => Promise.resolve(new Set()),
    newestStreams: () => Promise.resolve([]),
    relist: () => Promise.resolve(0),
  },
  identity: () => Promise.resolve('empty'),
  close: () => Promise.resolve(),
};
