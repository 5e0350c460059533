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

describe('a pH electrode left in the vat', () => {
  const every10 = Array.from({ length: 19 }, (_, index) => index * 10);
  const stream = (instrumentId: string | null, more: readonly (readonly [number, string, () => JsonObject])[] = []) =>
    foldBatch(
      logOf([
        [-5, 'batchOpened', () => ({ make: { id: 'x' }, answers: { milk: { volumeL: 10 } }, name: 'Ash', lotCode: 'A', zeroAt: ZERO })], // prettier-ignore
        ...every10.map((minute) => [minute, 'reading', () => ({ quantity: 'pH', value: 6.6 - minute / 200, sample: 'curd', ...(instrumentId === null ? {} : { instrumentId }) })] as const), // prettier-ignore
        ...more,
      ]),
    );
  const told = (of: ReturnType<typeof stream>, nowMin: number): number[] =>
    historyOf({ record: of, nowAt: at(nowMin) }).readings.map(({ elapsedMin }) => elapsedMin);

  it('is one witness, not nineteen: one value in half an hour is told, and the newest; all stay in the record', () => {
    const record = stream('serial probe');
    expect(told(record, 180)).toEqual([0, 30, 60, 90, 120, 150, 180]);
    expect(told(record, 170)).toEqual([0, 30, 60, 90, 120, 150, 170]);
    // What was told at an earlier moment is what was known then.
    expect(told(record, 45)).toEqual([0, 30, 40]);
    expect(record.readings).toHaveLength(19);
  });

  it('does not silence a hand: values noted on the pad are all told, and so is another instrument', () => {
    expect(told(stream(null), 180)).toEqual(every10);
    const hand = [95, 'reading', () => ({ quantity: 'pH', value: 6.1, sample: 'curd' })] as const;
    const other = [96, 'reading', () => ({ quantity: 'pH', value: 6.2, sample: 'curd', instrumentId: 'bench meter' })] as const; // prettier-ignore
    const warm = [97, 'reading', () => ({ quantity: 'temperatureC', value: 38, sample: 'curd', instrumentId: 'serial probe' })] as const; // prettier-ignore
    expect(told(stream('serial probe', [hand, other, warm]), 100)).toEqual([0, 30, 60, 90, 95, 96, 97, 100]);
  });
});
