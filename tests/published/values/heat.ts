/** Heat against published values: tanks, plates, series, conductivities. */
import { rootBetween } from '../../../src/numbers/roots.ts';
import { potForMilk } from '../../../src/science/pot.ts';
import {
  choiOkosConductivityWPerMK,
  thermalDiffusivityM2PerS,
  type FoodComposition,
} from '../../../src/science/properties.ts';
import { seriesTerms, transientCentreFraction, type SeriesShape } from '../../../src/science/series.ts';
import { openSurfaceLoss, uprightPlateNusselt, wallLossWPerM2 } from '../../../src/science/vat-air.ts';
import { lossCurve } from '../../../src/science/vat.ts';
import { washCourse } from '../../../src/science/wash.ts';
import { readPublished, type PublishedValues } from '../rows.ts';

const composition = (w: number, p: number, f: number, c: number, a: number): FoodComposition => ({
  waterPercent: w,
  proteinPercent: p,
  fatPercent: f,
  carbohydratePercent: c,
  ashPercent: a,
});
// University table of cheese composition (seen); ordinary milk and whey.
const FOODS: Readonly<Record<string, FoodComposition>> = {
  cheddar: composition(36.75, 24.9, 33.1, 1.3, 3.9),
  mozzarella: composition(54.1, 19.4, 21.6, 2.2, 2.6),
  milk: composition(87.69, 3.28, 3.66, 4.65, 0.72),
  whey: composition(93.1, 0.85, 0.36, 5.1, 0.5),
};
const food = (name: string): FoodComposition => FOODS[name] ?? composition(0, 0, 0, 0, 0);

// The table names neither a tank's size nor the room's humidity: 1 m and 50 % are our reading, as is a painted wall.
const tank = { roomC: 15.6, relativeHumidityPercent: 50, diameterM: 1 };
const surface = (surfaceC: number): number => {
  const loss = openSurfaceLoss({ ...tank, surfaceC });
  return loss.evaporationWPerM2 + loss.convectionWPerM2 + loss.radiationWPerM2;
};
const wall = (wallC: number): number => wallLossWPerM2({ wallC, roomC: 15.6, heightM: 1, emissivity: 0.9 });

function whey(): number {
  const pot = potForMilk({ milkL: 10 });
  const loss = lossCurve({ pot, volumeL: 10, roomC: 20, keeping: 'open' });
  return washCourse({ vatL: 10, vatC: 37, drawL: 3, addL: 3, waterC: 60, pot, roomC: 20, loss }).finalC;
}

const single: Record<string, () => number> = {
  'heat-nusselt-plate': () => uprightPlateNusselt({ rayleigh: 0.69 * 2.63e9, prandtl: 0.69 }),
  'heat-egg-root': () => seriesTerms({ shape: 'sphere', biot: 47.8 }).roots[0] ?? 0,
  'heat-egg-weight': () => seriesTerms({ shape: 'sphere', biot: 47.8 }).coefficients[0] ?? 0,
  'heat-egg-fourier': () =>
    rootBetween({
      f: (fourier) => transientCentreFraction({ shape: 'sphere', biot: 47.8, fourier }) - 25 / 90,
      low: 0.05,
      high: 1,
    }),
  'heat-k-cheddar-low': () => choiOkosConductivityWPerMK({ composition: food('cheddar'), temperatureC: 20 }),
  'heat-alpha-cheddar': () => thermalDiffusivityM2PerS({ composition: food('cheddar'), temperatureC: 20 }),
  'heat-whey-exchange': whey,
};

const shapeOf = (name: string): SeriesShape => (name === 'slab' || name === 'cylinder' ? name : 'sphere');

/** Rows that come in families carry their inputs in the id: `heat-root-sphere-0.5`. */
function family(id: string): (() => number) | undefined {
  const [, kind, a = '', b = ''] = id.split('-');
  switch (kind) {
    case 'tank':
      return () => (a === 'surface' ? surface(Number(b)) : wall(Number(b)));
    case 'root':
      return () => seriesTerms({ shape: shapeOf(a), biot: Number(b) }).roots[0] ?? 0;
    case 'weight':
      return () => seriesTerms({ shape: shapeOf(a), biot: Number(b) }).coefficients[0] ?? 0;
    case 'k':
      // Liquids are near the geometric mean, cheese takes the mean of both mixings.
      return () =>
        choiOkosConductivityWPerMK({
          composition: food(a),
          temperatureC: 20,
          mixing: a === 'milk' || a === 'whey' ? 'geometric' : 'mean',
        });
    default:
      return undefined;
  }
}

const ours: Record<string, () => number> = { ...single };
for (const { id } of readPublished('heat.csv')) {
  const value = single[id] ?? family(id);
  if (value !== undefined) ours[id] = value;
}
export const values: PublishedValues = ours;
