import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TimelineStep } from '../timeline/timeline-layout.ts';
import { burnersOf, handsOf, later, type PotOnClock } from './busy.ts';
import { collisionsOf, laterStarts } from './collisions.ts';

const MINUTE = 60_000;
const NINE = Date.UTC(2026, 2, 4, 9, 0);
const at = (minutes: number): number => NINE + minutes * MINUTE;
const minute = (ms: number): number => (ms - NINE) / MINUTE;

const step = (id: string, from: number, to: number, hands: { start?: number; end?: number } = {}): TimelineStep => ({
  id,
  name: id,
  number: 1,
  state: 'coming',
  startAt: at(from),
  endAt: at(to),
  endEarlyAt: at(to),
  endLateAt: at(to),
  handsMin: { start: hands.start ?? 0, during: 0, end: hands.end ?? 0 },
});
const pot = (potId: string, steps: TimelineStep[], burners: [number, number][] = []): PotOnClock => ({
  potId,
  steps,
  burners: burners.map(([from, to]) => ({ stepId: 'warm', fromAt: at(from), toAt: at(to) })),
});

/** Up to six pots of up to six steps, on whole minutes. */
const anyPots = fc
  .array(
    fc.record({
      start: fc.integer({ min: 0, max: 60 }),
      steps: fc.array(
        fc.record({ length: fc.integer({ min: 1, max: 30 }), start: fc.integer({ min: 0, max: 8 }), end: fc.integer({ min: 0, max: 4 }), fire: fc.boolean() }), // prettier-ignore
        { minLength: 1, maxLength: 6 },
      ),
    }),
    { minLength: 1, maxLength: 6 },
  )
  .map((pots) =>
    pots.map(({ start, steps }, index): PotOnClock => {
      let from = start;
      const laid = steps.map(({ length, fire, ...hands }, nth) => {
        const one = { fire, step: step(`s${nth}`, from, from + length, hands) };
        from += length;
        return one;
      });
      return {
        potId: `pot ${index}`,
        steps: laid.map((one) => one.step),
        burners: laid.flatMap(({ fire, step }) => (fire ? [{ stepId: step.id, fromAt: step.startAt, toAt: step.endAt }] : [])), // prettier-ignore
      };
    }),
  );
const runs = { seed: 20261129, numRuns: 60 };
const LONGEST = 200;

