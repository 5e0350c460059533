import { describe, expect, it } from 'vitest';
import { InputError } from '../../numbers/validity.ts';
import { ripenCalc } from './ripen.ts';

const ripen = (input: unknown) => ripenCalc.run(ripenCalc.input.parse(input));
const target = (input: unknown, pH: string) => {
  const band = ripen(input).result.minutesToPH[pH];
  return {
    p5: band?.p5 ?? Infinity,
    p50: band?.p50 ?? Infinity,
    p95: band?.p95 ?? Infinity,
    probability: band?.probability ?? -1,
  };
};
const width = (input: unknown, pH: string) => {
  const { p5, p95 } = target(input, pH);
  return p95 - p5;
};

const milkAt37 = {
  culture: { kind: 'yoghurt', packetFraction: 2, form: 'bulk' },
  temperatureProfile: [{ minute: 0, temperatureC: 37 }],
  pH0: 6.62,
  minutes: 600,
  targets: [5.2, 3.5],
};
const curd = { ...milkAt37, cutMinute: 90, drainMinute: 150, minutes: 480, targets: [5.2] };

function fields(input: unknown): string[] {
  try {
    ripen(input);
    return [];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.problems.map((problem) => problem.field);
  }
}

describe('calc ripen', () => {
  it('answers its own example in the shape it promises, with keys as the targets were given', () => {
    const { result, assumptions } = ripen(ripenCalc.example);
    expect(ripenCalc.result.parse(result)).toEqual(result);
    expect(Object.keys(result.minutesToPH).sort()).toEqual(['5.2', '6']);
    expect(assumptions.join('\n')).toMatch(
      /form of the culture: freeze-dried[\s\S]*cubes of 10 mm[\s\S]*500 members, seed 1/,
    );
    for (const point of result.curve) {
      expect(point.p5).toBeLessThanOrEqual(point.pH);
      expect(point.p95).toBeGreaterThanOrEqual(point.pH);
    }
    expect(result.curve.at(-1)?.minute).toBe(420);
  });

  it('gives the same answer for the same seed, and about the same for another', () => {
    expect(ripen(curd).result).toEqual(ripen(curd).result);
    const other = target({ ...curd, seed: 7 }, '5.2').p50;
    expect(other).not.toBe(target(curd, '5.2').p50);
    expect(Math.abs(other - target(curd, '5.2').p50)).toBeLessThan(10);
  });

  it('leaves a target that is never reached empty, and says how unlikely it is', () => {
    expect(ripen(milkAt37).result.minutesToPH['3.5']).toEqual({ p5: null, p50: null, p95: null, probability: 0 });
    expect(target(milkAt37, '5.2').probability).toBe(1);
  });

  it('is later with half the culture, in a cooler vat, and with a culture added dry', () => {
    const base = target(curd, '5.2').p50;
    const half = { ...curd, culture: { ...curd.culture, packetFraction: 1 } };
    expect(target(half, '5.2').p50).toBeGreaterThan(base + 10);
    expect(target({ ...curd, temperatureProfile: [{ minute: 0, temperatureC: 33 }] }, '5.2').p50).toBeGreaterThan(
      base + 10,
    );
    expect(target({ ...curd, culture: { ...curd.culture, form: 'freeze-dried' } }, '5.2').p50).toBeGreaterThan(
      base + 10,
    );
  });

  it('narrows with readings, and moves the way they point', () => {
    const typical = ripen(milkAt37).result.curve.find((point) => point.minute >= 120);
    const reading = (off: number) => ({
      ...milkAt37,
      readings: [{ minute: typical?.minute ?? 120, pH: (typical?.pH ?? 6) + off }],
    });
    expect(width(reading(0), '5.2')).toBeLessThan(0.6 * width(milkAt37, '5.2'));
    expect(target(reading(0.2), '5.2').p50).toBeGreaterThan(target(reading(-0.2), '5.2').p50 + 10);
  });

  it('keeps an honest width for curd: 0.2 pH of its own until the curd is read, 0.05 just after', () => {
    const spread = (input: unknown, minute: number) => {
      const point = ripen(input).result.curve.find((each) => each.minute >= minute);
      return (point?.p95 ?? Number.NaN) - (point?.p5 ?? Number.NaN);
    };
    const inMilk = {
      ...curd,
      readings: [
        { minute: 60, pH: 6.5 },
        { minute: 140, pH: 6.1, sample: 'whey' },
      ],
    };
    expect(spread(inMilk, 160)).toBeGreaterThan(2 * 1.645 * 0.19);
    const inCurd = { ...curd, readings: [{ minute: 200, pH: 5.6 }] };
    expect(spread(inCurd, 204)).toBeLessThan(2 * 1.645 * 0.12);
    expect(spread(inCurd, 400)).toBeGreaterThan(spread(inCurd, 204));
  });

  it('never shows a band narrower than 10 % of what remains in milk, 15 % in curd, or 6 minutes', () => {
    for (const [input, share] of [
      [{ ...milkAt37, readings: [60, 90, 120, 130].map((minute) => ({ minute, pH: 6.55 - minute / 400 })) }, 0.1],
      [{ ...curd, readings: [155, 165, 175, 185].map((minute) => ({ minute, pH: 6.0 - (minute - 155) / 100 })) }, 0.15],
    ] as const) {
      const now = input.readings.at(-1)?.minute ?? 0;
      const { p5, p50, p95 } = target(input, '5.2');
      const least = Math.max(6, share * (p50 - now)) - 1e-6;
      expect(p50 - p5).toBeGreaterThanOrEqual(least);
      expect(p95 - p50).toBeGreaterThanOrEqual(least);
    }
  });

  it('doubts a reading that no member foresaw, and asks for the curd to be read', () => {
    const odd = { ...curd, readings: [{ minute: 60, pH: 4.5 }] };
    expect(ripen(odd).cautions.map((each) => each.code)).toEqual(
      expect.arrayContaining(['ripen-reading-unlikely', 'ripen-few-members', 'ripen-curd-unread']),
    );
    expect(ripen(curd).cautions.map((each) => each.code)).toEqual(['ripen-curd-unread']);
  });

  it('calls acid slow when the median needs more than eight hours to pH 5.4', () => {
    const slow = { ...milkAt37, minutes: 1200, temperatureProfile: [{ minute: 0, temperatureC: 24 }] };
    expect(ripen(slow).cautions.map((each) => each.code)).toContain('plan-slow-acid');
  });

  it('tells every problem under the name it was given', () => {
    expect(fields({ ...curd, culture: { kind: 'yoghurt' } })).toEqual(['culture.packetFraction']);
    expect(fields({ ...curd, culture: { kind: 'yoghurt', percentBulk: 50 } })).toEqual(['culture.percentBulk']);
    expect(
      fields({
        ...curd,
        pH0: 4,
        temperatureProfile: [{ minute: 0, temperatureC: 98.6 }],
        drainMinute: 30,
        readings: [{ minute: 700, pH: 5 }],
      }),
    ).toEqual(['pH0', 'temperatureProfile[0].temperatureC', 'drainMinute', 'readings[0].minute']);
    expect(fields({ ...curd, readings: [{ minute: 30, pH: 6.5, sample: 'whey' }] })).toEqual(['readings[0].sample']);
    expect(ripenCalc.input.safeParse({ ...curd, members: 5000 }).success).toBe(false);
    expect(ripenCalc.input.safeParse({ ...curd, vat: 3 }).success).toBe(false);
  });
});
