/**
 * Check values of the design for pasteurising and Listeria, worked out once by another program of our own (no source):
 * they guard the code against change and stand apart from the published values, which nobody here wrote.
 */
import { describe, expect, it } from 'vitest';
import {
  dairyRateKernel,
  dairyShares,
  interactionRateKernel,
  listeriaIncrease,
} from '../../src/science/listeria-growth.ts';
import { log10PerDay } from '../../src/science/growth.ts';
import { coldestPlausible, judgedHold } from '../../src/science/pasteurisation-hold.ts';
import {
  HEAT_TARGETS,
  LEGAL_PAIRS_Z_K,
  lethalityMinutes,
  secondsAt72C,
  secondsPerTenfold,
  segmentLethalityKernel,
  tenfoldReductions,
} from '../../src/science/pasteurisation-lethality.ts';
import { legalPairs } from '../../src/science/pasteurisation.ts';

type Curve = readonly (readonly [minute: number, temperatureC: number])[];
// prettier-ignore
const P1: Curve = [[0, 20], [20, 40], [35, 55], [45, 62], [50, 64], [55, 65], [60, 65], [65, 65], [70, 64.5], [75, 64], [80, 63.5], [85, 55], [95, 40]];
// prettier-ignore
const P2: Curve = [[0, 4], [15, 30], [30, 50], [40, 60], [46, 63.2], [56, 63.6], [66, 63.4], [75, 63.1], [77, 63.0], [90, 50]];

const lowered = (curve: Curve, thermometerErrorC: number) =>
  coldestPlausible({
    readings: curve.map(([minute, temperatureC]) => ({ minute, temperatureC })),
    thermometerErrorC,
  });
const steady = (temperatureC: number, seconds: number) => lowered([[0, temperatureC], [seconds / 60, temperatureC]], 0); // prettier-ignore
const within = (ours: number, table: number, percent = 0.5): void => {
  expect(Math.abs(ours - table)).toBeLessThanOrEqual(Math.abs(table) * (percent / 100));
};

describe('two logged heatings', () => {
  // Curve, error, gap allowed; hold in minutes, whether it meets the law, sum best and conservative.
  it.each([
    [P1, 0, undefined, 30, true, 78.4, 66.8],
    [P1, 0.5, undefined, 30, true, 60.1, 51.2],
    [P1, 1, undefined, 25, false, null, null],
    [P2, 0, 30, 31, true, 43.3, null],
    [P2, 0.1, 30, 29, false, 41, null],
    [P2, 0, 5, 2, false, 43.3, null],
  ] as const)(
    '%#: are judged by the hold and summed as in the table',
    (curve, error, maxGapMinutes, minutes, meets, best, cons) => {
      const curves = lowered(curve, error);
      const judged = judgedHold({
        curves,
        pairs: legalPairs({ fatPercent: 3.6, rule: 'us' }),
        ...(maxGapMinutes === undefined ? {} : { maxGapMinutes }),
      });
      expect(judged.meetsMinimum).toBe(meets);
      expect(judged.hold.creditedSeconds).toBeCloseTo(60 * minutes, 6);
      if (best !== null) within(lethalityMinutes({ curves }), best);
      if (cons !== null) within(lethalityMinutes({ curves, isConservative: true }), cons);
    },
  );
});

describe('the lethality sum', () => {
  it('has the z, the ramp and the equivalent holds of the table', () => {
    expect(LEGAL_PAIRS_Z_K).toBeCloseTo(4.3286, 4);
    within(lethalityMinutes({ curves: lowered([[0, 60], [10, 66]], 0) }), 14.82); // prettier-ignore
    within(secondsAt72C(lethalityMinutes({ curves: lowered(P1, 0) })), 39.2);
    for (const [temperatureC, minutes] of [[62, 51.07], [64, 17.62], [65, 10.35], [66, 6.08], [68, 2.1], [70, 43.46 / 60], [72, 0.25]] as const) {
      within(30 / segmentLethalityKernel({ minutes: 1, fromC: temperatureC, toC: temperatureC, referenceC: 63, zK: LEGAL_PAIRS_Z_K }), minutes);
    } // prettier-ignore
  });

  it('gives the tenfold times and steps of the table', () => {
    const coxiella = HEAT_TARGETS.coxiellaBurnetii;
    within(secondsPerTenfold({ target: coxiella, temperatureC: 63 }), 203.6);
    within(secondsPerTenfold({ target: HEAT_TARGETS.listeriaMonocytogenes, temperatureC: 63 }), 21.6);
    within(tenfoldReductions({ curves: steady(63, 1800), target: coxiella }), 8.8);
    within(tenfoldReductions({ curves: steady(71.7, 15), target: coxiella }), 7.54);
    within(tenfoldReductions({ curves: steady((143 - 32) / 1.8, 1800), target: coxiella }), 4.35);
    within(lethalityMinutes({ curves: steady((143 - 32) / 1.8, 1800) }), 14.8);
  });
});

describe('growth of Listeria', () => {
  const shares = (temperatureC: number, pH: number, waterActivity: number) =>
    dairyShares({ temperatureC, pH, waterActivity });

  it('has the shares of the table', () => {
    for (const [temperatureC, share] of [[4, 0.03353], [5, 0.04612], [25, 0.6409], [37, 1]] as const) {
      within(shares(temperatureC, 7, 0.98).temperature, share);
    } // prettier-ignore
    for (const [pH, share] of [
      [6.7, 0.9731],
      [5.5, 0.5592],
      [5, 0.2326],
    ] as const)
      within(shares(5, pH, 0.98).pH, share);
    within(shares(5, 7, 0.97).activity, 0.6786);
  });

  it('has the rates of the table, with and without lactic acid', () => {
    const milk = { temperatureC: 5, pH: 6.7, waterActivity: 0.997 };
    within(dairyRateKernel(milk), 0.0333);
    within(log10PerDay(dairyRateKernel(milk)), 0.347);
    within(interactionRateKernel(milk).ratePerH, 0.03128);
    within(interactionRateKernel(milk).psi, 0.2588);
    const acid = { temperatureC: 5, pH: 5.3, waterActivity: 0.985 };
    within(dairyRateKernel(acid), 0.0129);
    within(interactionRateKernel(acid).ratePerH, 0.01421);
    within(interactionRateKernel(acid).psi, 0.3698);
    const strong = interactionRateKernel({ ...acid, lacticMM: 44 });
    within(strong.undissociatedMM, 1.542);
    within(strong.psi, 1.08);
    expect(strong.ratePerH).toBe(0);
    const some = interactionRateKernel({ ...acid, temperatureC: 8, lacticMM: 20 });
    within(some.undissociatedMM, 0.7007);
    within(log10PerDay(some.ratePerH), 0.231);
  });

  it.each([
    [6.4, 0.99, 7, 2.03, 2.5],
    [5.2, 0.985, 7, 0.8, 1.6],
    [5, 0.94, 30, 0, 1.6],
  ])(
    'at 5 °C, pH %d and water activity %d for %d days goes as far as in the table',
    (pH, waterActivity, days, p50, p95) => {
      const grown = listeriaIncrease({ temperatureC: 5, pH, waterActivity, days });
      within(grown.p50, p50);
      within(grown.p95, p95);
    },
  );
});
