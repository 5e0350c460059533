/** Plots of milk, acid, gel and curd. */
import { COW } from '../../tests/published/values/acid-runs.ts';
import { fitted } from '../../tests/published/values/acidification.ts';
import type { Judged } from '../../tests/published/rows.ts';
import { bufferCapacityMMPerPH } from '../../src/science/buffer.ts';
import { insolubleCalciumMgPerG } from '../../src/science/buffer-calcium.ts';
import { rennetActivityAt } from '../../src/science/coagulation.ts';
import { cultureSurvival, rennetActive } from '../../src/science/heat-death.ts';
import { gelFirmnessPa } from '../../src/science/firmness.ts';
import { gradeProbabilities, STRETCH_GRADES } from '../../src/science/judgements.ts';
import { milkComposition, milkDensityKgPerM3 } from '../../src/science/milk.ts';
import { syneresisRatePerMin, WHEY_END_FRACTION, wheyFractionAfter } from '../../src/science/syneresis.ts';
import { evenly, type Plot, type PlotCurve } from './plot.ts';
import { inId, pointsOf } from './rows.ts';

type Draw = (rows: readonly Judged[]) => Plot;

const acidRun = (id: string, label: string): PlotCurve => ({
  label,
  points: Array.from(fitted[id]?.minute ?? [], (minute, i) => [minute / 60, fitted[id]?.pH[i] ?? Number.NaN] as const),
});
const RUNS_SHOWN = [
  ['L1', 'skim, 37 °C'],
  ['Y3', 'thermophilic, 42 °C'],
  ['M3', 'Cheddar type'],
] as const;

