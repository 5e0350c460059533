import { milkComposition, milkDensityKgPerM3, type MilkInput } from '../../../src/science/milk.ts';
import type { PublishedValues } from '../rows.ts';

const CALCIUM_G_PER_MOL = 40.08;

/** g/mL of a species' mean milk, or of milk of given fat and solids-not-fat. */
const density = (milk: { fatPercent: number; solidsNotFatPercent: number }, temperatureC: number): number =>
  milkDensityKgPerM3({ ...milk, temperatureC }) / 1000;
const mean = (species: MilkInput['species'], temperatureC: number): number =>
  density(milkComposition({ species }), temperatureC);
/** mg calcium in 100 g. */
const calcium = (species: MilkInput['species']): number => {
  const milk = milkComposition({ species });
  return (milk.calciumMM * CALCIUM_G_PER_MOL * 100) / milkDensityKgPerM3({ ...milk, temperatureC: 20 });
};
const cow = { fatPercent: 3.8, solidsNotFatPercent: 8.9 };

export const values: PublishedValues = {
  'milk-density-5': () => mean('cow', 5),
  'milk-density-10': () => mean('cow', 10),
  'milk-density-15': () => mean('cow', 15),
  'milk-density-0.95': () => density(cow, 0.95),
  'milk-density-4.95': () => density(cow, 4.95),
  'milk-density-9.85': () => density(cow, 9.85),
  'milk-density-warm': () => 1000 * (mean('cow', 20) - mean('cow', 40)),
  'milk-density-cow': () => mean('cow', 20),
  'milk-density-goat': () => mean('goat', 20),
  'milk-density-sheep': () => mean('sheep', 20),
  'milk-density-buffalo': () => mean('buffalo', 20),
  'milk-density-goat-herd': () =>
    density(milkComposition({ species: 'goat', fatPercent: 3.6, proteinPercent: 3.3 }), 15),
  'milk-cream-30': () => density({ fatPercent: 30, solidsNotFatPercent: 6.3 }, 9.85),
  'milk-casein-factories': () => milkComposition({ species: 'cow', proteinPercent: 3.17 }).caseinPercent,
  'milk-casein-fat-3.35': () => milkComposition({ species: 'cow', fatPercent: 3.35 }).caseinPercent,
  'milk-casein-fat-4.15': () => milkComposition({ species: 'cow', fatPercent: 4.15 }).caseinPercent,
  'milk-casein-fat-5.13': () => milkComposition({ species: 'cow', fatPercent: 5.13 }).caseinPercent,
  'milk-calcium-cow': () => calcium('cow'),
  'milk-calcium-goat': () => calcium('goat'),
  'milk-calcium-sheep': () => calcium('sheep'),
};
