/** Every sum there is, in the order of the contract. */
import type { z } from 'zod';
import type { Calculator } from './calculator.ts';
import { acidCalc } from './acid.ts';
import { acidityUnitsCalc } from './acidity-units.ts';
import { ageCalc } from './age.ts';
import { brineTimeCalc } from './brine-time.ts';
import { brineCalc } from './brine.ts';
import { calciumCalc } from './calcium.ts';
import { clotCalc } from './clot.ts';
import { coolCalc } from './cool.ts';
import { cutTimeCalc } from './cut-time.ts';
import { drySaltCalc } from './dry-salt.ts';
import { heatCalc } from './heat.ts';
import { holdCalc } from './hold.ts';
import { listeriaCalc } from './listeria.ts';
import { measureCalc } from './measure.ts';
import { milkCalc } from './milk.ts';
import { pasteuriseCalc } from './pasteurise.ts';
import { rennetTestCalc } from './rennet-test.ts';
import { rennetCalc } from './rennet.ts';
import { ripenCalc } from './ripen.ts';
import { scaldCalc } from './scald.ts';
import { standardiseCalc } from './standardise.ts';
import { standardsCalc } from './standards.ts';
import { stretchWaterCalc } from './stretch-water.ts';
import { vatFitCalc } from './vat-fit.ts';
import { washCalc } from './wash.ts';
import { waterActivityCalc } from './water-activity.ts';
import { wheyCalc } from './whey.ts';
import { yieldCalc } from './yield.ts';

/** A sum whose own types are not known: what a door sees. */
export type AnyCalculator = Calculator<z.ZodType, z.ZodType>;

const IN_ORDER: readonly AnyCalculator[] = [
  milkCalc,
  standardiseCalc,
  pasteuriseCalc,
  heatCalc,
  holdCalc,
  vatFitCalc,
  washCalc,
  rennetCalc,
  rennetTestCalc,
  clotCalc,
  cutTimeCalc,
  calciumCalc,
  acidCalc,
  acidityUnitsCalc,
  ripenCalc,
  wheyCalc,
  yieldCalc,
  stretchWaterCalc,
  coolCalc,
  brineCalc,
  brineTimeCalc,
  drySaltCalc,
  waterActivityCalc,
  ageCalc,
  listeriaCalc,
  scaldCalc,
  measureCalc,
  standardsCalc,
];

/** The sums by name. */
export const calculators: ReadonlyMap<string, AnyCalculator> = new Map(IN_ORDER.map((calc) => [calc.name, calc]));
