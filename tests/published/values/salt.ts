import { rootBetween } from '../../../src/numbers/roots.ts';
import { ballDiameterMm, type Body } from '../../../src/science/body.ts';
import { brined, equaliseDays, hoursToSalt } from '../../../src/science/brine-bath.ts';
import {
  brineDensityKgPerM3,
  brineFreezingC,
  saturationSaltFraction,
  sodiumChlorideWaterActivity,
} from '../../../src/science/brine.ts';
import { DRY_SALT_PRESSED_YIELD, saltFromRatePercent } from '../../../src/science/dry-salting.ts';
import {
  cheeseDensityFromMoistureKgPerM3,
  saltDiffusivityM2PerS,
  type SaltingInput,
  SKIN_MM,
  WATER_PER_SALT,
} from '../../../src/science/salting.ts';
import { type PublishedRow, readPublished, type PublishedValues } from '../rows.ts';

/** Emmental of Chamba 1988: the wheel's size is not in the abstract; a usual one is assumed. */
const emmental: SaltingInput = {
  body: { shape: 'cylinder', mm: [850, 163] },
  moisturePercent: 40,
  brinePercent: 22.7, // 265 g/L
  temperatureC: 13,
  waterPerSalt: 2.3,
  skinMm: SKIN_MM.pressed,
};

/** Diffusivity factor and rind that come nearest to the four published times: a grid, then a finer one. */
function fitChamba(): Pick<SaltingInput, 'diffusivityFactor' | 'skinMm'> {
  const times = readPublished('salt.csv').filter((row) => row.columns['model'] === 'chamba-fitted');
  const missOf = (diffusivityFactor: number, skinMm: number): number =>
    times.reduce((sum, row) => {
      const salt = brined({ ...emmental, diffusivityFactor, skinMm, hours: Number(row.columns['x']) }).saltTakenPerKg;
      return sum + Math.log((salt * 1e5) / row.published) ** 2;
    }, 0);
  let best = { diffusivityFactor: 1, skinMm: 1 };
  let least = Infinity;
  for (const step of [0.1, 0.01]) {
    const { diffusivityFactor: centreD, skinMm: centreS } = best;
    for (let i = -8; i <= 8; i++) {
      for (let j = -8; j <= 8; j++) {
        const diffusivityFactor = centreD + i * step;
        const skinMm = Math.max(0, centreS + 3 * j * step);
        const miss = missOf(diffusivityFactor, skinMm);
        if (miss < least) [least, best] = [miss, { diffusivityFactor, skinMm }];
      }
    }
  }
  return best;
}

const fitted: SaltingInput = { ...emmental, ...fitChamba() };
const takenPer100Kg = (input: SaltingInput & { hours: number }): number => 1e5 * brined(input).saltTakenPerKg;

/** A wheel of a mass, two and a half times as wide as high. */
function wheel(input: { massKg: number; moisturePercent: number }): Body {
  const volumeM3 = input.massKg / cheeseDensityFromMoistureKgPerM3(input.moisturePercent);
  const heightM = rootBetween({ f: (h) => (Math.PI / 4) * (2.5 * h) ** 2 * h - volumeM3, low: 0.001, high: 2 });
  return { shape: 'cylinder', mm: [2500 * heightM, 1000 * heightM] };
}

const smallPiece = (row: PublishedRow): SaltingInput => ({
  body: { shape: 'sphere', mm: [ballDiameterMm(x(row) / 1000 / cheeseDensityFromMoistureKgPerM3(57))] },
  moisturePercent: 57,
  brinePercent: 18,
  temperatureC: t(row),
  waterPerSalt: WATER_PER_SALT.stretched,
  skinMm: SKIN_MM.fresh,
});

const x = (row: PublishedRow): number => Number(row.columns['x']);
const t = (row: PublishedRow): number => Number(row.columns['t']);

const MODELS: Readonly<Record<string, (row: PublishedRow) => number>> = {
  density: (row) => brineDensityKgPerM3({ saltFraction: x(row) / 100, temperatureC: t(row) }),
  'g-per-litre': (row) => (x(row) / 100) * brineDensityKgPerM3({ saltFraction: x(row) / 100, temperatureC: t(row) }),
  freezing: (row) => brineFreezingC({ saltFraction: x(row) / 100 }),
  saturation: (row) => {
    const saltFraction = saturationSaltFraction(t(row));
    return (1000 * saltFraction) / (1 - saltFraction);
  },
  activity: (row) => sodiumChlorideWaterActivity(x(row) * 5.8443),
  diffusivity: (row) => 1e10 * saltDiffusivityM2PerS({ moisturePercent: x(row), temperatureC: t(row) }),
  'chamba-fitted': (row) => takenPer100Kg({ ...fitted, hours: x(row) }),
  'chamba-blind': (row) => takenPer100Kg({ ...emmental, hours: x(row) }),
  'chamba-weight': (row) => brined({ ...fitted, hours: x(row) }).massChangePercent,
  'chamba-warmer': (row) =>
    takenPer100Kg({ ...fitted, temperatureC: t(row), hours: x(row) }) / takenPer100Kg({ ...fitted, hours: x(row) }),
  'chamba-stronger': (row) =>
    takenPer100Kg({ ...fitted, brinePercent: 26.5, hours: x(row) }) / takenPer100Kg({ ...fitted, hours: x(row) }),
  feta: (row) =>
    brined({
      body: { shape: 'brick', mm: [55, 45, 38] },
      moisturePercent: 49.85,
      brinePercent: x(row),
      temperatureC: t(row),
      waterPerSalt: WATER_PER_SALT.pressed,
      skinMm: SKIN_MM.fresh,
      brinePerCheese: 1,
      hours: 5000, // the pieces' size is not in the abstract: taken as evened out after the ten days
    }).saltInMoisturePercent,
  'hours-semihard': (row) =>
    hoursToSalt({
      body: wheel({ massKg: x(row), moisturePercent: 42 }),
      moisturePercent: 42,
      brinePercent: 20,
      temperatureC: t(row),
      waterPerSalt: WATER_PER_SALT.pressed,
      skinMm: SKIN_MM.pressed,
      targetSaltPercent: 1.9,
    }),
  'hours-emmental': (row) =>
    hoursToSalt({
      ...emmental,
      moisturePercent: 38,
      brinePercent: 22,
      temperatureC: t(row),
      waterPerSalt: WATER_PER_SALT.pressed,
      targetSaltPercent: 0.9,
    }),
  'even-cheddar': (row) =>
    24 * equaliseDays({ body: { shape: 'brick', mm: [20, 20, 60] }, moisturePercent: 37, temperatureC: t(row) }),
  'even-gruyere': (row) =>
    equaliseDays({ body: { shape: 'cylinder', mm: [550, 110] }, moisturePercent: 38, temperatureC: t(row) }),
  dry: (row) =>
    saltFromRatePercent({ ratePercent: 2.7, retention: x(row) / 100, pressedYield: DRY_SALT_PRESSED_YIELD }),
  'trade-30': (row) => brined({ ...smallPiece(row), hours: 0.5 }).saltPercent,
  'trade-60': (row) => brined({ ...smallPiece(row), hours: 1 }).saltPercent,
};

export const values: PublishedValues = Object.fromEntries(
  readPublished('salt.csv').map((row) => {
    const model = MODELS[row.columns['model'] ?? ''];
    if (model === undefined) throw new Error(`${row.id}: no model ${row.columns['model'] ?? '?'}`);
    return [row.id, () => model(row)];
  }),
);
