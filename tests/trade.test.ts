/**
 * What people of the trade know, asked of the calculators as a maker would ask. Every figure here is
 * common practice (no source); what a check leaves open (the pH, how warm the curd is) is said in its name or beside it.
 */
import { describe, expect, it } from 'vitest';
import { convert } from '../src/numbers/units.ts';
import { cheeseThermal } from '../src/science/cheese-thermal.ts';
import { FLOCCULATION_MULTIPLIERS } from '../src/science/coagulation.ts';
import { BURNER_W } from '../src/science/heater.ts';
import { potFor } from '../src/science/pot.ts';
import { bowlCourse, type PieceShape } from '../src/science/stretching-bowl.ts';
import { lossCurve } from '../src/science/vat.ts';
import { ask, askFor } from './ask.ts';

describe('rennet in warm pasteurised milk with calcium: common practice (no source)', () => {
  const { addedMM } = ask('calcium', { milkL: 10, solutionPercent: 33, gPerL: 0.1 });

  it.each([
    [200, 6.6],
    [250, 6.6],
    [200, 6.4],
    [250, 6.4],
  ])('0.19 mL a litre of %i IMCU/mL at 37 °C and pH %f breaks clean within 45 minutes', (strength, pH) => {
    const flocculationMinutes = askFor('flocculationMinutes.p50', {
      name: 'clot',
      input: {
        doseIMCUPerL: 0.19 * strength,
        temperatureC: 37,
        pH,
        heatTreatment: 'pasteurised',
        addedCalciumMM: addedMM,
      },
    });
    const { cutMinutesAfterRennet } = ask('cut-time', {
      flocculationMinutes,
      multiplier: FLOCCULATION_MULTIPLIERS.stretched.typical,
    });
    expect(cutMinutesAfterRennet).toBeLessThan(45);
    expect(cutMinutesAfterRennet).toBeGreaterThan(15); // a set in minutes would be as wrong
  });
});

describe('whey replaced by hot water: common practice (no source)', () => {
  it('30 % of a 10 L vat at 37 °C, replaced by 60 °C water, comes to 41 to 43 °C', () => {
    const { finalC } = ask('wash', { vatL: 10, vatC: 37, drawL: 3, waterC: 60, addL: 3 });
    expect(finalC).toBeGreaterThan(41);
    expect(finalC).toBeLessThan(43);
  });
});

describe('1.2 kg of 85 °C water on a kilogram of curd in a warmed, covered bowl: common practice (no source)', () => {
  // The curd comes warm from its whey, at 35 °C: our reading.
  const pot = potFor({ capacityL: 5, insideMm: 280 });
  const loss = lossCurve({ pot, volumeL: 2.2, roomC: 20, keeping: 'lid' });
  const coreAfter8 = (of: { pieceMm: number; pieceShape: PieceShape; curdC?: number; pours?: number }): number => {
    const course = bowlCourse({
      curdKg: 1,
      curdC: 35,
      thermal: cheeseThermal({ moisturePercent: 50, temperatureC: 50 }),
      waterKg: 1.2,
      waterC: 85,
      minutesPerPour: 4,
      roomC: 20,
      loss,
      ...of,
    });
    return course.find((point) => point.minute >= 8)?.coreC ?? Number.NaN;
  };

  it.each(['cube', 'sheet'] as const)('brings the middle of inch-thick pieces (%s) to 50 °C in 8 minutes', (shape) => {
    expect(coreAfter8({ pieceMm: 25.4, pieceShape: shape })).toBeGreaterThanOrEqual(50);
  });

  it('does better with a second pour, or with thinner slices', () => {
    const once = coreAfter8({ pieceMm: 25.4, pieceShape: 'sheet' });
    expect(coreAfter8({ pieceMm: 25.4, pieceShape: 'sheet', pours: 2 })).toBeGreaterThan(once + 1);
    expect(coreAfter8({ pieceMm: 12.7, pieceShape: 'sheet' })).toBeGreaterThan(once + 5);
  });

  it('falls two degrees short in inch-thick slabs of curd that has cooled to 30 °C: keep the curd warm', () => {
    expect(coreAfter8({ pieceMm: 25.4, pieceShape: 'sheet', curdC: 30 })).toBeCloseTo(48, 0);
    expect(coreAfter8({ pieceMm: 25.4, pieceShape: 'cube', curdC: 30 })).toBeGreaterThan(50);
  });
});

describe('a shaped cheese of half a kilogram, 15 minutes in water of 4 to 5 °C: common practice (no source)', () => {
  it.each([
    ['sphere', [97], 4],
    ['sphere', [97], 5],
    ['cylinder', [100, 60], 4],
    ['cylinder', [100, 60], 5],
    ['brick', [110, 80, 54], 4],
    ['brick', [110, 80, 54], 5],
  ] as const)(
    'a %s of %j mm at 4 or 5 °C holds its shape: mean below 45 °C, surface below 10 °C',
    (shape, mm, bathC) => {
      const { coreC, meanC, surfaceC } = ask('cool', { shape, mm, fromC: 58, bathC, minutes: 15 });
      expect(meanC).toBeLessThan(45);
      expect(surfaceC).toBeLessThan(10);
      // What remains inside: the core has hardly moved, and warms the skin again once the cheese is taken out.
      expect(coreC).toBeGreaterThan(48);
      expect(coreC).toBeLessThan(58);
    },
  );
});

describe('balls of 60 to 125 g in cool 18 % brine: common practice (no source)', () => {
  it.each([
    [60, 47, 8],
    [60, 47, 15],
    [125, 60, 8],
    [125, 60, 15],
  ])('%i g (%i mm) at %i °C: lightly salted after 30 minutes, well salted after 60', (_, diameterMm, temperatureC) => {
    const ball = { shape: 'sphere', mm: [diameterMm], moisturePercent: 57, brinePercent: 18, temperatureC };
    const after = (hours: number): number => ask('brine-time', { ...ball, hours })['saltPercent'] ?? Number.NaN;
    expect(after(0.5)).toBeGreaterThan(0.7);
    expect(after(0.5)).toBeLessThan(1.1);
    expect(after(1)).toBeGreaterThan(1);
    expect(after(1)).toBeLessThan(1.6);
  });
});

describe('5 litres on a medium burner while the curd rests an hour: common practice (no source)', () => {
  it.each([
    ['whey just drained', 'whey', 35],
    ['whey that has gone cold', 'whey', 4],
    ['water from the tap', 'water', 15],
  ] as const)('%s (%s at %i °C) reaches 85 °C in time', (_, liquid, fromC) => {
    const { minutes } = ask('heat', {
      volumeL: 5,
      fromC,
      toC: 85,
      heaterW: BURNER_W.medium.median,
      liquid,
    });
    expect(minutes).toBeLessThan(60);
    expect(minutes).toBeGreaterThan(15);
  });
});

describe('the two scales: common practice (no source)', () => {
  it.each([
    [37, 99],
    [42, 108],
    [60, 140],
    [85, 185],
  ])('%i °C is %i °F to the nearest degree', (celsius, fahrenheit) => {
    expect(Math.round(convert({ value: celsius, from: 'C', to: 'F' }))).toBe(fahrenheit);
    expect(Math.abs(convert({ value: fahrenheit, from: 'F', to: 'C' }) - celsius)).toBeLessThan(0.5);
    expect(ask('measure', { value: celsius, from: 'C', to: 'F' })['value']).toBeCloseTo(32 + 1.8 * celsius, 9);
  });
});
