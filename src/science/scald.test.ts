import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import { scaldTimes } from './scald.ts';

describe('hot water', () => {
  it('never burns later when it is hotter', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 45, max: 99, noNaN: true }),
        fc.double({ min: 0.01, max: 6, noNaN: true }),
        (waterC, more) => {
          const here = scaldTimes({ waterC });
          const hotter = scaldTimes({ waterC: waterC + more });
          expect(hotter.secondsToDeepBurn).toBeLessThanOrEqual(here.secondsToDeepBurn ?? 0);
          expect(hotter.secondsToBlister).toBeLessThanOrEqual(here.secondsToBlister ?? 0);
          expect(here.secondsToBlister).toBeLessThanOrEqual(here.secondsToDeepBurn ?? 0);
        },
      ),
      { seed: 20261125, numRuns: 500 },
    );
  });

  it('above 60 °C has only upper bounds, in steps, however hot', () => {
    expect(scaldTimes({ waterC: 60.1 })).toMatchObject({
      secondsToBlister: 3,
      secondsToDeepBurn: 3,
      isUpperBound: true,
    });
    expect(scaldTimes({ waterC: 66 }).secondsToDeepBurn).toBe(1.5);
    expect(scaldTimes({ waterC: 100 }).secondsToBlister).toBe(1);
    expect(scaldTimes({ waterC: 60 }).isUpperBound).toBe(false);
  });

  it('below 45 °C is only uncomfortable, and a child has a quarter of the time', () => {
    expect(scaldTimes({ waterC: 44 })).toMatchObject({ secondsToBlister: null, secondsToDeepBurn: null });
    expect(scaldTimes({ waterC: 55 }).secondsToBlisterForChildren).toBeCloseTo(17 / 4, 9);
  });

  it('of 120 °C is no water in an open pot', () => {
    expect(() => scaldTimes({ waterC: 120 })).toThrow(InputError);
    expect(() => scaldTimes({ waterC: Number.NaN })).toThrow(/not a number/);
  });
});
