import { describe, expect, it } from 'vitest';
import type { Event, JsonObject } from '../record/event.ts';
import { foldBatch } from '../record/fold.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';
import { historyOf } from './history.ts';

const ZERO = 1_790_000_000_000;
const at = (minute: number): number => ZERO + minute * 60_000;

function logOf(lines: readonly (readonly [number, string, (before: readonly Event[]) => JsonObject])[]): Event[] {
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const events: Event[] = [];
  for (const [minute, kind, body] of lines) {
    const made = newEvent({ kind, body: body(events), streamId: 'batch:ash', happenedAt: at(minute), loggedAt: at(minute), person: 'M', device, randomBytes: new Uint8Array(10).fill(events.length) }); // prettier-ignore
    device = made.device;
    events.push(made.event);
  }
  return events;
}

const record = foldBatch(
  logOf([
    [-5, 'batchOpened', () => ({ make: { id: 'x' }, answers: { milk: { volumeL: 10 } }, name: 'Ash', lotCode: 'A', zeroAt: ZERO })], // prettier-ignore
    [0, 'stepStarted', () => ({ stepId: 'warm' })],
    [30, 'stepEnded', () => ({ stepId: 'warm', said: 'Warm' })],
    [31, 'added', () => ({ ingredient: 'culture', amount: 0.5, unit: 'packets', fractionOfPlan: 0.9 })],
    [32, 'added', () => ({ ingredient: 'rosemary', amount: 1, unit: 'g', fractionOfPlan: 1 })],
    [70, 'stepEnded', () => ({ stepId: 'ripen' })],
    [75, 'stepStarted', () => ({ stepId: 'set' })],
    [80, 'reading', () => ({ quantity: 'pH', value: 6.2, sample: 'milk' })],
    [81, 'corrected', (before) => ({ replaces: before[7]!.id, kind: 'reading', body: { quantity: 'pH', value: 6.4, sample: 'milk' } })], // prettier-ignore
    [82, 'judged', () => ({ judgement: 'cleanBreak', grade: 'not-yet', how: 'knife' })],
    [83, 'judged', () => ({ judgement: 'cleanBreak', grade: 'clean' })],
    [84, 'retracted', (before) => ({ replaces: before[10]!.id })],
    [120, 'weighed', () => ({ what: 'drained-curd', massKg: 1.31 })],
    [125, 'stepEnded', () => ({ stepId: 'set' })],
  ]),
);

describe('the history of a batch', () => {
  it('counts minutes from the zero of the batch and takes values as they were set right', () => {
    const history = historyOf({ record, nowAt: at(130) });
    expect(history.nowMin).toBe(130);
    expect(history.steps).toEqual([
      { stepId: 'warm', startedMin: 0, endedMin: 30 },
      { stepId: 'ripen', startedMin: 30, endedMin: 70 },
      { stepId: 'set', startedMin: 75, endedMin: 125 },
    ]);
    expect(history.readings).toEqual([
      { quantity: 'pH', value: 6.4, sample: 'milk', elapsedMin: 80 },
      { quantity: 'massKg', value: 1.31, sample: 'curd', elapsedMin: 120 },
    ]);
    expect(history.judgements).toEqual([{ judgement: 'cleanBreak', grade: 'not-yet', elapsedMin: 82 }]);
    expect(history.additions).toEqual([{ ingredient: 'culture', fractionOfPlan: 0.9, elapsedMin: 31 }]);
  });

  it('knows nothing of what came after the moment it is asked about', () => {
    const history = historyOf({ record, nowAt: at(78) });
    expect(history.readings).toEqual([]);
    expect(history.steps.at(-1)).toEqual({ stepId: 'set', startedMin: 75 });
  });
});
