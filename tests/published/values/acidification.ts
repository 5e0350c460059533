import {
  boundProtonsMM,
  bufferCapacityMMPerPH,
  colloidalDissolvedFraction,
  COLLOIDAL_MIDPOINT_QUICK_PH,
  protonsToReachPH,
} from '../../../src/science/buffer.ts';
import { acidToReachPH } from '../../../src/science/buffer-acid.ts';
import { insolubleCalciumMgPerG } from '../../../src/science/buffer-calcium.ts';
import { milkAcidityDornic, serumAcidityDornic } from '../../../src/science/acidity.ts';
import { COW, curveOf, pHAt, RUNS, type AcidRun } from './acid-runs.ts';
import type { PublishedValues } from '../rows.ts';

const DOSE_LN_SD = 0.4; // prior of the fitted dose factor
const READING_SD = 0.05; // of a published pH

const misfit = (run: AcidRun, lnDose: number): number => {
  const curve = curveOf(run, Math.exp(lnDose));
  let sum = (lnDose / DOSE_LN_SD) ** 2;
  for (const [minute, pH] of run.readings) sum += ((pHAt(curve, minute) - pH) / READING_SD) ** 2;
  return sum;
};

/** The one factor on the dose that fits a batch best, with its prior. */
function fittedDose(run: AcidRun): number {
  let best = { lnDose: 0, misfit: Infinity };
  for (let lnDose = -1.5; lnDose <= 1.5; lnDose += 0.05) {
    const here = misfit(run, lnDose);
    if (here < best.misfit) best = { lnDose, misfit: here };
  }
  return Math.exp(best.lnDose);
}

/** Every run with its dose factor fitted, and at its typical dose. */
export const fitted = Object.fromEntries(Object.entries(RUNS).map(([id, run]) => [id, curveOf(run, fittedDose(run))]));
export const typical = Object.fromEntries(Object.entries(RUNS).map(([id, run]) => [id, curveOf(run)]));

export const readings = Object.entries(RUNS).flatMap(([id, run]) =>
  run.readings.map(([minute, pH]) => ({ id: `acid-${id}-${minute}`, run: id, minute, pH })),
);
const at = (curves: typeof fitted, run: string, minute: number): number => {
  const curve = curves[run];
  return curve === undefined ? Number.NaN : pHAt(curve, minute);
};
export const rootMeanSquare = (curves: typeof fitted): number =>
  Math.sqrt(readings.reduce((sum, r) => sum + (at(curves, r.run, r.minute) - r.pH) ** 2, 0) / readings.length);

/** Steepest fall of a run's fitted curve [pH/min]. */
const steepest = (run: string): number => {
  const curve = fitted[run];
  let best = 0;
  curve?.minute.forEach((minute, i) => {
    if (i > 0) {
      const fall = (curve.pH[i - 1] ?? 0) - (curve.pH[i] ?? 0);
      best = Math.max(best, fall / (minute - (curve.minute[i - 1] ?? 0)));
    }
  });
  return best;
};

/** pH of cheese from its lactate: 24 % casein, 45 % water, drained at pH 6.2, little of its phosphate dissolving. */
function cheesePH(lactateMmolPerKg: number): number {
  const scale = 240 / COW.caseinGPerL;
  const water = 0.45;
  const curd = {
    caseinGPerL: 240,
    wheyProteinGPerL: water * COW.wheyProteinGPerL,
    solublePhosphateMM: water * COW.solublePhosphateMM,
    citrateMM: water * COW.citrateMM,
    colloidalPhosphateMM: 0.15 * scale * COW.colloidalPhosphateMM,
  };
  const atDrain = 0.45 * 7; // lactate of whey at pH 6.2
  const held = (pH: number, lactateMM: number): number => boundProtonsMM({ composition: curd, pH, lactateMM });
  const target = held(6.2, atDrain) + lactateMmolPerKg - atDrain;
  let [low, high] = [3.6, 6.2];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (held(middle, lactateMmolPerKg) > target) low = middle;
    else high = middle;
  }
  return low;
}

const YOGHURT_MILK = { ...COW, caseinGPerL: 31, wheyProteinGPerL: 7.2, colloidalPhosphateMM: (10.5 * 31) / 26 };
const GOAT = { ...COW, caseinGPerL: 25, citrateMM: 6.5 };
const lactic = (composition: typeof COW, fromPH: number, toPH: number): number =>
  acidToReachPH({ composition, acid: 'lactic', fromPH, toPH }).quick.mmolPerL;
function peakPH(): number {
  let best = { pH: 0, capacity: 0 };
  for (let pH = 4.4; pH < 6; pH += 0.01) {
    const capacity = bufferCapacityMMPerPH({ composition: COW, pH });
    if (capacity > best.capacity) best = { pH, capacity };
  }
  return best.pH;
}

/** Serum of lactic curd that was never drained: all its phosphate dissolved into a litre of serum for a litre of milk. */
const goatSerumDornic = (): number =>
  serumAcidityDornic({
    startDornic: 15,
    composition: GOAT,
    startPH: 6.55,
    pH: 4.4,
    lactateMM: lactic(GOAT, 6.55, 4.4),
    strength: 1,
    dissolvedPhosphateMM:
      GOAT.colloidalPhosphateMM * colloidalDissolvedFraction({ pH: 4.4, midpointPH: COLLOIDAL_MIDPOINT_QUICK_PH }),
  });

export const values: PublishedValues = {
  ...Object.fromEntries(readings.map(({ id, run, minute }) => [id, () => at(fitted, run, minute)])),
  'acid-Y1-rate': () => steepest('Y1'),
  'acid-Y3-rate': () => steepest('Y3'),
  'acid-lee-111': () => cheesePH(111),
  'acid-lee-122': () => cheesePH(122),
  'acid-lee-144': () => cheesePH(144),
  'acid-lee-144w': () => cheesePH(144),
  'acid-lee-155w': () => cheesePH(155),
  'acid-lee-167': () => cheesePH(167),
  'acid-lee-178': () => cheesePH(178),
  'acid-peak-HCl': peakPH,
  'acid-peak-index': () => bufferCapacityMMPerPH({ composition: COW, pH: peakPH() }) / 1000,
  'acid-yoghurt-lactic': () => lactic(YOGHURT_MILK, 6.5, 4.54),
  'acid-yoghurt-dornic': () => milkAcidityDornic({ startDornic: 16, lactateMM: lactic(COW, 6.64, 4.56) }),
  'acid-fermented-6.24': () => lactic(COW, 6.79, 6.24),
  'acid-fermented-5.25': () => lactic(COW, 6.79, 5.25),
  'acid-fermented-4.36': () => lactic(COW, 6.79, 4.36),
  'acid-fermented-6.12': () => lactic(COW, 6.6, 6.12),
  'acid-fermented-4.46': () => lactic(COW, 6.6, 4.46),
  'acid-goat-slope': () => protonsToReachPH({ composition: GOAT, fromPH: 6.6, toPH: 6.2 }) / 0.4,
  'acid-goat-serum': goatSerumDornic,
  'acid-calcium-6.29': () => insolubleCalciumMgPerG({ drainPH: 6.29, curdPH: 5.2 }),
  'acid-calcium-6.07': () => insolubleCalciumMgPerG({ drainPH: 6.07, curdPH: 5.1 }),
};
