import type { EventStore } from '../../src/store/port.ts';

/** A store that nobody writes to, for what does not ask it. */
export const emptyStore: EventStore = {
  append: () => Promise.resolve([]),
  readStream: () => Promise.resolve([]),
  listStreams: () => Promise.resolve([]),
  streamState: (streamId) => Promise.resolve({ streamId, last: 0 }),
  readAll: () => Promise.resolve([]),
  readGrown: () => Promise.resolve({ streams: [], mark: 0 }),
  close: () => Promise.resolve(),
};
