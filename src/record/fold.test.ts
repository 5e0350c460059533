import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Event, JsonObject } from './event.ts';
import { foldBatch } from './fold.ts';
import { EventConflictError, mergeEvents } from './merge.ts';
import { newEvent, type DeviceState } from './new-event.ts';

const ZERO = 1_790_000_000_000;

/** A small batch log written by hand: each line is [minute, kind, body]. */
function logOf(lines: readonly (readonly [number, string, object])[], deviceId = 'tablet'): Event[] {
  let device: DeviceState = { deviceId, deviceSeq: 0, clock: undefined };
  return lines.map(([minute, kind, body], index) => {
    const made = newEvent({
      kind,
      body,
      streamId: 'batch:ash',
      happenedAt: ZERO + minute * 60_000,
      loggedAt: ZERO + minute * 60_000,
      person: 'M',
      device,
      randomBytes: new Uint8Array(10).fill(index),
    });
    device = made.device;
    return made.event;
  });
}

const pH = (value: number): JsonObject => ({ quantity: 'pH', value, sample: 'curd' });
const opened = { make: { id: 'x' }, answers: { milk: { volumeL: 10 } }, name: 'Ash', lotCode: 'A1', zeroAt: ZERO };

/** Any log that devices could write: plain notes, and corrections and retractions of anything before them. */
const anyLog = fc
  .array(
    fc.record({
      what: fc.constantFrom('reading', 'noted', 'stepStarted', 'stepEnded', 'corrected', 'retracted', 'sprinkled'),
      value: fc.integer({ min: 0, max: 9 }),
      names: fc.nat(),
      deviceId: fc.constantFrom('tablet', 'phone'),
      minute: fc.integer({ min: 0, max: 300 }),
    }),
    { maxLength: 25 },
  )
  .map((lines) => {
    const events: Event[] = [];
    const counts: Record<string, number> = { tablet: 0, phone: 0 };
    lines.forEach(({ what, value, names, deviceId, minute }, index) => {
      const replaces = events[names % Math.max(events.length, 1)]?.id ?? 'none';
      const bodies: Record<string, JsonObject> = {
        reading: pH(value),
        noted: { text: `note ${value}` },
        stepStarted: { stepId: `step-${value % 3}` },
        stepEnded: { stepId: `step-${value % 3}` },
        corrected: { replaces, kind: 'reading', body: pH(value) },
        retracted: { replaces },
        sprinkled: { herb: value },
      };
      const deviceSeq = counts[deviceId] ?? 0;
      counts[deviceId] = deviceSeq + 1;
      events.push({
        id: `event-${index}`,
        streamId: 'batch:ash',
        kind: what,
        version: 1,
        happenedAt: ZERO + minute * 60_000,
        loggedAt: ZERO + index,
        clock: `${String(ZERO + Math.floor(index / 2)).padStart(15, '0')}-00000`,
        person: 'M',
        deviceId,
        deviceSeq,
        body: bodies[what] ?? {},
      });
    });
    return events;
  });

