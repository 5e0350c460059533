import { describe, expect, it } from 'vitest';
import type { Event } from './event.ts';
import { foldBatch } from './fold.ts';
import { newEvent, type DeviceState } from './new-event.ts';
import { clockAfter } from './clock.ts';

const ZERO = 1_790_000_000_000;
const MINUTE = 60_000;

/** Two devices at one vat, each with its own clock; each has seen what the other noted before it notes. */
function vat(offsetMin: Readonly<Record<'tablet' | 'phone', number>>) {
  const events: Event[] = [];
  const devices = new Map<string, DeviceState>();
  const note = (deviceId: 'tablet' | 'phone', trueMin: number, kind: string, body: object): Event => {
    const known = devices.get(deviceId) ?? { deviceId, deviceSeq: 0, clock: undefined };
    const at = ZERO + (trueMin + offsetMin[deviceId]) * MINUTE;
    const clock = clockAfter({ own: known.clock, seen: events, nowMs: at });
    const made = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: 'M', device: { ...known, clock }, randomBytes: new Uint8Array(10).fill(events.length) }); // prettier-ignore
    devices.set(deviceId, made.device);
    events.push(made.event);
    return made.event;
  };
  return { events, note };
}

describe('a step that two devices with clocks hours apart tell of', () => {
  it.each([
    { tablet: 0, phone: -180 },
    { tablet: 240, phone: 0 },
    { tablet: 0, phone: 0 },
    { tablet: 0, phone: 300 },
  ])('is over when the phone says so after the tablet began it ($tablet, $phone min off)', (offsets) => {
    const { events, note } = vat(offsets);
    note('tablet', 0, 'stepStarted', { stepId: 'ripen' });
    const end = note('phone', 45, 'stepEnded', { stepId: 'ripen', said: 'It breaks clean' });
    const [step] = foldBatch(events).steps;
    expect(step).toMatchObject({ stepId: 'ripen', endEventId: end.id, said: 'It breaks clean' });
    expect(step?.endedAt).toBeGreaterThanOrEqual(step?.startedAt ?? NaN);
    // What the phone said of the time is kept as it said it.
    expect(foldBatch(events).entries.find(({ eventId }) => eventId === end.id)?.at).toBe(end.happenedAt);
  });

  it('goes by the end of a clock that agrees, where both told of it', () => {
    const { events, note } = vat({ tablet: 0, phone: -180 });
    note('tablet', 0, 'stepStarted', { stepId: 'ripen' });
    note('phone', 44, 'stepEnded', { stepId: 'ripen' });
    const end = note('tablet', 45, 'stepEnded', { stepId: 'ripen' });
    expect(foldBatch(events).steps[0]).toMatchObject({ endEventId: end.id, endedAt: ZERO + 45 * MINUTE });
  });

  it('is not ended by a note that says it was before the start, on a clock that runs on', () => {
    const { events, note } = vat({ tablet: 0, phone: 0 });
    note('tablet', 10, 'stepStarted', { stepId: 'ripen' });
    const late = note('tablet', 12, 'stepEnded', { stepId: 'ripen' });
    const told = events.map((event) => (event === late ? { ...event, happenedAt: ZERO + 5 * MINUTE } : event));
    expect(foldBatch(told).steps[0]?.endedAt).toBeNull();
  });
});

describe('a timer set on one device and answered on another', () => {
  it.each([-180, 0, 180])('is answered, and a new one of its name rings again (phone %d min off)', (phone) => {
    const { events, note } = vat({ tablet: 0, phone });
    const set = (min: number): Event => note('tablet', min, 'timerSet', { timerId: 'later.cut', label: 'Cut', startedAt: ZERO + min * MINUTE, lastsMs: 10 * MINUTE }); // prettier-ignore
    set(0);
    note('phone', 10, 'alarmAnswered', { alarmId: 'later.cut', answer: 'done' });
    set(20);
    expect(foldBatch(events).timers.map(({ answeredAt }) => answeredAt === null)).toEqual([false, true]);
    expect(foldBatch(events).timers.at(-1)?.startedAt).toBe(ZERO + 20 * MINUTE);
  });
});
