import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { EventConflictError } from '../../src/record/merge.ts';
import type { EventStore, PlacedEvent } from '../../src/store/port.ts';
import { notingDevice } from './sample-events.ts';

/** A place that stores can be opened in again and again. */
export interface Place {
  open(): Promise<EventStore>;
  remove(): Promise<void>;
}

/** What every driver promises; run once for each. */
export function storeContract(name: string, newPlace: () => Place): void {
  describe(`the ${name} store`, () => {
    let place: Place;
    let store: EventStore;
    beforeEach(async () => {
      place = newPlace();
      store = await place.open();
    });
    afterEach(async () => {
      await store.close();
      await place.remove();
    });

    it('gives back what was written, numbered by stream without holes', async () => {
      const note = notingDevice('tablet');
      const events = [note('foam'), note('lovely', 'batch:birch'), note('sour')];
      await store.append(events);
      expect(await store.readStream({ streamId: 'batch:ash', after: 0 })).toEqual([
        { n: 1, event: events[0] },
        { n: 2, event: events[2] },
      ]);
      expect(await store.listStreams()).toEqual([
        { streamId: 'batch:ash', last: 2 },
        { streamId: 'batch:birch', last: 1 },
      ]);
      expect(await store.streamState('batch:ash')).toEqual({ streamId: 'batch:ash', last: 2 });
      expect(await store.streamState('batch:rowan')).toEqual({ streamId: 'batch:rowan', last: 0 });
    });

    it('passes over events it already has, within one append and between two', async () => {
      const note = notingDevice('tablet');
      const event = note('foam');
      expect(await store.append([event, event])).toEqual([
        { id: event.id, state: 'added' },
        { id: event.id, state: 'known' },
      ]);
      expect(await store.append([event])).toEqual([{ id: event.id, state: 'known' }]);
      expect(await store.listStreams()).toEqual([{ streamId: 'batch:ash', last: 1 }]);
    });

    it('refuses an id that comes back with other content, and writes nothing of that append', async () => {
      const note = notingDevice('tablet');
      const event = note('foam');
      await store.append([event]);
      const altered = { ...event, body: { text: 'no foam' } };
      await expect(store.append([note('clear'), altered, note('late')])).rejects.toThrow(EventConflictError);
      expect((await store.readStream({ streamId: 'batch:ash', after: 0 })).map(({ event }) => event)).toEqual([event]);
      await store.append([note('clear again')]);
      expect(await store.listStreams()).toEqual([{ streamId: 'batch:ash', last: 2 }]);
    });

    it('takes the same fields in another order for the same event', async () => {
      const event = notingDevice('tablet')('foam');
      await store.append([event]);
      const { body, id, ...rest } = event;
      const shuffled = { body, ...rest, id };
      expect(JSON.stringify(shuffled)).not.toBe(JSON.stringify(event));
      expect(await store.append([shuffled])).toEqual([{ id: event.id, state: 'known' }]);
    });

    it('reads on from a place and no further than asked', async () => {
      const note = notingDevice('tablet');
      const events = Array.from({ length: 6 }, (_, index) => note(`look ${index}`));
      await store.append(events);
      const page = await store.readStream({ streamId: 'batch:ash', after: 2, limit: 2 });
      expect(page.map(({ n }) => n)).toEqual([3, 4]);
      expect(await store.readStream({ streamId: 'batch:rowan', after: 0 })).toEqual([]);
    });

    it('gives back everything once, stream by stream, however small the pages', async () => {
      const note = notingDevice('tablet');
      const streams = ['batch:ash', 'batch:9', 'batch:ash-2', 'batch:Birch', 'batch:ash.1'];
      const events = Array.from({ length: 23 }, (_, index) => note(`look ${index}`, streams[(index * 7) % 5]));
      await store.append(events);
      const read: PlacedEvent[] = [];
      for (let page = await store.readAll({ after: 0, limit: 2 }); page.length > 0;) {
        read.push(...page);
        page = await store.readAll({ after: page.at(-1) ?? 0, limit: 2 });
      }
      expect(read).toHaveLength(23);
      const order = [...new Set(read.map(({ event }) => event.streamId))];
      expect(order.toSorted()).toEqual(streams.toSorted());
      const expected = order.flatMap((id) => events.filter((event) => event.streamId === id));
      expect(read.map(({ event }) => event)).toEqual(expected);
      expect((await store.readAll({ after: 0 })).map(({ n }) => n)).toEqual(read.map(({ n }) => n));
    });

    it('names the streams that another writer has made grow since a mark, and in the end no others', async () => {
      const note = notingDevice('tablet');
      await store.append([note('foam'), note('lovely', 'batch:birch')]);
      const other = await place.open();
      const { mark } = await other.readGrown({ since: undefined });
      await store.append([note('sour')]);
      const { streams, mark: next } = await other.readGrown({ since: mark });
      expect(streams).toContainEqual({ streamId: 'batch:ash', last: 2 });
      expect(next).toBeGreaterThanOrEqual(mark);
      // What is named again has not moved.
      const again = await other.readGrown({ since: next });
      for (const state of again.streams) expect(await store.streamState(state.streamId)).toEqual(state);
      // Of many, those that have grown last.
      await new Promise((resolve) => setTimeout(resolve, 5));
      await store.append([note('grainy', 'batch:birch')]);
      expect((await other.readGrown({ since: 0, most: 1 })).streams).toEqual([{ streamId: 'batch:birch', last: 2 }]);
      await other.close();
    });

    it('keeps kinds and versions it does not know, to the letter', async () => {
      const event = { ...notingDevice('tablet')('x'), kind: 'sprinkled', version: 9, body: { Ö: [1, { b: null }] } };
      await store.append([event]);
      expect(await store.readStream({ streamId: 'batch:ash', after: 0 })).toEqual([{ n: 1, event }]);
    });

    it('finds events by their ids, each once, and says nothing of those it has not', async () => {
      const note = notingDevice('tablet');
      const events = Array.from({ length: 250 }, (_, index) => note(`look ${index}`));
      await store.append(events);
      const ids = events.map(({ id }) => id);
      const found = await store.find([...ids.slice(20), 'nobody', ids[30] ?? '']);
      expect(new Set(found)).toEqual(new Set(events.slice(20)));
      expect(found).toHaveLength(230);
      expect(await store.find([])).toEqual([]);
    });

    it('has everything after it was closed and opened again', async () => {
      const note = notingDevice('tablet');
      const events = Array.from({ length: 250 }, (_, index) => note(`look ${index}`));
      await store.append(events);
      await store.close();
      store = await place.open();
      expect((await store.readAll({ after: 0 })).map(({ event }) => event)).toEqual(events);
      await store.append([note('after the break')]);
      expect(await store.listStreams()).toEqual([{ streamId: 'batch:ash', last: 251 }]);
    });

    it('keeps appends that were asked for at the same time whole and counted once', async () => {
      const devices = ['tablet', 'phone', 'probe'].map(notingDevice);
      await Promise.all(devices.flatMap((note) => [0, 1, 2, 3].map(() => store.append([note('a'), note('b')]))));
      const placed = await store.readStream({ streamId: 'batch:ash', after: 0 });
      expect(placed.map(({ n }) => n)).toEqual(Array.from({ length: 24 }, (_, index) => index + 1));
    });
  });
}
