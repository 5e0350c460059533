import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import { planMake } from '../make/planning.ts';
import type { Event } from '../record/event.ts';
import { foldBatch } from '../record/fold.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';
import { silenceOf, withAssumed } from './silence.ts';

const NINE = Date.UTC(2026, 2, 4, 9, 0);
const MINUTE = 60_000;
const make = makeNamed('stretched-ball');
const plan = planMake({ make, answers: { milk: { volumeL: 12 } } });
type Noted = readonly [atMin: number, kind: string, body: object, loggedMin?: number];

function recordOf(notes: readonly Noted[]) {
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const opened: Noted = [0, 'batchOpened', { make, answers: { milk: { volumeL: 12 } }, name: 'Ash', lotCode: 'A', zeroAt: NINE }]; // prettier-ignore
  const events = [opened, ...notes].map(([atMin, kind, body, loggedMin = atMin], index): Event => {
    const made = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: NINE + atMin * MINUTE, loggedAt: NINE + loggedMin * MINUTE, person: '', device, randomBytes: new Uint8Array(10).fill(index) }); // prettier-ignore
    device = made.device;
    return made.event;
  });
  return foldBatch(events);
}

const begun: Noted[] = [
  [0, 'stepStarted', { stepId: 'warm' }],
  [30, 'stepEnded', { stepId: 'warm' }],
  [30, 'stepStarted', { stepId: 'add-culture' }],
];
const silence = (notes: readonly Noted[], nowMin: number) =>
  silenceOf({ record: recordOf(notes), steps: plan.steps, nowAt: NINE + nowMin * MINUTE });

describe('a silence at the vat', () => {
  it('is none before ninety minutes, and begins where the last thing was noted', () => {
    expect(silence(begun, 119)).toBeNull();
    expect(silence(begun, 121)?.sinceAt).toBe(NINE + 30 * MINUTE);
  });

  it('is none before the make is begun, nor after the batch is closed', () => {
    expect(silence([], 500)).toBeNull();
    expect(silence([...begun, [40, 'batchFinished', {}]], 500)).toBeNull();
  });

  it('is asked about once: an answer, or a step noted, ends it', () => {
    const asked = silence(begun, 150);
    expect(silence([...begun, [150, 'alarmAnswered', { alarmId: asked?.alarmId, answer: 'still add-culture' }]], 160)).toBeNull(); // prettier-ignore
    expect(silence([...begun, [150, 'stepEnded', { stepId: 'add-culture' }]], 160)).toBeNull();
  });

  it('is not ended by a reading, which does not say where the make is', () => {
    const read: Noted = [150, 'reading', { quantity: 'temperatureC', value: 38, sample: 'milk' }];
    expect(silence([...begun, read], 160)?.sinceAt).toBe(NINE + 30 * MINUTE);
  });

  it('goes on through a bell that nobody answered', () => {
    const rang: Noted = [100, 'alarmAnswered', { alarmId: 'ripen.hot.1', answer: 'nobody', seen: 'Too hot', dueAt: NINE }]; // prettier-ignore
    expect(silence([...begun, rang], 121)?.sinceAt).toBe(NINE + 30 * MINUTE);
  });

  it('is asked about again when another one follows', () => {
    const answered: Noted = [150, 'alarmAnswered', { alarmId: `silence.${NINE + 30 * MINUTE}`, answer: 'still add-culture' }]; // prettier-ignore
    expect(silence([...begun, answered], 239)).toBeNull();
    expect(silence([...begun, answered], 241)?.sinceAt).toBe(NINE + 150 * MINUTE);
  });

  it('is none while somebody writes a paper sheet in, however long ago its steps were', () => {
    const late: Noted[] = begun.map(([at, kind, body]) => [at, kind, body, 300]);
    expect(silence(late, 310)).toBeNull();
  });
});

describe('what is assumed over a silence', () => {
  const assumed = [
    { stepId: 'add-culture', startMin: 30, endMin: 34 },
    { stepId: 'ripen', startMin: 34, endMin: null },
  ];

  it('is shown as steps with no event behind them, and leaves what was noted as it was', () => {
    const record = recordOf(begun);
    const shown = withAssumed({ record, assumed, steps: plan.steps });
    const step = (id: string) => shown.steps.find((one) => one.stepId === id);
    expect(step('add-culture')).toMatchObject({ startedAt: NINE + 30 * MINUTE, endedAt: NINE + 34 * MINUTE, endEventId: null }); // prettier-ignore
    expect(step('ripen')).toMatchObject({ startedAt: NINE + 34 * MINUTE, endedAt: null, startEventId: null });
    expect(shown.entries).toBe(record.entries);
    expect(record.steps.map((one) => one.stepId)).toEqual(['warm', 'add-culture']);
    expect(shown.added.map((one) => [one.ingredient, one.eventId])).toEqual([['culture', '']]);
  });
});
