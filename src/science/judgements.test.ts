import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError } from '../numbers/validity.ts';
import {
  gradeProbabilities,
  type JudgementId,
  judgementLogLikelihood,
  JUDGEMENTS,
  judgementThreshold,
  stretchShiftPH,
} from './judgements.ts';

const ids = Object.values(JUDGEMENTS).map((model) => model.id);
const likeliest = (judgement: JudgementId, state: number, insolubleCalciumMgPerG?: number): string | undefined => {
  const chances = gradeProbabilities(
    insolubleCalciumMgPerG === undefined ? { judgement, state } : { judgement, state, insolubleCalciumMgPerG },
  );
  return JUDGEMENTS[judgement].grades[chances.indexOf(Math.max(...chances))];
};

describe('judgements as evidence', () => {
  it('give every grade a chance, and all of them together one', () => {
    fc.assert(
      fc.property(fc.constantFrom(...ids), fc.double({ min: -50, max: 150, noNaN: true }), (judgement, state) => {
        const chances = gradeProbabilities({ judgement, state });
        expect(chances.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
        for (const chance of chances) expect(chance).toBeGreaterThan(0);
        chances.forEach((chance, index) => {
          const grade = JUDGEMENTS[judgement].grades[index] ?? '';
          expect(judgementLogLikelihood({ judgement, grade, state })).toBeCloseTo(Math.log(chance), 12);
        });
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('go through their grades in order as the make goes on', () => {
    for (const id of ids) {
      const { thresholds, falls, grades } = JUDGEMENTS[id];
      expect(grades).toHaveLength(thresholds.length + 1);
      const walk = [...thresholds].sort((a, b) => (falls ? b - a : a - b));
      expect(walk).toEqual(thresholds);
      const sign = falls ? -1 : 1;
      const before = thresholds[0] ?? 0;
      expect(likeliest(id, before - sign * 5 * JUDGEMENTS[id].sd)).toBe(grades[0]);
      const last = thresholds.at(-1) ?? 0;
      expect(likeliest(id, last + sign * 5 * JUDGEMENTS[id].sd)).toBe(grades.at(-1));
    }
  });

  it('see cultured curd long and smooth between pH 5.0 and 5.15, rough above, running below 4.9', () => {
    expect(likeliest('stretch', 5.7)).toBe('crumbles');
    expect(likeliest('stretch', 5.5)).toBe('tears-short');
    expect(likeliest('stretch', 5.3)).toBe('pulls-rough');
    expect(likeliest('stretch', 5.1)).toBe('long-smooth');
    expect(likeliest('stretch', 4.85)).toBe('runs');
    expect(judgementThreshold({ judgement: 'stretch', grade: 'long-smooth' })).toEqual({
      mean: 5.23,
      sd: 0.07,
      falls: true,
    });
  });

  it('see direct-acid curd with little calcium long and smooth at pH 5.5', () => {
    expect(stretchShiftPH(17)).toBeCloseTo(0.4, 12);
    expect(likeliest('stretch', 5.5, 17)).toBe('long-smooth');
    expect(likeliest('stretch', 5.5, 22)).toBe('tears-short');
    expect(stretchShiftPH(2)).toBeLessThanOrEqual(0.6);
  });

  it('call a break clean at 35 Pa, and the gel not yet before', () => {
    expect(likeliest('cleanBreak', 5)).toBe('not-yet');
    expect(likeliest('cleanBreak', 25)).toBe('ragged');
    expect(likeliest('cleanBreak', 50)).toBe('clean');
    expect(judgementThreshold({ judgement: 'cleanBreak', grade: 'clean' }).mean).toBe(35);
  });

  it("are one hand's: who calls the stretch late calls every grade late, and grades more alike than makers do among each other", () => {
    const chancesOf = (makerZ: number | undefined): number[] =>
      gradeProbabilities({ judgement: 'stretch', state: 5.25, ...(makerZ === undefined ? {} : { makerZ }) });
    const ready = (chances: readonly number[]): number => (chances[3] ?? 0) + (chances[4] ?? 0);
    expect(ready(chancesOf(-1))).toBeLessThan(ready(chancesOf(0)) - 0.2);
    expect(ready(chancesOf(1))).toBeGreaterThan(ready(chancesOf(0)) + 0.2);
    // Averaged over makers it is what a maker nobody knows would say, within two points in a hundred.
    const many = Array.from({ length: 81 }, (_, i) => (i - 40) / 10);
    const density = many.map((z) => Math.exp(-0.5 * z * z));
    const total = density.reduce((sum, one) => sum + one, 0);
    chancesOf(undefined).forEach((chance, grade) => {
      const mean = many.reduce((sum, z, i) => sum + (density[i] ?? 0) * (chancesOf(z)[grade] ?? 0), 0) / total;
      expect(Math.abs(mean - chance)).toBeLessThan(0.02);
    });
  });

  it('learn nothing from "not sure", nor from a failed stretch in cool water', () => {
    expect(judgementLogLikelihood({ judgement: 'stretch', grade: 'not-sure', state: 5 })).toBe(0);
    const failed = { judgement: 'stretch', grade: 'tears-short', state: 5.1 } as const;
    expect(judgementLogLikelihood({ ...failed, testWaterC: 60 })).toBe(0);
    expect(judgementLogLikelihood({ ...failed, testWaterC: 78 })).toBeLessThan(-2);
    const pulled = { judgement: 'stretch', grade: 'long-smooth', state: 5.5 } as const;
    expect(judgementLogLikelihood({ ...pulled, testWaterC: 60 })).toBeLessThan(-2);
  });

  it('spread thresholds and chances alike: half have called the grade at its threshold', () => {
    for (const id of ids) {
      JUDGEMENTS[id].grades.forEach((grade, index) => {
        if (index === 0) return;
        const { mean } = judgementThreshold({ judgement: id, grade });
        const after = gradeProbabilities({ judgement: id, state: mean }).slice(index);
        expect(after.reduce((a, b) => a + b, 0)).toBeCloseTo(0.5, 1);
      });
    }
  });

  it('refuse a grade that the judgement does not have, and call the first one from the start', () => {
    expect(() => judgementLogLikelihood({ judgement: 'grip', grade: 'long-smooth', state: 55 })).toThrow(InputError);
    expect(judgementThreshold({ judgement: 'stretch', grade: 'crumbles' }).mean).toBe(Number.POSITIVE_INFINITY);
    expect(judgementThreshold({ judgement: 'cleanBreak', grade: 'not-yet' }).mean).toBe(Number.NEGATIVE_INFINITY);
  });
});
