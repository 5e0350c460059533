import { agedMassKg, type AgeingInput, filmPermeance, SURFACE_WATER_ACTIVITY } from '../../../src/science/ageing.ts';
import { learnedLeak } from '../../../src/science/ageing-learn.ts';
import { log10PerDay, rateAtTemperature } from '../../../src/science/growth.ts';
import { interactionRateKernel, listeriaIncrease } from '../../../src/science/listeria-growth.ts';
import { listeriaVerdict } from '../../../src/science/listeria.ts';
import { type PublishedRow, readPublished, type PublishedValues } from '../rows.ts';

const x = (row: PublishedRow): number => Number(row.columns['x']);
const t = (row: PublishedRow): number => Number(row.columns['t']);

/** The least value at which growth must be reckoned with, by halving. */
function leastGrowing(input: { low: number; high: number; grows: (value: number) => boolean }): number {
  let { low, high } = input;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (input.grows(middle)) high = middle;
    else low = middle;
  }
  return high;
}
const grows = (cheese: { pH: number; waterActivity: number }): boolean =>
  listeriaVerdict({ ...cheese, temperatureC: 5, pHError: 0, waterActivityError: 0 }).canGrow;

const FRESH_WHEY = { pH: 6.4, waterActivity: 0.99 };
const FRESCO = { pH: 6.3, waterActivity: 0.97 };
const perDay = (temperatureC: number, habitat: { pH: number; waterActivity: number }): number =>
  log10PerDay(interactionRateKernel({ temperatureC, ...habitat }).ratePerH);
const grown = (row: PublishedRow, habitat: { pH: number; waterActivity: number }, startLog10PerG?: number) =>
  listeriaIncrease({
    temperatureC: x(row),
    days: t(row),
    ...habitat,
    ...(startLog10PerG === undefined ? {} : { startLog10PerG }),
  });

/** Camembert type of Picque et al. 2011: 250 g with 0.0272 m2 are assumed. */
const camembert: AgeingInput = {
  massKg: 0.25,
  body: { shape: 'cylinder', mm: [110, 23.7] },
  moisturePercent: 55,
  temperatureC: 6,
  relativeHumidityPercent: 75,
  rind: 'bare',
};
/** Ragusano of 14 kg: a usual block; middle of 14 to 16 °C and of 80 to 90 % RH. */
const ragusano: AgeingInput = {
  massKg: 14,
  body: { shape: 'brick', mm: [450, 170, 170] },
  moisturePercent: 45.35,
  temperatureC: 15,
  relativeHumidityPercent: 85,
  rind: 'bare',
};
const lossPercent = (cheese: AgeingInput, days: number): number =>
  100 * (1 - agedMassKg({ ...cheese, days }) / cheese.massKg);

function wrappedLossPercent(row: PublishedRow): number {
  const bare = { day: 23, massKg: 0.85 * camembert.massKg };
  const film = filmPermeance({
    gPerM2PerDay: 500,
    measuredAtC: camembert.temperatureC,
    humidityDifferencePercent: 100 * SURFACE_WATER_ACTIVITY - camembert.relativeHumidityPercent,
  });
  const { factor } = learnedLeak({ ...camembert, weighings: [bare] });
  return lossPercent({ ...camembert, film, leakFactor: factor }, x(row));
}

const MODELS: Readonly<Record<string, (row: PublishedRow) => number>> = {
  'limit-ph': (row) => leastGrowing({ low: 3.5, high: 7, grows: (pH) => grows({ pH, waterActivity: x(row) }) }),
  'limit-activity': (row) =>
    leastGrowing({ low: 0.85, high: 1, grows: (waterActivity) => grows({ pH: x(row), waterActivity }) }),
  'median-rate-milk': (row) => perDay(x(row), { pH: 6.7, waterActivity: 0.997 }),
  'median-rate-fresh': (row) => perDay(x(row), FRESH_WHEY),
  'rate-fresh': (row) => perDay(x(row), FRESH_WHEY),
  'to-5c': (row) => rateAtTemperature({ rate: x(row), fromC: t(row), toC: 5 }),
  'growth-fresco': (row) => grown(row, FRESCO).p50,
  'growth-fresco-high': (row) => grown(row, FRESCO).p95,
  'growth-fresh': (row) => grown(row, FRESH_WHEY).p50,
  'growth-salata': (row) => grown(row, { pH: 6, waterActivity: 0.945 }).p50,
  'growth-galotyri': (row) => grown(row, { pH: 4.35, waterActivity: 0.98 }).p50,
  'age-film': wrappedLossPercent,
  'age-open': (row) => lossPercent(camembert, x(row)),
  'age-ragusano': (row) => lossPercent(ragusano, x(row)),
};

export const values: PublishedValues = Object.fromEntries(
  readPublished('keeping.csv').map((row) => {
    const model = MODELS[row.columns['model'] ?? ''];
    if (model === undefined) throw new Error(`${row.id}: no model ${row.columns['model'] ?? '?'}`);
    return [row.id, () => model(row)];
  }),
);
