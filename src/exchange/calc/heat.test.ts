import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import { coolCalc } from './cool.ts';
import { heatCalc } from './heat.ts';
import { holdCalc } from './hold.ts';
import { stretchWaterCalc } from './stretch-water.ts';
import { vatFitCalc } from './vat-fit.ts';
import { washCalc } from './wash.ts';

const heat = (input: z.input<typeof heatCalc.input>) => heatCalc.run(heatCalc.input.parse(input));
const hold = (input: z.input<typeof holdCalc.input>) => holdCalc.run(holdCalc.input.parse(input));
const fit = (input: z.input<typeof vatFitCalc.input>) => vatFitCalc.run(vatFitCalc.input.parse(input));
const wash = (input: z.input<typeof washCalc.input>) => washCalc.run(washCalc.input.parse(input));
const stretch = (input: z.input<typeof stretchWaterCalc.input>) =>
  stretchWaterCalc.run(stretchWaterCalc.input.parse(input));
const cool = (input: z.input<typeof coolCalc.input>) => coolCalc.run(coolCalc.input.parse(input));

const problemsOf = (run: () => unknown): InputError => {
  try {
    run();
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error('was answered');
};

describe('the sums of heat', () => {
  it('answer their own example in the shape that they promise, with assumptions and sources', () => {
    const answers = [
      { calc: heatCalc, answer: heat(heatCalc.example) },
      { calc: holdCalc, answer: hold(holdCalc.example) },
      { calc: vatFitCalc, answer: fit(vatFitCalc.example) },
      { calc: washCalc, answer: wash(washCalc.example) },
      { calc: stretchWaterCalc, answer: stretch(stretchWaterCalc.example) },
      { calc: coolCalc, answer: cool(coolCalc.example) },
    ];
    for (const { calc, answer } of answers) {
      expect(calc.result.parse(answer.result), calc.name).toEqual(answer.result);
      expect(answer.assumptions.length, calc.name).toBeGreaterThan(0);
      expect(answer.sources.length, calc.name).toBeGreaterThan(0);
      expect(z.toJSONSchema(calc.input, { io: 'input' })).toMatchObject({
        type: 'object',
        additionalProperties: false,
      });
      expect(z.toJSONSchema(calc.result)).toMatchObject({ type: 'object' });
    }
  });

  it('refuse fields that they do not know', () => {
    expect(heatCalc.input.safeParse({ ...heatCalc.example, volume: 3 }).success).toBe(false);
    expect(heatCalc.input.safeParse({ ...heatCalc.example, volumeL: 0 }).success).toBe(false);
    expect(heatCalc.input.safeParse({ ...heatCalc.example, volumeL: -3 }).success).toBe(false);
  });
});

describe('heat', () => {
  it('is the plain m c dT / P where nothing is lost', () => {
    const { result } = heat({
      volumeL: 10,
      fromC: 20,
      toC: 40,
      heaterW: 1000,
      liquid: 'water',
      lossWPerK: 0,
      potKg: 0,
    });
    expect(result.minutes).toBeCloseTo((9.957 * 4.18 * 20) / 60, 1);
  });

  it('turns off below the target, but not when nothing is stored', () => {
    const input = { volumeL: 10, fromC: 20, toC: 37, heaterW: 900 };
    expect(heat(input).result.heatOffC).toBeLessThan(36.2);
    expect(heat({ ...input, coastSeconds: 0 }).result.heatOffC).toBe(37);
  });

  it('is longer without a lid, and on half the efficiency more than twice as long', () => {
    const input = { volumeL: 10, fromC: 20, toC: 60, heaterW: 900 };
    const open = heat(input).result.minutes;
    expect(heat({ ...input, lid: true }).result.minutes).toBeLessThan(open);
    expect(heat({ ...input, efficiency: 0.5 }).result.minutes).toBeGreaterThan(2 * open);
  });

  it('says when the heater can never reach it: possible, but not answerable', () => {
    const error = problemsOf(() => heat({ volumeL: 10, fromC: 20, toC: 80, heaterW: 100 }));
    expect(error.problems[0]?.code).toBe('unreachable');
    expect(error.outsideModel).toBe(true);
  });

  it('warns of a constant loss above 50 °C and of lifting what is heavy', () => {
    const codes = (input: z.input<typeof heatCalc.input>): string[] => heat(input).cautions.map((each) => each.code);
    expect(codes({ volumeL: 10, fromC: 20, toC: 70, heaterW: 2000, lossWPerK: 3 })).toContain('heat-constant-loss');
    expect(codes({ volumeL: 10, fromC: 20, toC: 37, heaterW: 2000, lossWPerK: 3 })).toEqual([]);
    expect(codes({ volumeL: 20, fromC: 20, toC: 37, heaterW: 2000 })).toContain('hot-lift');
  });

  it('names the field that is wrong as it was given', () => {
    expect(problemsOf(() => heat({ volumeL: 10, fromC: 40, toC: 37, heaterW: 900 })).problems[0]?.field).toBe('toC');
    expect(problemsOf(() => heat({ volumeL: 5000, fromC: 4, toC: 37, heaterW: 900 })).problems[0]?.field).toBe(
      'volumeL',
    );
  });
});

describe('hold', () => {
  it('tells the end and tops up a sink', () => {
    const towels = hold({ volumeL: 10, atC: 37, minutes: 180, roomC: 20, how: 'towels' });
    const open = hold({ volumeL: 10, atC: 37, minutes: 180, roomC: 20, how: 'open' });
    expect(towels.result.endC).toBeGreaterThan(open.result.endC);
    expect(towels.result.topUps).toEqual([]);
    expect(open.result.curve.at(-1)?.temperatureC).toBe(open.result.endC);
    const sink = hold({ volumeL: 10, atC: 37, minutes: 180, roomC: 20, how: 'sink', sinkL: 25, sinkC: 38.5 });
    expect(sink.result.topUps.length).toBeGreaterThan(1);
    expect(sink.result.endC).toBeGreaterThan(36);
  });
});

describe('vat-fit', () => {
  it('gives back the pot and burner that made the readings', () => {
    const heatKJ = 10 * 1.029 * 3.9 + 1.76;
    const at = (startC: number, heaterW: number, minutes: number): number => {
      const end = 20 + heaterW / 2.4;
      return end + (startC - end) * Math.exp((-2.4 * minutes * 60) / (1000 * heatKJ));
    };
    const first = at(30, 700, 12);
    const second = at(first, 0, 20);
    const readings = [
      { minute: 0, temperatureC: 30, heaterOn: true },
      { minute: 12, temperatureC: first, heaterOn: false },
      { minute: 32, temperatureC: second, heaterOn: false },
      { minute: 60, temperatureC: at(second, 0, 28), heaterOn: false },
    ];
    const { result, cautions } = fit({ readings, volumeL: 10, roomC: 20 });
    expect(result.lossWPerK / 2.4).toBeCloseTo(1, 1);
    expect((result.heaterW ?? 0) / 700).toBeCloseTo(1, 1);
    expect(result.heaterWStandardError).toBeGreaterThan(0);
    expect(cautions).toEqual([]);
  });

  it('says when readings cannot tell heater and loss apart', () => {
    const { result, cautions } = fit({
      readings: [
        { minute: 0, temperatureC: 37, heaterOn: false },
        { minute: 30, temperatureC: 35, heaterOn: false },
      ],
      volumeL: 10,
      roomC: 20,
    });
    expect(result.heaterW).toBeNull();
    expect(cautions.map((each) => each.code)).toContain('fit-leans-on-prior');
  });
});

describe('wash', () => {
  it('lands at 41 to 43 °C, and finds the water for 42', () => {
    const given = wash({ vatL: 10, vatC: 37, drawL: 3, waterC: 60, addL: 3 });
    expect(given.result.finalC).toBeGreaterThan(41);
    expect(given.result.finalC).toBeLessThan(43);
    expect(given.result.idealFinalC).toBeGreaterThan(given.result.finalC);
    expect(given.result.waterCForFullTopUp).toBeCloseTo(60, 3);
    const asked = wash({ vatL: 10, vatC: 37, drawL: 3, waterC: 62, targetC: 42 });
    expect(asked.result.finalC).toBeCloseTo(42, 4);
    expect(asked.result.addL).toBeGreaterThan(2);
    expect(asked.result.addL).toBeLessThan(3);
  });

  it('takes centimetres in a pot of known width', () => {
    const { result } = wash({ vatL: 10, vatC: 37, drawCm: 6, potInsideMm: 250, waterC: 60, targetC: 41 });
    expect(result.drawL).toBeCloseTo(2.945, 3);
  });

  it('collects all that is missing', () => {
    const error = problemsOf(() => wash({ vatL: 10, vatC: 37, waterC: 60, drawCm: 5, addL: 3, targetC: 42 }));
    expect(error.problems.map((each) => each.field)).toEqual(['potInsideMm', 'addL']);
    expect(error.outsideModel).toBe(false);
  });

  it('cannot reach 58 °C with 60 °C water', () => {
    const error = problemsOf(() => wash({ vatL: 10, vatC: 37, drawL: 3, waterC: 60, targetC: 58 }));
    expect(error.problems[0]?.code).toBe('unreachable');
  });
});

describe('stretch-water', () => {
  it('is the plain balance for one pour and warns of hot hands', () => {
    const { result, cautions } = stretch({ curdKg: 1, curdC: 30, targetC: 60, waterC: 80 });
    expect(result.waterKg).toBeCloseTo(1.11, 1);
    expect(result.mixC).toBeCloseTo(60, 6);
    expect(result.realWaterKg).toBeGreaterThan(result.waterKg);
    expect(cautions.map((each) => each.code)).toContain('stretch-hands');
  });

  it('reaches the core in a bowl that loses nothing, and says null in one that does', () => {
    const input = { curdKg: 1, curdC: 32, targetC: 58, waterC: 82, pieceMm: 12 };
    expect(stretch({ ...input, bowlWPerK: 0 }).result.minutesToCore).toBeGreaterThan(1);
    expect(stretch({ ...input, bowlWPerK: 25, pieceMm: 30 }).result.minutesToCore).toBeNull();
  });

  it('warns outside the window and needs water hotter than the target', () => {
    expect(stretch({ curdKg: 1, curdC: 30, targetC: 66, waterC: 85 }).cautions.map((each) => each.code)).toContain(
      'stretch-too-warm',
    );
    expect(problemsOf(() => stretch({ curdKg: 1, curdC: 30, targetC: 60, waterC: 55 })).problems[0]?.field).toBe(
      'waterC',
    );
    expect(stretch({ curdKg: 1, curdC: 60, targetC: 58, waterC: 80 }).result.waterKg).toBe(0);
  });
});

describe('cool', () => {
  it('takes a 125 g ball from 58 °C to 20 °C inside in 22 to 31 minutes', () => {
    const { result } = cool({ shape: 'sphere', mm: [61], fromC: 58, bathC: 1, targetCoreC: 20 });
    expect(result.minutes).toBeGreaterThan(22);
    expect(result.minutes).toBeLessThan(31);
    expect(result.coreC).toBeCloseTo(20, 3);
    expect(result.iceKg).toBeGreaterThan(0.05);
  });

  it('tells what it is after some minutes, and takes more ice for more pieces', () => {
    const input = { shape: 'cylinder' as const, mm: [120, 85], fromC: 58, bathC: 2, minutes: 60 };
    const one = cool(input).result;
    expect(one.coreC).toBeGreaterThan(one.meanC);
    expect(cool({ ...input, pieces: 3 }).result.iceKg).toBeCloseTo(3 * one.iceKg, 0);
  });

  it('cannot cool below the bath, and wants sizes that fit the shape', () => {
    const error = problemsOf(() => cool({ shape: 'sphere', mm: [61], fromC: 58, bathC: 10, targetCoreC: 8 }));
    expect(error.problems[0]?.code).toBe('unreachable');
    expect(
      problemsOf(() => cool({ shape: 'brick', mm: [61], fromC: 58, bathC: 1, minutes: 5 })).problems[0]?.field,
    ).toBe('mm');
    expect(problemsOf(() => cool({ shape: 'sphere', mm: [61], fromC: 58, bathC: 1 })).outsideModel).toBe(false);
  });
});
