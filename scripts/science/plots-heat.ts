/** Plots of heat, salt, keeping and cautions. */
import type { Judged } from '../../tests/published/rows.ts';
import { agedMassKg, type AgeingInput } from '../../src/science/ageing.ts';
import { brined } from '../../src/science/brine-bath.ts';
import { brineDensityKgPerM3 } from '../../src/science/brine.ts';
import { cheeseThermal } from '../../src/science/cheese-thermal.ts';
import { DRY_SALT_PRESSED_YIELD, saltFromRatePercent } from '../../src/science/dry-salting.ts';
import { heatUpMin } from '../../src/science/heater.ts';
import { log10PerDay } from '../../src/science/growth.ts';
import { interactionRateKernel } from '../../src/science/listeria-growth.ts';
import { potForMilk } from '../../src/science/pot.ts';
import { scaldTimes } from '../../src/science/scald.ts';
import { type SaltingInput, SKIN_MM } from '../../src/science/salting.ts';
import { seriesTerms, type SeriesShape } from '../../src/science/series.ts';
import { staphRatePerH } from '../../src/science/staph.ts';
import { bowlCourse, bowlLoss } from '../../src/science/stretching-bowl.ts';
import { openSurfaceLoss, wallLossWPerM2 } from '../../src/science/vat-air.ts';
import { vatHeatCapacityKJPerK } from '../../src/science/vat-liquid.ts';
import { lossCurve } from '../../src/science/vat.ts';
import { washCourse } from '../../src/science/wash.ts';
import { cheeseWaterActivity } from '../../src/science/water-activity.ts';
import { evenly, type Plot } from './plot.ts';
import { column, inId, pointsOf, turnedPoints } from './rows.ts';

type Draw = (rows: readonly Judged[]) => Plot;

const tank = { roomC: 15.6, relativeHumidityPercent: 50, diameterM: 1 };
const pot = potForMilk({ milkL: 10 });
const open = lossCurve({ pot, volumeL: 10, roomC: 20, keeping: 'open' });
const emmental: SaltingInput = {
  body: { shape: 'cylinder', mm: [850, 163] },
  moisturePercent: 40,
  brinePercent: 22.7,
  temperatureC: 13,
  waterPerSalt: 2.3,
  skinMm: SKIN_MM.pressed,
};
/** Camembert type of Picque et al. 2011; size assumed. */
const softCheese: AgeingInput = {
  massKg: 0.25,
  body: { shape: 'cylinder', mm: [110, 23.7] },
  moisturePercent: 55,
  temperatureC: 6,
  relativeHumidityPercent: 75,
  rind: 'bare',
};
const SHAPES: readonly SeriesShape[] = ['slab', 'cylinder', 'sphere'];

