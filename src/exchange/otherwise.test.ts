import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import type { Event } from '../record/event.ts';
import { foldBatch } from '../record/fold.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';
import { historyOf } from './history.ts';
import { fittedOfRecord, planOfRecord } from './record-plan.ts';
import { justBefore } from './replay.ts';

const ZERO = 1_790_000_000_000;
const at = (minute: number): number => ZERO + minute * 60_000;
let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
const event = (minute: number, kind: string, body: object): Event => {
  const made = newEvent({ kind, body: JSON.parse(JSON.stringify(body)), streamId: 'batch:ash', happenedAt: at(minute), loggedAt: at(minute), person: 'M', device, randomBytes: new Uint8Array(10).fill(device.deviceSeq) }); // prettier-ignore
  device = made.device;
  return made.event;
};
const answers = { milk: { volumeL: 12 }, instruments: { pHMeter: true } };
const opened = [
  event(-5, 'batchOpened', { make: makeNamed('stretched-ball'), answers, name: 'Ash', lotCode: 'A', zeroAt: ZERO }),
  event(230, 'stepEnded', { stepId: 'drain' }),
  event(230, 'stepStarted', { stepId: 'rest-drained' }),
];
const hot = event(240, 'mishap', { what: 'tooHot', temperatureC: 55, minutes: 10 });
const dead = event(244, 'mishap', { what: 'meterDead' });
const chilled = event(250, 'choiceTaken', {
  choice: 'Chill the curd tonight',
  because: 'Too hot',
  forecastShown: { chance: 0.7 },
  departures: [
    { kind: 'chill', afterStepId: 'rest-drained', atC: 4, minutes: 840 },
    { kind: 'minutes', stepId: 'rest-drained', minutes: 20 },
  ],
});
const cooled = event(251, 'choiceTaken', {
  choice: 'Cool it down',
  because: 'Too hot',
  forecastShown: {},
  departures: [{ kind: 'done', what: { kind: 'temperature', elapsedMin: 261, minutes: 0, temperatureC: 39 } }],
});
const record = foldBatch([...opened, hot, dead, chilled, cooled]);

describe('a make that goes otherwise', () => {
  it('keeps what was told and done in its history, in time order', () => {
    expect(historyOf({ record, nowAt: at(300) }).disturbances).toEqual([
      { kind: 'temperature', elapsedMin: 230, minutes: 10, temperatureC: 55 },
      { kind: 'temperature', elapsedMin: 261, minutes: 0, temperatureC: 39 },
    ]);
    expect(historyOf({ record, nowAt: at(239) }).disturbances).toBeUndefined();
    expect(justBefore(record, 240).disturbances).toBeUndefined();
  });

  it('follows the plan that was chosen, without the meter that died', () => {
    const { plan, answers: now } = fittedOfRecord({ record });
    expect(plan.steps.map((step) => step.id)).toContain('chill-curd');
    expect(plan.setup.pHMeter).toBe(false);
    expect(now.instruments?.pHMeter).toBe(false);
    const before = planOfRecord({ record, untilAt: at(243) });
    expect([before.setup.pHMeter, before.steps.some((step) => step.id === 'chill-curd')]).toEqual([true, false]);
  });

  it('is as planned again once what was told and chosen is taken back', () => {
    const back = [hot, dead, chilled, cooled].map((one) => event(260, 'retracted', { replaces: one.id }));
    const again = foldBatch([...opened, hot, dead, chilled, cooled, ...back]);
    expect(historyOf({ record: again, nowAt: at(300) }).disturbances).toBeUndefined();
    expect(planOfRecord({ record: again }).steps).toEqual(planOfRecord({ record: foldBatch(opened) }).steps);
  });

  it('turns into another cheese in the record as it did in the forecast', () => {
    const turned = event(240, 'choiceTaken', { choice: 'Another', because: '', forecastShown: {}, departures: [{ kind: 'otherMake', make: makeNamed('stretched-string'), afterStepId: 'rest-drained' }] }); // prettier-ignore
    expect(planOfRecord({ record: foldBatch([...opened, turned]) }).make.id).toBe('stretched-string');
  });

  it('reads logs from before all of this', () => {
    const old = foldBatch([...opened, event(240, 'mishap', { what: 'tooHot' }), event(241, 'choiceTaken', { choice: 'x', because: 'y', forecastShown: {} })]); // prettier-ignore
    expect(old.unknown).toEqual([]);
    expect(historyOf({ record: old, nowAt: at(300) }).disturbances).toBeUndefined();
  });
});
