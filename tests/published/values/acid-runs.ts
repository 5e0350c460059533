/**
 * The published sourings that the acid model is held against. What a page did not state is an assumption of ours, marked so:
 * most temperatures, most doses, all serum volumes.
 */
import { profileTemperatureC, type AcidMake } from '../../../src/science/acidification-schedule.ts';
import { ripenKernel, type RipenCurve } from '../../../src/science/acidification-make.ts';
import { CULTURES, type CultureKind } from '../../../src/science/culture.ts';

/** The cow's milk the model was tuned with. */
export const COW = {
  caseinGPerL: 26,
  wheyProteinGPerL: 6,
  solublePhosphateMM: 10.5,
  citrateMM: 8.5,
  colloidalPhosphateMM: 10.5,
  lactoseMM: 137,
};

export interface AcidRun {
  readonly kind: CultureKind;
  readonly cellsPerMl: number;
  readonly lagWork: number;
  readonly startPH: number;
  readonly make: AcidMake;
  readonly exchangePerHour?: number;
  /** Published: minute and pH. */
  readonly readings: readonly (readonly [minute: number, pH: number])[];
}

const BULK = 0.25;
const FROZEN = 0.5;
const DRIED = 1.2;

/** '60 6.59, 120 6.5' as minute and pH. */
const series = (text: string): [number, number][] =>
  text.split(', ').map((pair) => {
    const [minute = Number.NaN, pH = Number.NaN] = pair.split(' ').map(Number);
    return [minute, pH];
  });

const level = (temperatureC: number, minutes: number): AcidMake => ({
  minutes,
  temperatureProfile: [{ minute: 0, temperatureC }],
});

/** Scald as the old schedules do: set warm, raise between two minutes, then level (assumed throughout). */
const scald = (setC: number, cookC: number, fromMinute: number, toMinute: number): AcidMake['temperatureProfile'] => [
  { minute: 0, temperatureC: setC },
  { minute: fromMinute, temperatureC: setC },
  { minute: toMinute, temperatureC: cookC },
];

