import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import type { Event } from '../record/event.ts';
import { foldBatch } from '../record/fold.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import { kitchenChecks } from './kitchen-checks.ts';
import { restsTold } from './rests-told.ts';

const ZERO = 1_790_000_000_000;
let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
const event = (minute: number, kind: string, body: object): Event => {
  const happenedAt = ZERO + minute * 60_000;
  const made = newEvent({ kind, body: JSON.parse(JSON.stringify(body)), streamId: 'batch:ash', happenedAt, loggedAt: happenedAt, person: 'M', device, randomBytes: new Uint8Array(10).fill(device.deviceSeq) }); // prettier-ignore
  device = made.device;
  return made.event;
};

/** A make whose culture was in at 34 minutes, shown as ready 200 to 330 minutes after it and 1.2 to 1.8 kg heavy. */
function madeSo(came: { readyMin: number; cheeseKg?: number; finished?: boolean; summary?: object }): BatchRecord {
  const answers = { milk: { volumeL: 12 } };
  const summary = came.summary ?? {
    endMin: { p5: 400, p50: 450, p95: null },
    cultureToReadyMin: { p5: 200, p50: 255, p95: 330 },
    cheeseKg: { p5: 1.2, p50: 1.5, p95: 1.8 },
  };
  return foldBatch([
    event(-5, 'batchOpened', { make: makeNamed('stretched-ball'), answers, name: 'Ash', lotCode: 'A', zeroAt: ZERO }),
    event(-5, 'planFrozen', { seed: 1, members: 500, modelVersion: '1', summary }),
    event(34, 'stepEnded', { stepId: 'add-culture' }),
    event(34 + came.readyMin, 'stepEnded', { stepId: 'rest-drained' }),
    event(460, 'stepEnded', { stepId: 'store' }),
    ...(came.cheeseKg === undefined ? [] : [event(461, 'weighed', { what: 'cheese', massKg: came.cheeseKg })]),
    ...(came.finished === false ? [] : [event(470, 'batchFinished', {})]),
  ]);
}

describe('the forecasts of this kitchen, held against what came', () => {
  it('count a make that was ready and as heavy as foreseen as two bands held, one too light as one of two', () => {
    expect(kitchenChecks([madeSo({ readyMin: 300, cheeseKg: 1.6 })])).toEqual({ makes: 1, bands: 2, inside: 2 });
    expect(kitchenChecks([madeSo({ readyMin: 300, cheeseKg: 1 }), madeSo({ readyMin: 350 })])).toEqual({ makes: 2, bands: 3, inside: 1 }); // prettier-ignore
  });

  it('leave out what is still under way and what kept no band; an older record is held by its end', () => {
    expect(kitchenChecks([madeSo({ readyMin: 300, finished: false }), madeSo({ readyMin: 300, summary: {} })])).toEqual({ makes: 0, bands: 0, inside: 0 }); // prettier-ignore
    const old = { endMin: { p5: 400, p50: 450, p95: null } };
    expect(kitchenChecks([madeSo({ readyMin: 300, summary: old })])).toEqual({ makes: 1, bands: 1, inside: 1 });
    const oldLate = { endMin: { p5: 300, p50: 350, p95: 440 } };
    expect(kitchenChecks([madeSo({ readyMin: 300, summary: oldLate })]).inside).toBe(0);
  });

  it('are told behind what else the bands rest on', () => {
    const say = (key: string, values: object = {}): string => `${key} ${JSON.stringify(values)}`;
    const restsOn = ['first-time-with-packet'];
    expect(restsTold({ restsOn, checks: null, say })).toHaveLength(1);
    expect(restsTold({ restsOn, checks: { makes: 0, bands: 0, inside: 0 }, say })[1]).toMatch(/unchecked/);
    expect(restsTold({ restsOn, checks: { makes: 3, bands: 5, inside: 4 }, say })[1]).toMatch(/"count":3.*"inside":4.*"bands":5/); // prettier-ignore
  });
});
