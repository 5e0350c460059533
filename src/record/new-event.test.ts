import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { clockAfter, nextClock } from './clock.ts';
import { newEvent, uuidV7 } from './new-event.ts';
import { parseEvent } from './parse-event.ts';

const device = { deviceId: 'tablet', deviceSeq: 7, clock: undefined };
const given = {
  kind: 'noted',
  body: { text: 'foam on the whey' },
  streamId: 'batch:ash',
  happenedAt: 1_790_000_000_000,
  loggedAt: 1_790_000_060_000,
  person: 'M',
  device,
  randomBytes: new Uint8Array(10).fill(255),
};

describe('a new event', () => {
  it('has an id of its millisecond, the next count of its device, and reads back as written', () => {
    const made = newEvent(given);
    expect(made.event.id).toBe(`${(1_790_000_060_000).toString(16).padStart(12, '0').replace(/^(.{8})/, '$1-')}-7fff-bfff-ffffffffffff`); // prettier-ignore
    expect(made.event.deviceSeq).toBe(7);
    expect(made.device.deviceSeq).toBe(8);
    expect(parseEvent(JSON.parse(JSON.stringify(made.event)))).toEqual(made.event);
  });

  it('refuses a reading without its value and names the field', () => {
    const bad = { ...given, kind: 'reading', body: { quantity: 'pH', sample: 'curd' } };
    expect(() => newEvent(bad)).toThrow(InputError);
    expect(() => newEvent(bad)).toThrow(/body\.value/);
  });

  it('refuses a kind it does not know, and a kind in the wrong stream', () => {
    expect(() => newEvent({ ...given, kind: 'sprinkled' })).toThrow(/kind/);
    expect(() => newEvent({ ...given, streamId: 'make:own' })).toThrow(/batch stream/);
  });

  it('leaves out what was given as undefined', () => {
    const made = newEvent({ ...given, kind: 'mishap', body: { what: 'too hot', temperatureC: undefined } });
    expect(made.event.body).toEqual({ what: 'too hot' });
  });

  it('gives later ids to later milliseconds', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 ** 47 }),
        fc.uint8Array({ minLength: 10, maxLength: 10 }),
        (ms, bytes) => {
          expect(uuidV7(ms, bytes) < uuidV7(ms + 1, new Uint8Array(10))).toBe(true);
          expect(uuidV7(ms, bytes)).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
        },
      ),
      { seed: 20261125, numRuns: 100 },
    );
  });
});

describe('the clock of a device', () => {
  it('runs forward when the wall clock is set back, and past what it saw elsewhere', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 50 }), fc.boolean())), (ticks) => {
        let last: string | undefined;
        for (const [nowMs, sees] of ticks) {
          const before = sees
            ? clockAfter({ own: last, seen: [{ clock: nextClock({ last: undefined, nowMs: nowMs + 20 }) }], nowMs })
            : last;
          last = nextClock({ last: before, nowMs });
          expect(before === undefined || last > before).toBe(true);
        }
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('moves on to the next millisecond when a millisecond is full', () => {
    expect(nextClock({ last: '000000000000005-99999', nowMs: 5 })).toBe('000000000000006-00000');
  });
});