export const RUNS: Readonly<Record<string, AcidRun>> = {
  L1: {
    kind: 'mesophilic',
    cellsPerMl: 2e7,
    lagWork: BULK,
    startPH: 6.62,
    make: level(37, 540),
    readings: series('60 6.59, 120 6.5, 180 6.4, 240 6.15, 300 5.74, 360 5.39, 420 5.08, 480 4.92, 540 4.87'),
  },
  L2: {
    kind: 'mesophilic',
    cellsPerMl: 3e7,
    lagWork: FROZEN,
    startPH: 6.62,
    make: level(32, 900),
    readings: series('360 4.6'),
  },
  L4: {
    kind: 'mesophilic',
    cellsPerMl: 5e7,
    lagWork: BULK,
    startPH: 6.62,
    make: level(32, 900),
    readings: series('120 6.45, 330 4.8'),
  },
  L6: {
    kind: 'mesophilic-aromatic',
    cellsPerMl: 5e6,
    lagWork: BULK,
    startPH: 6.62,
    make: level(22, 1800),
    readings: series('960 4.5'),
  },
  L8: {
    kind: 'mesophilic-aromatic',
    cellsPerMl: 3e7,
    lagWork: BULK,
    startPH: 6.62,
    make: level(24, 1800),
    readings: series('810 4.65'),
  },
  Y1: {
    kind: 'yoghurt',
    cellsPerMl: 2e7,
    lagWork: DRIED,
    startPH: 6.62,
    make: level(42, 600),
    readings: series('157.2 5.39, 187.2 5.0'),
  },
  Y3: {
    kind: 'thermophilic',
    cellsPerMl: 2e7,
    lagWork: DRIED,
    startPH: 6.62,
    make: level(42, 600),
    readings: series('199.2 5.54, 247.2 5.0'),
  },
  Y5: {
    kind: 'thermophilic',
    cellsPerMl: 4.8e7,
    lagWork: DRIED,
    startPH: 6.6,
    make: level(42, 600),
    readings: series('120 6.12'),
  },
  Y7: {
    kind: 'yoghurt',
    cellsPerMl: 2e7,
    lagWork: BULK,
    startPH: 6.62,
    make: level(44.5, 600),
    readings: series('210 4.5'),
  },
  Y9: {
    kind: 'thermophilic',
    cellsPerMl: 1e7,
    lagWork: BULK,
    startPH: 6.62,
    make: level(42, 600),
    readings: series('300 4.65'),
  },
  M1: {
    kind: 'mesophilic',
    cellsPerMl: 1.6e7,
    lagWork: BULK,
    startPH: 6.6,
    exchangePerHour: 1.5,
    make: {
      minutes: 1440,
      temperatureProfile: [
        ...scald(31, 38.5, 135, 165),
        { minute: 210, temperatureC: 38.5 },
        { minute: 360, temperatureC: 34 },
        { minute: 600, temperatureC: 25 },
      ],
      cutMinute: 120,
      drainMinute: 210,
      drainSerumL: 0.11,
      finalSerumL: 0.05,
      saltMinute: 360,
      saltFactor: 0.25,
    },
    readings: series('60 6.55, 90 6.5, 210 6.1, 360 5.4, 420 5.35, 1440 5.2'),
  },
  M3: {
    kind: 'mesophilic',
    cellsPerMl: 3e7,
    lagWork: BULK,
    startPH: 6.6,
    exchangePerHour: 1.5,
    make: {
      minutes: 300,
      temperatureProfile: scald(31, 37, 95, 125),
      cutMinute: 85,
      drainMinute: 151,
      drainSerumL: 0.15,
      finalSerumL: 0.06,
    },
    readings: series('60 6.53, 80 6.55, 151 6.07, 233 5.32, 248 5.25'),
  },
  M4: {
    kind: 'mesophilic',
    cellsPerMl: 3e7,
    lagWork: BULK,
    startPH: 6.6,
    exchangePerHour: 1.5,
    make: {
      minutes: 300,
      temperatureProfile: scald(31, 37, 45, 75),
      cutMinute: 35,
      drainMinute: 100,
      drainSerumL: 0.15,
      finalSerumL: 0.06,
    },
    readings: series('30 6.58, 100 6.29, 191 5.6, 206 5.4'),
  },
  M7: {
    kind: 'mesophilic',
    cellsPerMl: 1.5e7,
    lagWork: BULK,
    startPH: 6.6,
    exchangePerHour: 0.3,
    make: {
      minutes: 1440,
      temperatureProfile: [
        { minute: 0, temperatureC: 32 },
        { minute: 140, temperatureC: 32 },
        { minute: 400, temperatureC: 22 },
      ],
      cutMinute: 120,
      drainMinute: 140,
      drainSerumL: 0.35,
      finalSerumL: 0.11,
    },
    readings: series('60 6.5, 120 6.3, 140 6.25, 1440 4.6'),
  },
  M8: {
    kind: 'thermophilic-helveticus',
    cellsPerMl: 2e6,
    lagWork: BULK,
    startPH: 6.6,
    exchangePerHour: 2.5,
    make: {
      minutes: 960,
      temperatureProfile: [
        ...scald(32, 52, 85, 120),
        { minute: 165, temperatureC: 51 },
        { minute: 480, temperatureC: 42 },
        { minute: 960, temperatureC: 32 },
      ],
      cutMinute: 45,
      drainMinute: 150,
      drainSerumL: 0.085,
      finalSerumL: 0.042,
    },
    readings: series('45 6.55, 150 6.35, 165 6.3, 960 5.3'),
  },
  M9: {
    kind: 'yoghurt',
    cellsPerMl: 5e6,
    lagWork: BULK,
    startPH: 6.6,
    exchangePerHour: 1.5,
    make: {
      minutes: 480,
      temperatureProfile: scald(37, 41, 45, 75),
      cutMinute: 30,
      drainMinute: 150,
      drainSerumL: 0.14,
      finalSerumL: 0.06,
    },
    readings: series('258 5.25'),
  },
};

/** The curve of a run with its dose multiplied. */
export function curveOf(run: AcidRun, doseFactor = 1): RipenCurve {
  return ripenKernel({
    make: run.make,
    composition: COW,
    culture: CULTURES[run.kind],
    cellsPerL: run.cellsPerMl * 1000 * doseFactor,
    lagWork: run.lagWork,
    startPH: run.startPH,
    ...(run.exchangePerHour === undefined ? {} : { exchangePerHour: run.exchangePerHour }),
  });
}

/** pH of a curve at a minute. */
export function pHAt(curve: RipenCurve, minute: number): number {
  const profile = Array.from(curve.minute, (m, i) => ({ minute: m, temperatureC: curve.pH[i] ?? Number.NaN }));
  return profileTemperatureC({ profile, minute });
}
