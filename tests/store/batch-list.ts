import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Event, JsonObject } from '../../src/record/event.ts';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';
import type { ListedStore } from '../../src/store/batch-list.ts';

const START = 1_790_000_000_000;
const DAY = 86_400_000;

/** A dairy that writes into a store; times and ids come from a count. */
export function dairy() {
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const note = (streamId: string, kind: string, body: JsonObject): Event => {
    const at = START + device.deviceSeq * 1000;
    const randomBytes = new Uint8Array(10);
    new DataView(randomBytes.buffer).setUint32(2, device.deviceSeq);
    const made = newEvent({ kind, body, streamId, happenedAt: at, loggedAt: at, person: 'M', device, randomBytes });
    device = made.device;
    return made.event;
  };
  const open = (name: string, day: number, makeId = 'tomme'): Event =>
    note(`batch:${name.toLowerCase().replaceAll(/[^a-z]/g, '')}`, 'batchOpened', {
      make: { id: makeId, name: makeId === 'tomme' ? 'Tomme' : 'Crème fraîche' },
      answers: { milk: { volumeL: 40 } },
      name,
      lotCode: `LK-${day}`,
      zeroAt: START + day * DAY,
    });
  return { note, open };
}

/** What every driver that lists batches promises; run once for each. */
export function batchListContract(
  name: string,
  newPlace: () => { open(): Promise<ListedStore>; remove(): Promise<void> },
): void {
  describe(`the list of batches in the ${name} store`, () => {
    const place = newPlace();
    let store: ListedStore;
    let { note, open } = dairy();
    beforeEach(async () => {
      store = await place.open();
      ({ note, open } = dairy());
    });
    afterEach(async () => {
      await store.close();
      await place.remove();
    });
    const found = async (search: string) => (await store.batches.list({ search, limit: 50 })).map(({ name }) => name);

    it('shows of each what a list needs: its name, make, day and what came of it', async () => {
      await store.append([open('Ash', 3), note('batch:ash', 'stepStarted', { stepId: 'warm' })]);
      expect(await store.batches.list({ limit: 50 })).toMatchObject([
        { batchId: 'batch:ash', name: 'Ash', makeId: 'tomme', makeName: 'Tomme', lotCode: 'LK-3', zeroAt: START + 3 * DAY, state: 'running', milkL: 40, cheeseKg: null, finishedAt: null, last: 2 },
      ]); // prettier-ignore
      const weighed = note('batch:ash', 'weighed', { what: 'cheese', massKg: 4.1 });
      const over = note('batch:ash', 'batchFinished', {});
      await store.append([weighed, over]);
      await store.append([note('batch:ash', 'corrected', { replaces: weighed.id, kind: 'weighed', body: { what: 'cheese', massKg: 4.4 } })]); // prettier-ignore
      expect(await store.batches.list({ limit: 50 })).toMatchObject([{ state: 'over', cheeseKg: 4.4, finishedAt: over.happenedAt, last: 5 }]); // prettier-ignore
      await store.append([note('batch:ash', 'retracted', { replaces: over.id })]);
      expect(await store.batches.list({ limit: 50 })).toMatchObject([{ state: 'running', finishedAt: null }]);
    });

    it('lists the newest first, page by page, of all makes or of one', async () => {
      const names = ['Ash', 'Birch', 'Cedar', 'Dogwood', 'Elm', 'Fir', 'Gorse'];
      // Two of one day, in the order of their ids.
      await store.append(
        names.map((one, index) => open(one, index < 2 ? 0 : index, index % 2 === 0 ? 'tomme' : 'creme')),
      );
      const pages: string[][] = [];
      for (let before: string | undefined; ;) {
        const page = await store.batches.list({ limit: 3, ...(before === undefined ? {} : { before }) });
        if (page.length === 0) break;
        pages.push(page.map(({ name }) => name));
        before = page.at(-1)?.batchId;
      }
      expect(pages).toEqual([['Gorse', 'Fir', 'Elm'], ['Dogwood', 'Cedar', 'Birch'], ['Ash']]);
      expect((await store.batches.list({ makeId: 'creme', limit: 2 })).map(({ name }) => name)).toEqual(['Fir', 'Dogwood']); // prettier-ignore
      expect(await store.batches.list({ before: 'batch:rowan', limit: 3 })).toEqual([]);
    });

    it('finds a batch by words of its name, lot, make and notes, whatever capitals and accents they have', async () => {
      await store.append([
        open('Ash', 1), open('Bîrch', 2, 'creme'), note('batch:ash', 'noted', { text: 'Très mousseux: 100 % foam_ed' }),
        note('batch:brch', 'tasted', { words: 'Señor says: like hazelnuts' }),
      ]); // prettier-ignore
      expect(await found('ASH')).toEqual(['Ash']);
      expect(await found('birch')).toEqual(['Bîrch']);
      expect(await found('lk-2')).toEqual(['Bîrch']);
      expect(await found('creme fraiche')).toEqual(['Bîrch']);
      expect(await found('mousseux tres')).toEqual(['Ash']);
      expect(await found('senor HAZEL')).toEqual(['Bîrch']);
      expect(await found('senor mousseux')).toEqual([]);
      // Signs that mean something to a search of the engine mean themselves.
      expect(await found('100 %')).toEqual(['Ash']);
      expect(await found('foam_ed')).toEqual(['Ash']);
      expect(await found('foamXed')).toEqual([]);
      expect(await found('%%')).toEqual([]);
      expect(await found('\\')).toEqual([]);
      expect(await found('’ or 1=1 --')).toEqual([]);
      expect(await found('')).toEqual(['Bîrch', 'Ash']);
    });

    it('does not list what was never opened, or whose opening was taken back, and lists it once it is opened', async () => {
      await store.append([note('batch:ash', 'noted', { text: 'before all' })]);
      expect(await found('')).toEqual([]);
      const opened = open('Ash', 1);
      await store.append([opened]);
      expect(await found('before')).toEqual(['Ash']);
      await store.append([note('batch:ash', 'retracted', { replaces: opened.id })]);
      expect(await found('')).toEqual([]);
    });

    it('tells which streams a device follows: all that are no batches, and the newest batches', async () => {
      await store.append([open('Ash', 1), open('Birch', 2), open('Cedar', 3), note('lot:r', 'lotReceived', { lotKind: 'rennet', name: 'Rennet' })]); // prettier-ignore
      const streams = await store.batches.newestStreams({ count: 2 });
      expect(streams).toHaveLength(3);
      expect(new Set(streams)).toEqual(new Set([{ streamId: 'lot:r', last: 1 }, { streamId: 'batch:cedar', last: 1 }, { streamId: 'batch:birch', last: 1 }])); // prettier-ignore
      const newest = (count: number) => store.batches.newestOf({ count, among: ['batch:ash', 'batch:cedar', 'batch:rowan'] }); // prettier-ignore
      expect([...(await newest(2))]).toEqual(['batch:cedar']);
      expect((await newest(50)).size).toBe(2);
    });

    it('tells of as many batches as a whole dairy brings in at once', async () => {
      await store.append([open('Ash', 1), open('Birch', 2)]);
      const among = [...Array.from({ length: 70_000 }, (_, nth) => `batch:no-${nth}`), 'batch:birch', 'batch:ash'];
      expect(await store.batches.newestOf({ count: 1, among })).toEqual(new Set(['batch:birch']));
    });

    it('lets no entries for makes that were never opened push the others out of what devices follow', async () => {
      const far = { ...note('batch:forged', 'noted', { text: 'foam' }), happenedAt: START + 1000 * DAY };
      await store.append([open('Ash', 1), far]);
      expect(await store.batches.newestStreams({ count: 1 })).toEqual([{ streamId: 'batch:ash', last: 1 }]);
      expect(await store.batches.newestStreams({ count: 2 })).toHaveLength(2);
    });

    it('takes names with signs that an engine cannot keep in its tables, and a make whose id has no end', async () => {
      const endless = `tomme-${Array.from({ length: 2000 }, (_, nth) => String.fromCharCode(48 + ((nth * nth * 7 + nth) % 75))).join('')}`;
      const opened = open('Ash', 1, endless);
      const named = { ...opened, body: { ...opened.body, name: 'Ash\u0000birch', lotCode: '\u0000' } };
      await store.append([named, note('batch:ash', 'noted', { text: 'foam\u0000sour' })]);
      expect(await store.readStream({ streamId: 'batch:ash', after: 0 })).toMatchObject([{ event: named }, { n: 2 }]);
      expect(await found('foam\u0000')).toEqual(['Ash birch']);
      expect(await store.batches.list({ makeId: endless, limit: 2 })).toHaveLength(1);
      expect(await store.batches.list({ makeId: '\u0000', limit: 2 })).toEqual([]);
    }); // prettier-ignore

    it('makes the list anew from the events, and comes to the same', async () => {
      await store.append(Array.from({ length: 170 }, (_, index) => open(`Pot ${'abcdefghij'[index % 10]}${'abcdefghijklmnopq'[Math.floor(index / 10)]}`, index))); // prettier-ignore
      await store.append([note('batch:potaa', 'noted', { text: 'mousse' }), note('lot:r', 'lotReceived', { lotKind: 'rennet', name: 'Rennet' })]); // prettier-ignore
      const before = await store.batches.list({ limit: 200 });
      const told: number[] = [];
      expect(await store.batches.relist({ onBatches: (done) => told.push(done) })).toBe(170);
      expect(await store.batches.list({ limit: 200 })).toEqual(before.map((one) => ({ ...one, changedAt: expect.any(Number) as number }))); // prettier-ignore
      expect(before).toHaveLength(170);
      expect(await found('mousse')).toEqual(['Pot aa']);
      expect(told.at(-1)).toBe(170);
    });
  });
}
