import { clottingTimeMin, rennetActivityAt, SETTING_MULTIPLIER } from '../../../src/science/coagulation.ts';
import type { ClottingState } from '../../../src/science/coagulation.ts';
import { addedCalciumMM, calciumPHFall } from '../../../src/science/calcium.ts';
import { gelFirmnessPa } from '../../../src/science/firmness.ts';
import { syneresisRatePerMin, WHEY_END_FRACTION, wheyFractionAfter } from '../../../src/science/syneresis.ts';
import { boiledDownKg, fatForDryMatterPercent, generalYield, vanSlykePriceYield } from '../../../src/science/yield.ts';
import { type CheeseFamily, YIELD_FAMILIES } from '../../../src/science/yield-families.ts';
import type { PublishedValues } from '../rows.ts';

const milk: ClottingState = {
  doseImcuPerL: 50,
  temperatureC: 31,
  pH: 6.6,
  addedCalciumMM: 0,
  heatSlowing: 1,
  speciesFactor: 1,
  makerFactor: 1,
};
const clot = (changes: Partial<ClottingState>): number => clottingTimeMin({ ...milk, ...changes });

const FACTORY_MOISTURE_PERCENT = 37.33;
const SALT_PERCENT = 1.2;
const vanSlyke = (fatPercent: number, caseinPercent: number, moisturePercent: number) => (): number =>
  vanSlykePriceYield({ fatPercent, caseinPercent, moisturePercent });
const general = (
  family: CheeseFamily,
  milkAndCheese: { fat: number; casein: number; moisture: number; fatRecovery?: number },
): number => {
  const row = YIELD_FAMILIES[family];
  return generalYield({
    ...row,
    fatRecovery: milkAndCheese.fatRecovery ?? row.fatRecovery,
    fatPercent: milkAndCheese.fat,
    caseinPercent: milkAndCheese.casein,
    moisturePercent: milkAndCheese.moisture,
    saltPercent: SALT_PERCENT,
  });
};
/** Casein of whole cow's milk from its fat, factory groups of Table IX, linear between them. */
const groupCasein = (fat: number): number =>
  fat < 4.15 ? 2.2 + ((fat - 3.35) * 0.5) / 0.8 : 2.7 + ((fat - 4.15) * 0.42) / 0.98;
/** Cheddar from milk of `whole` percent fat skimmed to `fat`. */
const skimmed = (whole: number, fat: number, moisture: number) => (): number =>
  general('cheddar', { fat, casein: (groupCasein(whole) * (100 - fat)) / (100 - whole), moisture });
/** Table XI: casein = 0.4 fat + 0.9. */
const tableCasein = (fat: number): number => 0.4 * fat + 0.9;
const moistureStep = (moisture: number): number => general('cheddar', { fat: 3.8, casein: 2.5, moisture });

const US_FLUID_OUNCE_ML = 29.5735;
const POUND_KG = 0.45359237;