describe('clashes of hands and burners', () => {
  it('are none of hands where there are hands enough for every pot, as in a class', () => {
    const pots = ['Ash', 'Birch', 'Cedar'].map((name) => pot(name, [step('cut', 0, 10, { start: 5 })]));
    const at5 = (hands?: number) => collisionsOf({ pots, burners: null, nowAt: at(0), ...(hands === undefined ? {} : { hands }) }); // prettier-ignore
    expect(at5().map(({ kind, wanted }) => [kind, wanted])).toEqual([['hands', 3]]);
    expect(at5(2)).toHaveLength(1);
    expect(at5(3)).toEqual([]);
  });

  it('are found in every minute in which two pots want hands, and in no other', () => {
    fc.assert(
      fc.property(anyPots, (pots) => {
        const found = collisionsOf({ pots, burners: null, nowAt: NINE });
        const hands = pots.map((one) => ({ potId: one.potId, busy: handsOf(one) }));
        for (let m = 0; m < LONGEST; m++) {
          const middle = at(m + 0.5);
          const wanting = hands.filter(({ busy }) => busy.some(({ fromAt, toAt }) => fromAt < middle && toAt > middle)).map((one) => one.potId); // prettier-ignore
          const told = found.filter(({ fromAt, toAt }) => fromAt < middle && toAt > middle);
          expect(told.map(({ potIds }) => potIds)).toEqual(wanting.length > 1 ? [wanting] : []);
        }
      }),
      runs,
    );
  });

  it('are found in every minute in which more burners are wanted than there are, and in no other', () => {
    fc.assert(
      fc.property(anyPots, fc.integer({ min: 1, max: 4 }), (pots, burners) => {
        const found = collisionsOf({ pots, burners, nowAt: NINE }).filter(({ kind }) => kind === 'burners');
        const fires = pots.flatMap(burnersOf);
        for (let m = 0; m < LONGEST; m++) {
          const middle = at(m + 0.5);
          const wanted = fires.filter(({ fromAt, toAt }) => fromAt < middle && toAt > middle).length;
          const told = found.filter(({ fromAt, toAt }) => fromAt < middle && toAt > middle);
          expect(told.map((one) => one.wanted)).toEqual(wanted > burners ? [wanted] : []);
        }
      }),
      runs,
    );
  });

  it('come in the order of time, and what is over is not told', () => {
    fc.assert(
      fc.property(anyPots, fc.integer({ min: 0, max: 120 }), (pots, m) => {
        const found = collisionsOf({ pots, burners: 1, nowAt: at(m) });
        expect(found.map(({ fromAt }) => fromAt)).toEqual(found.map(({ fromAt }) => fromAt).sort((a, b) => a - b));
        expect(found.every(({ toAt }) => toAt > at(m))).toBe(true);
      }),
      runs,
    );
  });

  it('name the step of each pot', () => {
    const pots = [pot('ash', [step('warm', 0, 30, { start: 5 }), step('cut', 30, 40, { start: 8 })]), pot('birch', [step('warm', 32, 60, { start: 10 })])]; // prettier-ignore
    const [only] = collisionsOf({ pots, burners: null, nowAt: NINE });
    expect(only).toMatchObject({ kind: 'hands', potIds: ['ash', 'birch'], stepIds: ['cut', 'warm'] });
    expect([minute(only?.fromAt ?? 0), minute(only?.toAt ?? 0)]).toEqual([32, 38]);
  });

  it('are nothing between pots that each have a burner', () => {
    const pots = [pot('ash', [step('warm', 0, 30)], [[0, 30]]), pot('birch', [step('warm', 10, 40)], [[10, 40]])];
    expect(collisionsOf({ pots, burners: 2, nowAt: NINE })).toEqual([]);
    expect(collisionsOf({ pots, burners: null, nowAt: NINE })).toEqual([]);
    expect(collisionsOf({ pots, burners: 1, nowAt: NINE })).toHaveLength(1);
  });
});

describe('starting a pot later', () => {
  const three = [0, 10, 20].map((start, index) => pot(`p${index}`, [step('warm', start, start + 30)], [[start, start + 30]])); // prettier-ignore

  it('frees the burner with the least delay', () => {
    const input = { pots: three, burners: 2, nowAt: NINE };
    const [collision] = collisionsOf(input);
    if (collision === undefined) throw new Error('three on two burners clash');
    expect(laterStarts({ ...input, collision, waiting: new Set(['p2']) })).toEqual([{ potId: 'p2', minutes: 10 }]);
  });

  it('is offered only for pots that have not begun', () => {
    const input = { pots: three, burners: 2, nowAt: NINE };
    const [collision] = collisionsOf(input);
    if (collision === undefined) throw new Error('three on two burners clash');
    expect(laterStarts({ ...input, collision, waiting: new Set() })).toEqual([]);
  });

  it('never makes more clashing minutes than there were, whatever the pots', () => {
    const sum = (pots: readonly PotOnClock[]): number =>
      collisionsOf({ pots, burners: 2, nowAt: NINE }).reduce((all, { fromAt, toAt }) => all + toAt - fromAt, 0);
    let offered = 0;
    fc.assert(
      fc.property(anyPots, (pots) => {
        const input = { pots, burners: 2, nowAt: NINE };
        const waiting = new Set(pots.map(({ potId }) => potId));
        for (const collision of collisionsOf(input).slice(0, 2)) {
          for (const { potId, minutes } of laterStarts({ ...input, collision, waiting })) {
            offered += 1;
            expect(sum(pots.map((one) => (one.potId === potId ? later(one, minutes) : one)))).toBeLessThan(sum(pots));
          }
        }
      }),
      { ...runs, numRuns: 30 },
    );
    expect(offered).toBeGreaterThan(20);
  });
});