describe('the fold of a batch', () => {
  it('tells the same story whichever device is asked first', () => {
    fc.assert(
      fc.property(anyLog, fc.array(fc.boolean(), { minLength: 25, maxLength: 25 }), (events, side) => {
        const a = events.filter((_, index) => side[index]);
        const b = events.filter((_, index) => !side[index]);
        expect(foldBatch(mergeEvents(a, b))).toEqual(foldBatch(mergeEvents(b, a)));
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('does not care in which order, or how often, events arrive', () => {
    fc.assert(
      fc.property(
        anyLog.chain((events) =>
          fc.tuple(
            fc.constant(events),
            fc.shuffledSubarray([...events, ...events], { minLength: events.length * 2, maxLength: events.length * 2 }),
          ),
        ),
        ([events, arrived]) => {
          expect(foldBatch(arrived)).toEqual(foldBatch(events));
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('never loses a note: each is an entry, or inside one, or kept as unknown', () => {
    fc.assert(
      fc.property(anyLog, (events) => {
        const record = foldBatch(events);
        const notes = events.filter((event) => event.kind === 'reading' || event.kind === 'noted');
        const shown = new Set(record.entries.map((entry) => entry.eventId));
        for (const note of notes) expect(shown.has(note.id)).toBe(true);
        const strange = events.filter((event) => event.kind === 'sprinkled');
        expect(record.unknown.filter((item) => item.because === 'unknown-kind')).toHaveLength(strange.length);
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('puts a corrected pH in the place of the old one and keeps both in view', () => {
    const log = logOf([
      [0, 'batchOpened', opened],
      [90, 'reading', pH(6.24)],
    ]);
    const first = log[1];
    const set = logOf([[95, 'corrected', { replaces: first?.id, kind: 'reading', body: pH(6.42), because: 'misread' }]], 'phone'); // prettier-ignore
    const record = foldBatch([...log, ...set]);
    expect(record.readings.map((reading) => [reading.value, reading.at])).toEqual([[6.42, ZERO + 90 * 60_000]]);
    expect(record.readings[0]?.was).toMatchObject([{ body: { value: 6.24 }, because: 'misread', replacedBy: 'M' }]);
    const entry = record.entries.find((item) => item.eventId === first?.id);
    expect(entry).toMatchObject({ body: { value: 6.42 }, was: [{ body: { value: 6.24 } }], retracted: null });
  });

  it('knows the pots that were opened together, and reads older openings as pots that stand alone', () => {
    const together = { id: 'k1', of: 3, nth: 2 };
    expect(foldBatch(logOf([[0, 'batchOpened', { ...opened, together }]])).together).toEqual(together);
    expect(foldBatch(logOf([[0, 'batchOpened', opened]])).together).toBeNull();
  });

  it('ends a make whose curd went into another pot, and lets it go on when that is taken back', () => {
    const joined = { way: 'gave', pot: 'batch:birch', name: 'Birch', massKg: 0.8 };
    const log = logOf([
      [0, 'batchOpened', opened],
      [90, 'joined', joined],
    ]);
    const record = foldBatch(log);
    expect(record.finishedAt).toBe(ZERO + 90 * 60_000);
    expect(record.joined).toMatchObject([joined]);
    const back = logOf([[91, 'retracted', { replaces: log[1]?.id }]], 'phone');
    expect(foldBatch([...log, ...back]).finishedAt).toBeNull();
  });

  it('does not end the make that another curd came into', () => {
    const came = { way: 'took', pot: 'batch:cedar', name: 'Cedar' };
    expect(foldBatch(logOf([[0, 'batchOpened', opened], [90, 'joined', came]])).finishedAt).toBeNull(); // prettier-ignore
  });

  it('sets right when a step began', () => {
    const log = logOf([
      [0, 'batchOpened', opened],
      [60, 'stepStarted', { stepId: 'ripen' }],
    ]);
    const body = { stepId: 'ripen' };
    const set = logOf([[61, 'corrected', { replaces: log[1]?.id, kind: 'stepStarted', body, happenedAt: ZERO + 40 * 60_000 }]], 'phone'); // prettier-ignore
    expect(foldBatch([...log, ...set]).steps[0]?.startedAt).toBe(ZERO + 40 * 60_000);
  });

  it('takes a note back, shows that it was there, and can undo the undo', () => {
    const log = logOf([
      [0, 'batchOpened', opened],
      [10, 'noted', { text: 'smells of yoghurt' }],
    ]);
    const back = logOf([[11, 'retracted', { replaces: log[1]?.id }]], 'phone');
    const record = foldBatch([...log, ...back]);
    expect(record.noted).toEqual([]);
    expect(record.entries[1]?.retracted).toEqual({ at: ZERO + 11 * 60_000, person: 'M' });
    const again = logOf([[12, 'retracted', { replaces: back[0]?.id }]], 'tub');
    expect(foldBatch([...log, ...back, ...again]).noted).toHaveLength(1);
  });

  it('lets the earlier value stand again when the correction is undone', () => {
    const log = logOf([[5, 'reading', pH(6.5)]]);
    const set = logOf([[6, 'corrected', { replaces: log[0]?.id, kind: 'reading', body: pH(6.1) }]], 'phone');
    const undo = logOf([[7, 'retracted', { replaces: set[0]?.id }]], 'tub');
    expect(foldBatch([...log, ...set, ...undo]).readings[0]?.value).toBe(6.5);
  });

  it('takes the earliest when two devices note the same step, and shows both', () => {
    const a = logOf([[30, 'stepStarted', { stepId: 'cut' }]]);
    const b = logOf([[31, 'stepStarted', { stepId: 'cut' }]], 'phone');
    const record = foldBatch([...b, ...a]);
    expect(record.steps).toMatchObject([{ stepId: 'cut', startedAt: ZERO + 30 * 60_000 }]);
    expect(record.entries).toHaveLength(2);
  });

  it('hands out the same frozen make however often it is folded', () => {
    const log = logOf([[0, 'batchOpened', opened]]);
    const more = logOf([[1, 'noted', { text: 'foam' }]], 'phone');
    expect(foldBatch([...log, ...more]).make).toBe(foldBatch(log).make);
  });

  it('keeps an event of a newer version without reading it', () => {
    const [event] = logOf([[1, 'reading', pH(6.6)]]);
    const newer = { ...event!, version: 99, body: { fathoms: 3 } };
    const record = foldBatch([newer]);
    expect(record.unknown).toEqual([{ event: newer, because: 'newer-version' }]);
    expect(record.entries[0]?.isUnderstood).toBe(false);
    expect(record.readings).toEqual([]);
  });

  it('is loud when one id stands for two different events', () => {
    const [event] = logOf([[1, 'reading', pH(6.6)]]);
    const other = { ...event!, body: pH(6.7) };
    expect(() => mergeEvents([event!], [other])).toThrow(EventConflictError);
  });
});
