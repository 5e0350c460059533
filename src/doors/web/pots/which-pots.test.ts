import { describe, expect, it } from 'vitest';
import type { Event } from '../../../record/event.ts';
import { foldBatch } from '../../../record/fold.ts';
import { newEvent } from '../../../record/new-event.ts';
import type { Note } from '../log/event-log.ts';
import { heardFrom, whichPots } from './which-pots.ts';

const NINE = Date.UTC(2026, 2, 4, 9, 0);
let seq = 0;
const noted = (note: Note, deviceId: string, at = NINE): Event => {
  seq += 1;
  return newEvent({ ...note, happenedAt: at, loggedAt: at, person: '', device: { deviceId, deviceSeq: seq, clock: undefined }, randomBytes: new Uint8Array(10).fill(seq) }).event; // prettier-ignore
};
const opened = (name: string, more: { zeroAt?: number; demo?: boolean; nth?: number } = {}): Event => {
  const { zeroAt = NINE, demo, nth } = more;
  const together = nth === undefined ? {} : { together: { id: 'k', of: 3, nth } };
  return noted({ kind: 'batchOpened', streamId: `batch:${name}`, body: { make: {}, answers: { milk: { volumeL: 12 } }, name, lotCode: name, zeroAt, demo, ...together } }, 'tablet'); // prettier-ignore
};
const streams = (...events: readonly Event[]): Map<string, Event[]> =>
  new Map(events.map(({ streamId }) => [streamId, events.filter((one) => one.streamId === streamId)]));
const names = (records: readonly { readonly name: string }[]): string[] => records.map(({ name }) => name);

describe('the pots on the screen', () => {
  it('stand in the order in which they begin', () => {
    const { running } = whichPots(streams(opened('Cedar', { zeroAt: NINE + 2 }), opened('Birch', { nth: 2 }), opened('Ash', { nth: 1 }))); // prettier-ignore
    expect(names(running)).toEqual(['Ash', 'Birch', 'Cedar']);
  });

  it('leave the worked example aside as soon as there is one of the maker’s own', () => {
    const example = opened('Example', { demo: true });
    expect(names(whichPots(streams(example)).running)).toEqual(['Example']);
    expect(names(whichPots(streams(example, opened('Ash'))).running)).toEqual(['Ash']);
  });

  it('keep those of the class in sight that are over', () => {
    const joined = noted({ kind: 'joined', streamId: 'batch:Ash', body: { way: 'gave', pot: 'batch:Birch', name: 'Birch' } }, 'tablet', NINE + 9); // prettier-ignore
    const { running, over } = whichPots(streams(opened('Ash', { nth: 1 }), joined, opened('Birch', { nth: 2 })));
    expect([names(running), names(over)]).toEqual([['Birch'], ['Ash']]);
  });

  it('say when another device was last heard of, and nothing of this one', () => {
    const record = foldBatch([opened('Ash'), noted({ kind: 'noted', streamId: 'batch:Ash', body: { text: 'curd' } }, 'phone', NINE + 60_000)]); // prettier-ignore
    expect(heardFrom({ record, deviceId: 'tablet' })).toBe(NINE + 60_000);
    expect(heardFrom({ record, deviceId: 'phone' })).toBeNull();
  });
});
