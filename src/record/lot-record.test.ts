import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import type { Event } from './event.ts';
import { foldLot } from './lot-record.ts';
import { streamLog } from '../../tests/lot-log.ts';

const ZERO = 1_790_000_000_000;
const DAY = 86_400_000;

const received = { lotKind: 'rennet', name: 'Rennet, bottle 3', form: 'liquid', receivedOn: '2026-03-01' };
const tested = (p50: number): object => ({
  strengthImcuPerMl: { p5: p50 / 2, p50, p95: 2 * p50 },
  flocculationMin: 14,
  temperatureC: 33,
  milk: 'whole, pasteurised',
  milkMl: 100,
  drops: 1,
  makesCurd: 'yes',
});

/** Each line is [day, kind, body]; a number names an earlier event by its place. */
const lotLog = (lines: readonly (readonly [number, string, object | number])[], streamId = 'lot:three'): Event[] =>
  streamLog(streamId, lines.map(([day, kind, said]) => [ZERO + day * DAY, kind, said] as const)); // prettier-ignore

describe('a bottle of rennet in the log', () => {
  it('is known by name, form and day, and by every test it had, oldest first', () => {
    const lot = foldLot(lotLog([[0, 'lotReceived', received], [1, 'lotOpened', { openedOn: '2026-03-02' }], [40, 'lotTested', tested(180)], [9, 'lotTested', tested(200)]])); // prettier-ignore
    expect(lot).toMatchObject({ lotId: 'lot:three', isReceived: true, kind: 'rennet', form: 'liquid', strength: null });
    expect(lot).toMatchObject({ name: 'Rennet, bottle 3', receivedOn: '2026-03-01', openedOn: '2026-03-02' });
    expect(lot.tests.map((test) => test.strengthImcuPerMl.p50)).toEqual([200, 180]);
  });

  it('is the same in any order of its events, and told twice', () => {
    const events = lotLog([[0, 'lotReceived', received], [9, 'lotTested', tested(200)]]); // prettier-ignore
    expect(foldLot([...events].reverse().concat(events))).toEqual(foldLot(events));
  });

  it('forgets a test that was taken back, and remembers it when that too was taken back', () => {
    const log: [number, string, object | number][] = [[0, 'lotReceived', received], [9, 'lotTested', tested(200)], [9, 'retracted', 1]]; // prettier-ignore
    expect(foldLot(lotLog(log)).tests).toEqual([]);
    expect(foldLot(lotLog([...log, [10, 'retracted', 2]])).tests).toHaveLength(1);
  });

  it('takes the latest word on what it is', () => {
    const strength = { value: 200, unit: 'IMCU/mL' };
    const lot = foldLot(
      lotLog([
        [0, 'lotReceived', received],
        [3, 'lotReceived', { ...received, strength }],
      ]),
    );
    expect(lot.strength).toEqual(strength);
  });

  it('remembers what a packet treats and weighs, and when it was used up', () => {
    const packet = { lotKind: 'culture', name: 'Blue', form: 'freeze-dried', treatsL: 10, massG: 0.8 };
    const lot = foldLot(lotLog([[0, 'lotReceived', packet], [9, 'lotUsedUp', { usedUpOn: '2026-03-10' }]])); // prettier-ignore
    expect(lot).toMatchObject({ treatsL: 10, massG: 0.8, usedUpOn: '2026-03-10' });
    expect(foldLot(lotLog([[0, 'lotReceived', packet], [9, 'lotUsedUp', { usedUpOn: '2026-03-10' }], [9, 'retracted', 1]])).usedUpOn).toBeNull(); // prettier-ignore
  });

  it('refuses a test of a batch, a day that is none, and a strength of nothing', () => {
    expect(() => lotLog([[0, 'lotTested', tested(200)]], 'batch:ash')).toThrow(InputError);
    expect(() => lotLog([[0, 'lotOpened', { openedOn: 'Monday' }]])).toThrow(InputError);
    expect(() => lotLog([[0, 'lotTested', tested(0)]])).toThrow(InputError);
    expect(() => lotLog([[0, 'stepEnded', { stepId: 'cut' }]])).toThrow(InputError);
  });

  it('holds nothing before anything was noted', () => {
    expect(foldLot([])).toMatchObject({ isReceived: false, kind: null, name: '', tests: [] });
  });
});