export const HEAT_PLOTS: Readonly<Record<string, Draw>> = {
  'vat-loss': (rows) => ({
    title: 'Heat lost by a square metre of open water and of bare wall, room at 15.6 °C',
    xLabel: 'temperature of the water, °C',
    yLabel: 'W/m²',
    curves: [
      {
        label: 'open surface',
        points: evenly(25, 90).map((surfaceC) => {
          const loss = openSurfaceLoss({ ...tank, surfaceC });
          return [surfaceC, loss.evaporationWPerM2 + loss.convectionWPerM2 + loss.radiationWPerM2];
        }),
      },
      {
        label: 'wall',
        points: evenly(25, 90).map((wallC) => [
          wallC,
          wallLossWPerM2({ wallC, roomC: 15.6, heightM: 1, emissivity: 0.9 }),
        ]),
      },
    ],
    published: [
      { label: 'published surface', points: pointsOf({ rows, id: /^heat-tank-surface-([\d.]+)$/, at: inId }) },
      { label: 'published wall', points: pointsOf({ rows, id: /^heat-tank-wall-([\d.]+)$/, at: inId }) },
    ],
  }),
  heating: () => ({
    title: '10 litres of milk from 6 °C in an open pot, by what reaches it',
    xLabel: 'minutes',
    yLabel: 'temperature, °C',
    curves: [600, 900, 1500, 2500].map((heaterW) => ({
      label: `${heaterW} W`,
      points: evenly(7, 90).flatMap((toC): [number, number][] => {
        const heatCapacityKJPerK = vatHeatCapacityKJPerK({ liquid: 'milk', volumeL: 10, temperatureC: 45, pot });
        const minutes = heatUpMin({ fromC: 6, toC, roomC: 20, heatCapacityKJPerK, heaterW, loss: open });
        return minutes < 180 ? [[minutes, toC]] : [];
      }),
    })),
    published: [],
  }),
  wash: (rows) => ({
    title: 'A 10 L vat at 37 °C, whey replaced by as much 60 °C water',
    xLabel: 'share of the vat replaced, %',
    yLabel: 'comes to, °C',
    curves: [
      {
        label: 'model',
        points: evenly(0, 50).map((share) => [
          share,
          washCourse({
            vatL: 10,
            vatC: 37,
            drawL: share / 10,
            addL: share / 10,
            waterC: 60,
            pot,
            roomC: 20,
            loss: open,
          }).finalC,
        ]),
      },
    ],
    published: [
      { label: 'common practice (no source)', points: pointsOf({ rows, id: /^heat-whey-exchange$/, at: () => 30 }) },
    ],
  }),
  stretching: () => ({
    title: 'Middle of curd cubes from 34 °C in 1.2 kg of 80 °C water a kilogram, cooling bowl',
    xLabel: 'minutes',
    yLabel: 'core, °C',
    curves: [10, 15, 25, 40].map((pieceMm) => ({
      label: `${pieceMm} mm`,
      points: bowlCourse({
        curdKg: 1,
        curdC: 34,
        thermal: cheeseThermal({ moisturePercent: 50, temperatureC: 50 }),
        pieceMm,
        waterKg: 1.2,
        waterC: 80,
        roomC: 20,
        loss: bowlLoss({ contentsKg: 2.2, roomC: 20 }),
      }).map(({ minute, coreC }) => [minute, coreC]),
    })),
    published: [],
  }),
  cooling: (rows) => ({
    title: 'First root of the conduction series over the Biot number',
    xLabel: 'Biot number h L / k',
    yLabel: 'first root',
    isXLog: true,
    curves: SHAPES.map((shape) => ({
      label: shape,
      points: evenly(Math.log(0.01), Math.log(100)).map((ln) => [
        Math.exp(ln),
        seriesTerms({ shape, biot: Math.exp(ln) }).roots[0] ?? 0,
      ]),
    })),
    published: [
      {
        label: 'published',
        points: pointsOf({ rows, id: /^heat-root-[a-z]+-([\d.]+)$/, at: inId }),
      },
    ],
  }),
  brine: (rows) => ({
    title: 'Density of brine over its strength',
    xLabel: 'salt, % by mass',
    yLabel: 'density, kg/m³',
    curves: [10, 20].map((temperatureC) => ({
      label: `${temperatureC} °C`,
      points: evenly(0, 26).map((percent) => [
        percent,
        brineDensityKgPerM3({ saltFraction: percent / 100, temperatureC }),
      ]),
    })),
    published: [10, 20].map((temperatureC) => ({
      label: `published, ${temperatureC} °C`,
      points: pointsOf({ rows, id: new RegExp(`^brine-density-\\d+-${temperatureC}$`), at: column('x') }),
    })),
  }),
  salting: (rows) => ({
    title: 'Salt taken by an Emmental wheel in new brine, defaults and an assumed wheel',
    xLabel: 'hours',
    yLabel: 'g salt per 100 kg',
    curves: [
      {
        label: 'model, nothing fitted',
        points: evenly(0.5, 100).map((hours) => [hours, 1e5 * brined({ ...emmental, hours }).saltTakenPerKg]),
      },
    ],
    published: [{ label: 'published, ±30 %', points: pointsOf({ rows, id: /^salt-chamba-blind-(\d+)$/, at: inId }) }],
  }),
  'dry-salting': (rows) => ({
    title: 'Salt in Cheddar salted at 2.7 % of its curd, over how much stays',
    xLabel: 'retention, %',
    yLabel: 'salt in the cheese, %',
    curves: [
      {
        label: 'model',
        points: evenly(30, 70).map((percent) => [
          percent,
          saltFromRatePercent({ ratePercent: 2.7, retention: percent / 100, pressedYield: DRY_SALT_PRESSED_YIELD }),
        ]),
      },
    ],
    published: [{ label: 'published', points: pointsOf({ rows, id: /^salt-dry-([\d.]+)$/, at: inId }) }],
  }),
  'water-activity': () => ({
    title: 'Water activity of cheese over its salt in moisture',
    xLabel: 'g salt per 100 g water',
    yLabel: 'water activity',
    curves: [
      {
        label: 'from salt alone',
        points: evenly(0, 12).map((s) => [
          s,
          cheeseWaterActivity({ moisturePercent: 50, saltPercent: s / 2 }).waterActivity,
        ]),
      },
      ...[4.6, 5.2].map((pH) => ({
        label: `unripe, pH ${pH}`,
        points: evenly(0, 12).map(
          (s) => [s, cheeseWaterActivity({ moisturePercent: 50, saltPercent: s / 2, pH }).waterActivity] as const,
        ),
      })),
    ],
    published: [],
  }),
  pasteurisation: (rows) => ({
    title: 'Legal pairs for milk and cream, and times as deadly as 63 °C for 30 minutes',
    xLabel: 'temperature, °C',
    yLabel: 'seconds',
    isYLog: true,
    curves: [
      {
        label: 'equal to 1800 s at 63 °C, z 4.33 °C',
        points: evenly(62, 82).map((t) => [t, 1800 * 10 ** ((63 - t) / (9 / Math.log10(120)))]),
      },
    ],
    published: [
      {
        label: 'law, milk',
        points: turnedPoints({ rows, id: /^past-us-\d+$/, at: column('t') }),
      },
      {
        label: 'law, cream',
        points: turnedPoints({ rows, id: /^past-cream-\d+$/, at: column('t') }),
      },
    ],
  }),
  listeria: (rows) => ({
    title: 'Growth of L. monocytogenes in milk over temperature',
    xLabel: 'temperature, °C',
    yLabel: 'tenfold steps a day',
    isYLog: true,
    curves: [
      {
        label: 'model B, no lactate',
        points: evenly(1, 16).map((temperatureC) => [
          temperatureC,
          log10PerDay(interactionRateKernel({ temperatureC, pH: 6.7, waterActivity: 0.997 }).ratePerH),
        ]),
      },
    ],
    published: [{ label: 'published', points: pointsOf({ rows, id: /^listeria-milk-(\d+)$/, at: inId }) }],
  }),
  ageing: (rows) => ({
    title: 'Loss of a 250 g soft cheese, bare, at 6 °C and 75 % humidity, before any weighing',
    xLabel: 'days',
    yLabel: 'loss, %',
    curves: [
      {
        label: 'model, usual rind',
        points: evenly(0, 40, 40).map((days) => [
          days,
          100 * (1 - agedMassKg({ ...softCheese, days }) / softCheese.massKg),
        ]),
      },
    ],
    published: [{ label: 'published', points: pointsOf({ rows, id: /^age-camembert-bare$/, at: () => 23 }) }],
  }),
  burns: (rows) => ({
    title: 'How soon water burns skin',
    xLabel: 'temperature of the water, °C',
    yLabel: 'seconds',
    isYLog: true,
    curves: [
      {
        label: 'blister',
        points: evenly(45, 68).map((waterC) => [waterC, scaldTimes({ waterC }).secondsToBlister ?? Number.NaN]),
      },
      {
        label: 'deep',
        points: evenly(45, 68).map((waterC) => [waterC, scaldTimes({ waterC }).secondsToDeepBurn ?? Number.NaN]),
      },
    ],
    published: [
      { label: 'published blister', points: pointsOf({ rows, id: /^scald-blister-(\d+)$/, at: inId }) },
      { label: 'published deep', points: pointsOf({ rows, id: /^scald-deep-(\d+)$/, at: inId }) },
    ],
  }),
  staphylococcus: (rows) => ({
    title: 'Growth of S. aureus in milk over temperature',
    xLabel: 'temperature, °C',
    yLabel: 'rate, 1/h',
    curves: [{ label: 'model', points: evenly(8, 46).map((t) => [t, staphRatePerH(t)]) }],
    published: [
      { label: 'published equations', points: pointsOf({ rows, id: /^staph-(?:rate|rival)-32/, at: column('x') }) },
    ],
  }),
};
