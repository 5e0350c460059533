import { describe, expect, it } from 'vitest';
import type { Event } from '../../../record/event.ts';
import { newEvent, type DeviceState } from '../../../record/new-event.ts';
import { ball } from '../../../../tests/walked-make.ts';
import { leftForNext } from './left-for-next.ts';

const NINE = Date.UTC(2026, 2, 4, 9, 0);
const DAY = 86_400_000;

/** A batch opened on a day, with the causes that were carried into the next plan, in their order. */
function batch(input: {
  readonly name: string;
  readonly day: number;
  readonly carried: readonly string[];
  readonly demo?: boolean;
}): [string, Event[]] {
  const at = NINE + input.day * DAY;
  const streamId = `batch:${input.name}`;
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const bodies = [
    {
      kind: 'batchOpened',
      body: {
        make: ball as never,
        answers: { milk: { volumeL: 12 } },
        name: input.name,
        lotCode: 'ASH-7K3',
        zeroAt: at,
        demo: input.demo === true,
      },
    },
    ...input.carried.map((cause) => ({ kind: 'nextTime', body: { cause } })),
  ];
  const events = bodies.map(({ kind, body }, index) => {
    const made = newEvent({
      kind,
      body,
      streamId,
      happenedAt: at + index,
      loggedAt: at + index,
      person: '',
      device,
      randomBytes: new Uint8Array(10).fill(index),
    });
    ({ device } = made);
    return made.event;
  });
  return [streamId, events];
}

const left = (...batches: [string, Event[]][]): string | null =>
  leftForNext({ streams: new Map(batches), makeId: 'stretched-ball' });

describe('what the last make leaves for the next plan', () => {
  it('is the change carried over, and nothing once it was taken back', () => {
    expect(left(batch({ name: 'ash', day: 0, carried: ['cut-early'] }))).toBe('cut-early');
    expect(left(batch({ name: 'ash', day: 0, carried: ['cut-early', 'brined-long'] }))).toBe('brined-long');
    expect(left(batch({ name: 'ash', day: 0, carried: ['cut-early', ''] }))).toBeNull();
    expect(left(batch({ name: 'ash', day: 0, carried: [] }))).toBeNull();
  });

  it('ends with the next make of that cheese, and is not of another cheese', () => {
    const first = batch({ name: 'ash', day: 0, carried: ['cut-early'] });
    expect(left(first, batch({ name: 'birch', day: 3, carried: [] }))).toBeNull();
    expect(leftForNext({ streams: new Map([first]), makeId: 'another' })).toBeNull();
  });

  it('comes from the worked example only where nothing else was made', () => {
    const example = batch({ name: 'demo-ash', day: 9, carried: ['cut-early'], demo: true });
    expect(left(example)).toBe('cut-early');
    expect(left(example, batch({ name: 'birch', day: 1, carried: [] }))).toBeNull();
  });
});