export const values: PublishedValues = {
  'curd-A1': () => rennetActivityAt(21.1),
  'curd-A2': () => rennetActivityAt(28.9),
  'curd-A3': () => rennetActivityAt(33.3),
  'curd-A4': () => rennetActivityAt(48.9),
  'curd-A5': () => clot({ doseImcuPerL: (200 * 250) / 1000 }),
  'curd-A6': () => SETTING_MULTIPLIER * clot({ doseImcuPerL: (200 * 250) / 1000 }),
  'curd-A7': () => {
    const mlPerKg = (3.25 * US_FLUID_OUNCE_ML) / (1000 * POUND_KG);
    return 2.5 * clot({ doseImcuPerL: mlPerKg * 250 * 1.03, temperatureC: 29.4 });
  },
  'curd-A8': () =>
    clot({ doseImcuPerL: 25, addedCalciumMM: addedCalciumMM(0.206), pH: 6.6 - calciumPHFall(0.206) }) /
    clot({ doseImcuPerL: 50 }),
  'curd-A9': () => clot({ pH: 6.6 }) / clot({ pH: 6.3 }),
  'curd-A10': () =>
    clot({ temperatureC: 30, pH: 6.5 }) / clot({ temperatureC: 35, pH: 5.8, addedCalciumMM: addedCalciumMM(0.4) }),
  'curd-A11': () =>
    gelFirmnessPa({ minutesSinceFlocculation: 1.75 * 15, clottingTimeMin: 15, caseinPercent: 2.5, softening: 1 }),
  'curd-A17': () => fatForDryMatterPercent({ fatInDryMatterPercent: 50, moisturePercent: 38 }),
  'curd-A19': vanSlyke(3, 2.1, 37),
  'curd-A20': vanSlyke(3.5, 2.3, 37),
  'curd-A21': vanSlyke(3.75, 2.4, 37),
  'curd-A22': vanSlyke(4.25, 2.6, 37),
  'curd-A23': vanSlyke(4.5, 2.7, 37),
  'curd-A24': vanSlyke(5, 2.9, 37),
  'curd-A25': vanSlyke(3.35, 2.2, FACTORY_MOISTURE_PERCENT),
  'curd-A26': vanSlyke(4.15, 2.7, FACTORY_MOISTURE_PERCENT),
  'curd-A27': vanSlyke(5.13, 3.12, FACTORY_MOISTURE_PERCENT),
  'curd-A28': vanSlyke(3.77, 2.48, FACTORY_MOISTURE_PERCENT),
  'curd-A30': () => {
    const measured = (0.872 + 0.863 + 0.852 + 0.828) / 4;
    const plant = { fatPercent: 3.6, caseinPercent: 2.4, moisturePercent: 37 };
    return 9.88 - (vanSlykePriceYield(plant) - vanSlykePriceYield({ ...plant, fatRecovery: measured }));
  },
  'curd-A31': skimmed(4.7, 2.4, 45.2),
  'curd-A32': skimmed(4.7, 2.0, 47.5),
  'curd-A33': skimmed(4.7, 1.0, 51.7),
  'curd-A34': skimmed(4.0, 2.0, 46.7),
  'curd-A35': skimmed(4.0, 1.2, 51.9),
  'curd-A36': skimmed(4.0, 0.9, 54.8),
  'curd-A37': skimmed(3.5, 1.5, 48.9),
  'curd-A38': skimmed(3.5, 1.1, 47.4),
  'curd-A39': skimmed(3.4, 1.9, 45.5),
  'curd-A40': skimmed(3.4, 1.5, 47.9),
  'curd-A41': () => general('washed', { fat: 4.2, casein: tableCasein(4.2), moisture: 43.5 }),
  'curd-A42': () => general('bloomy', { fat: 4, casein: tableCasein(4), moisture: 52.5 }),
  'curd-A43': () => general('washed', { fat: 3.8, casein: tableCasein(3.8), moisture: 41 }),
  'curd-A44': () => general('alpine', { fat: 3.6, casein: tableCasein(3.6), moisture: 34 }),
  'curd-A45': () => general('brined', { fat: 6.1, casein: 4.7, moisture: 40, fatRecovery: 0.837 }),
  'curd-A47': () => generalYield({ ...YIELD_FAMILIES.cottage, fatPercent: 0, caseinPercent: 1, saltPercent: 0 }),
  'curd-A48': () => (90 * moistureStep(38)) / moistureStep(37),
  'curd-A49': () => {
    const cheddar = { ...YIELD_FAMILIES.cheddar, fatPercent: 3.8, caseinPercent: 2.63, saltPercent: SALT_PERCENT };
    return generalYield({ ...cheddar, caseinRecovery: 0.96 }) - generalYield({ ...cheddar, caseinRecovery: 0.95 });
  },
  'curd-A50': () => boiledDownKg({ wheyKg: 10, wheySolidsPercent: 6.7, productSolidsPercent: 85 }),
  'curd-A51': () =>
    wheyFractionAfter({
      wheyFraction: 0,
      wheyEndFraction: WHEY_END_FRACTION.washed,
      ratePerMin: syneresisRatePerMin({ temperatureC: 29, pH: 6.4, cubeMm: 12.7, stirring: 'drained' }),
      minutes: 25,
    }),
};
