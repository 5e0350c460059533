import { ACID_STATE } from '../science/acidification.ts';
import { addBulkStarter, addWheyStarter, drainWhey, washWhey } from '../science/acidification-events.ts';
import { liquidKgPerL } from '../science/vat-liquid.ts';
import { solventKgOf, wheyContents, wheyLitres } from './contents.ts';
import type { Ground, Inputs } from './inputs.ts';
import { noteDrawn } from './serum.ts';
import type { Vat } from './vat-state.ts';

/** What is poured into the vat beside the milk, and what is drawn off: water, starter and whey as the scale has them. */

/** Whey cannot be ladled to the last drop: the share of what stands free that can be drawn. Our own choice. */
export const MOST_DRAWN = 0.95;

/**
 * Water that goes in with the rennet or the calcium [kg]: what a liquid rennet is (counted as water) and is stirred into, what
 * a tablet or a powder is dissolved in, what the calcium chloride was bought in. The chloride itself, a hundredth of a percent
 * of the milk, is not counted, nor the cool water that calcium may be thinned with.
 */
export function waterWithKg(inputs: Inputs, ingredient: 'calcium' | 'rennet'): number {
  const { plan, calciumGPerL } = inputs.ground;
  const { rennet, calcium, milk } = plan.setup;
  if (ingredient === 'calcium') {
    return (calciumGPerL / 1000) * milk.volumeL * (100 / calcium.solutionPercent - 1);
  }
  const ml = (id: string): number => plan.amounts.find((amount) => amount.id === id)?.value ?? 0;
  const waterMl = { liquid: ml('rennet') + ml('rennet-water'), powder: ml('rennet-water'), tablet: ml('rennet') };
  return waterMl[rennet.form] / 1000;
}

/** Water goes into the milk, or into the whey once the gel is cut [kg]. */
export function pourWater(vat: Vat, waterKg: number): void {
  const { acid, conditions } = vat;
  const waterL = waterKg / solventKgOf(vat);
  if (conditions.phase === 'milk') thin(vat, waterL, 0);
  else conditions.wheyL = washWhey(acid, { wheyL: conditions.wheyL, drawnFraction: 0, waterL });
}

/** Wash water [kg] from the litres poured, hot as they arrive: hot water is lighter than its litres. */
export const washWaterKg = (poured: { readonly volumeL: number; readonly arrivingC: number }): number =>
  poured.volumeL * liquidKgPerL({ liquid: 'water', temperatureC: Math.min(Math.max(poured.arrivingC, 1), 99) });

/** Serum of the milk grows by so much liquid of so much strength. */
function thin(vat: Vat, byL: number, strongL: number): void {
  const { acid, conditions } = vat;
  const strength = acid[ACID_STATE.curdStrength] ?? 1;
  const serumL = conditions.curdSerumL + byL;
  acid[ACID_STATE.curdStrength] = (strength * conditions.curdSerumL + strongL) / serumL;
  conditions.curdSerumL = serumL;
}

/** A ripe starter, in percent of the milk's volume: this milk soured, or the serum of it soured. Into milk that is not cut. */
export function pourStarter(vat: Vat, starter: { readonly form: 'bulk' | 'whey'; readonly percent: number }): void {
  const { acid, conditions, inputs } = vat;
  const { ground } = inputs;
  const shared = {
    percentBulk: starter.percent,
    milkLactoseMM: ground.milk.lactoseMM,
    lactatePerLactose: inputs.acid.culture.lactatePerLactose,
  };
  if (starter.form === 'whey') {
    const serumL = wheyStarterKg(ground, starter.percent) / serumKgOf(vat);
    addWheyStarter(acid, { ...shared, serumL });
    thin(vat, serumL, serumL);
    return;
  }
  const addedKg = (starter.percent / 100) * ground.milkKg;
  const share = addedKg / (vat.milkKg + addedKg);
  addBulkStarter(acid, { ...shared, share });
  vat.milkKg += addedKg;
  conditions.curdSerumL *= 1 - share;
  thin(vat, share, share);
}

/** Mass of a litre of undiluted serum per litre of milk, in the acid state's measure [kg]. */
function serumKgOf(vat: Vat): number {
  const { milk, otherPerSolventWater, solventWaterKg } = vat.inputs.basis;
  return (vat.milkKg / 100) * (solventWaterKg * (1 + otherPerSolventWater) + milk.lactoseKg);
}

/** Whey starter, in percent of the milk's volume [kg]. */
export const wheyStarterKg = (ground: Ground, percent: number): number =>
  (percent / 100) * ground.plan.setup.milk.volumeL * liquidKgPerL({ liquid: 'whey', temperatureC: 37 });

/** Draws so many litres of the free whey, or 95 % of it if there is no more. Returns the litres drawn. */
export function drawWhey(vat: Vat, wantedL: number): number {
  const { acid, conditions } = vat;
  const freeL = wheyLitres(wheyContents(vat));
  const drawnL = Math.min(wantedL, MOST_DRAWN * freeL);
  if (!(drawnL > 0)) return 0;
  const share = drawnL / freeL;
  noteDrawn(vat, share);
  conditions.wheyL = washWhey(acid, { wheyL: conditions.wheyL, drawnFraction: share, waterL: 0 });
  return drawnL;
}

/** All free whey leaves the vat. */
export function drainVat(vat: Vat): void {
  noteDrawn(vat, 1);
  drainWhey(vat.acid);
  vat.conditions.wheyL = 0;
}