export const MILK_PLOTS: Readonly<Record<string, Draw>> = {
  milk: (rows) => ({
    title: "Density of cow's milk over temperature",
    xLabel: 'temperature, °C',
    yLabel: 'density, kg/L',
    curves: [
      {
        label: 'model, mean cow',
        points: evenly(0, 40).map((t) => [
          t,
          milkDensityKgPerM3({ ...milkComposition({ species: 'cow' }), temperatureC: t }) / 1000,
        ]),
      },
    ],
    published: [{ label: 'published', points: pointsOf({ rows, id: /^milk-density-([\d.]+)$/, at: inId }) }],
  }),
  acidification: (rows) => ({
    title: 'pH of three published sourings, one dose factor fitted to each',
    xLabel: 'hours from the culture',
    yLabel: 'pH',
    curves: RUNS_SHOWN.map(([id, label]) => acidRun(id, label)),
    published: RUNS_SHOWN.map(([id]) => ({
      label: id,
      points: pointsOf({ rows, id: new RegExp(`^acid-${id}-([\\d.]+)$`), at: (match) => inId(match) / 60 }).map(
        ({ x, y }) => ({ x, y }),
      ),
    })),
  }),
  buffering: (rows) => ({
    title: 'Buffering of milk over pH, and where titrations find its peak',
    xLabel: 'pH',
    yLabel: 'buffer capacity, mmol/(L pH)',
    curves: [
      {
        label: "model, cow's milk",
        points: evenly(4, 7).map((pH) => [pH, bufferCapacityMMPerPH({ composition: COW, pH })]),
      },
    ],
    published: [
      {
        label: 'published peak',
        points: pointsOf({ rows, id: /^acid-peak-index$/, at: () => 5.05, factor: 1000 }),
      },
    ],
  }),
  calcium: (rows) => ({
    title: 'Insoluble calcium in curd over the pH at which its whey was drained',
    xLabel: 'pH at draining',
    yLabel: 'insoluble calcium, mg per g protein',
    curves: [5.1, 5.2].map((curdPH) => ({
      label: `curd of pH ${curdPH}`,
      points: evenly(5.2, 6.6).map((drainPH) => [drainPH, insolubleCalciumMgPerG({ drainPH, curdPH })]),
    })),
    published: [{ label: 'published', points: pointsOf({ rows, id: /^acid-calcium-([\d.]+)$/, at: inId }) }],
  }),
  clotting: (rows) => {
    const temperatures: Readonly<Record<string, number>> = { '1': 21.1, '2': 28.9, '3': 33.3, '4': 48.9 };
    return {
      title: 'Activity of rennet over temperature',
      xLabel: 'temperature, °C',
      yLabel: 'share of the best',
      curves: [{ label: 'model', points: evenly(14, 52).map((t) => [t, rennetActivityAt(t)]) }],
      published: [
        {
          label: 'published, fitted on',
          points: pointsOf({ rows, id: /^curd-A([1-4])$/, at: (match) => temperatures[match[1] ?? ''] ?? Number.NaN }),
        },
      ],
    };
  },
  overheating: (rows) => ({
    title: 'Minutes that leave one in ten, over temperature',
    xLabel: 'temperature, °C',
    yLabel: 'minutes',
    curves: [
      {
        label: 'S. thermophilus',
        points: evenly(58, 70).map((t) => [
          t,
          -1 / Math.log10(cultureSurvival({ kind: 'thermophilic', temperatureC: t, minutes: 1 }).p50),
        ]),
      },
      {
        label: 'chymosin',
        points: evenly(53, 70).map((t) => [t, -1 / Math.log10(rennetActive({ temperatureC: t, minutes: 1 }))]),
      },
    ],
    published: [
      {
        label: 'published, cells',
        points: pointsOf({ rows, id: /^overheat-(?:thermophilus|yoghurt)-(\d+)$/, at: inId }),
      },
      { label: 'published, rennet', points: pointsOf({ rows, id: /^overheat-(?:chymosin|rennet)-(\d+)$/, at: inId }) },
    ],
  }),
  firmness: (rows) => ({
    title: 'Firmness of the gel after the first flecks, clotting at 15 min',
    xLabel: 'minutes from rennet',
    yLabel: 'firmness, Pa',
    curves: [
      {
        label: 'model, 2.5 % casein',
        points: evenly(0, 60).map((minutes) => [
          15 + minutes,
          gelFirmnessPa({ minutesSinceFlocculation: minutes, clottingTimeMin: 15, caseinPercent: 2.5, softening: 1 }),
        ]),
      },
    ],
    published: [{ label: 'published, fitted on', points: pointsOf({ rows, id: /^curd-A11$/, at: () => 2.75 * 15 }) }],
  }),
  syneresis: (rows) => ({
    title: 'Whey expelled from half-inch curd on a cloth at 29 °C',
    xLabel: 'minutes after cutting',
    yLabel: "share of the milk's mass",
    curves: [
      {
        label: 'model',
        points: evenly(0, 120).map((minutes) => [
          minutes,
          wheyFractionAfter({
            wheyFraction: 0,
            wheyEndFraction: WHEY_END_FRACTION.washed,
            ratePerMin: syneresisRatePerMin({ temperatureC: 29, pH: 6.4, cubeMm: 12.7, stirring: 'drained' }),
            minutes,
          }),
        ]),
      },
    ],
    published: [{ label: 'published, fitted on', points: pointsOf({ rows, id: /^curd-A51$/, at: () => 25 }) }],
  }),
  yield: (rows) => {
    const of = rows.filter(({ row }) => row.unit === 'kg/100 kg' && row.published > 1);
    const at = (_: RegExpExecArray, { value }: Judged): number => value;
    return {
      title: 'Yields, published over the model',
      xLabel: 'model, kg from 100 kg of milk',
      yLabel: 'published, kg from 100 kg',
      curves: [{ label: 'equal', points: [8, 18].map((kg) => [kg, kg]) }],
      published: [
        { label: 'tables of arithmetic', points: pointsOf({ rows: of, id: /^curd-A(19|2[0-4])$/, at }) },
        { label: 'factories and texts', points: pointsOf({ rows: of, id: /^curd-A(2[5-9]|3\d|4[0-6])$/, at }) },
      ],
    };
  },
  judgements: () => ({
    title: "How likely each grade of a stretch is, over the curd's pH",
    xLabel: 'pH of the curd',
    yLabel: 'probability',
    curves: STRETCH_GRADES.map((label, index) => ({
      label,
      points: evenly(4.7, 5.8).map((pH) => [pH, gradeProbabilities({ judgement: 'stretch', state: pH })[index] ?? 0]),
    })),
    published: [],
  }),
};
