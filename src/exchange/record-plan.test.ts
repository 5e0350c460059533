import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import type { Event } from '../record/event.ts';
import { foldBatch } from '../record/fold.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';
import { planOfRecord } from './record-plan.ts';

const ZERO = 1_790_000_000_000;
let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
const event = (minute: number, kind: string, body: object): Event => {
  const at = ZERO + minute * 60_000;
  const made = newEvent({ kind, body: JSON.parse(JSON.stringify(body)), streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: 'M', device, randomBytes: new Uint8Array(10).fill(device.deviceSeq) }); // prettier-ignore
  device = made.device;
  return made.event;
};
const choice = (minute: number, changes: object): Event =>
  event(minute, 'choiceTaken', { choice: 'other', because: 'the aim', forecastShown: {}, changes });

const opened = event(-5, 'batchOpened', { make: makeNamed('stretched-ball'), answers: { milk: { volumeL: 12 }, changes: { cube: 10 } }, name: 'Ash', lotCode: 'A', zeroAt: ZERO }); // prettier-ignore
const rests = [event(180, 'stepStarted', { stepId: 'rest-in-whey' }), event(230, 'stepEnded', { stepId: 'rest-in-whey' }), event(242, 'stepStarted', { stepId: 'rest-drained' })]; // prettier-ignore
const chosen = choice(260, { 'rest-warmth': 41, 'brine-minutes': 30 });
const step = (events: readonly Event[], id: string, untilAt?: number) =>
  planOfRecord({ record: foldBatch(events), ...(untilAt === undefined ? {} : { untilAt }) }).steps.find((one) => one.id === id); // prettier-ignore

describe('the plan that a batch follows', () => {
  it('is the one it was opened with, until something else is chosen at the vat', () => {
    expect(step([opened, ...rests], 'cut')?.set.cubeMm).toBe(10);
    const all = [opened, ...rests, chosen];
    expect(step(all, 'cut')?.set.cubeMm).toBe(10);
    expect(step(all, 'rest-in-whey')?.set.atC).toBe(40);
    expect(step(all, 'rest-drained')).toMatchObject({ set: { atC: 41 }, heldUntil: [{ atC: 39, untilMin: 260 }] });
    expect(step(all, 'brine')?.until.of).toMatchObject([{ kind: 'time', minutes: { value: 30 } }]);
  });

  it('follows the later of two choices, and the earlier again when the later is taken back', () => {
    const later = choice(265, { 'brine-minutes': 50 });
    const minutes = (events: readonly Event[]): unknown => step(events, 'brine')?.until.of;
    const all = [opened, ...rests, chosen, later];
    expect(minutes(all)).toMatchObject([{ minutes: { value: 50 } }]);
    expect(minutes([...all, event(266, 'retracted', { replaces: later.id })])).toMatchObject([{ minutes: { value: 30 } }]); // prettier-ignore
  });

  it('is shown as it stood then when a record is replayed', () => {
    const all = [opened, ...rests, chosen];
    expect(step(all, 'rest-drained', ZERO + 250 * 60_000)?.set.atC).toBe(39);
  });
});
