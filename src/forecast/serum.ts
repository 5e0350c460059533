import { ACID_STATE } from '../science/acidification.ts';
import { expelSerum } from '../science/acidification-events.ts';
import { lossShare, solventShareKernel, wheyFractionForSolvent } from '../science/syneresis-balance.ts';
import { curdKgAt, curdNow, DRAWN, lossInWhey } from './contents.ts';
import type { Vat } from './vat-state.ts';

/** Serum on its way: out of the curd, out of the vat, and back where a weight says that it never left. */

const FIRST_CUT_SHARE = 1e-3; // a film of whey right after cutting, so that curd and whey are two phases at once

/** Serum leaves the curd for the whey, or the vat where the curd is drained, until so much has left; or comes back from there. */
export function moveSerum(vat: Vat, wheyFraction: number): void {
  const { acid, conditions, drawn, inputs, expulsion } = vat;
  const serumL = solventShareKernel(inputs.basis, Math.max(wheyFraction, FIRST_CUT_SHARE));
  const expelledL = conditions.curdSerumL - serumL;
  expulsion.curdSerumL = conditions.curdSerumL;
  expulsion.wheyL = conditions.wheyL;
  expulsion.expelledL = expelledL;
  expulsion.drained = conditions.phase === 'drained';
  if (expulsion.drained) {
    const share = expelledL / conditions.curdSerumL;
    add(drawn, DRAWN.serumL, expelledL);
    add(drawn, DRAWN.strongL, expelledL * (acid[ACID_STATE.curdStrength] ?? 1));
    add(drawn, DRAWN.lactoseMM, share * (acid[ACID_STATE.curdLactoseMM] ?? 0));
    add(drawn, DRAWN.lactateMM, share * (acid[ACID_STATE.curdLactateMM] ?? 0));
    add(drawn, DRAWN.lossShare, lossShare(wheyFraction) - lossShare(vat.wheyFraction));
  }
  expelSerum(acid, inputs.acid, expulsion);
  vat.wheyFraction = wheyFraction;
  conditions.curdSerumL = serumL;
  if (!expulsion.drained) conditions.wheyL += expelledL;
}

const add = (to: Float64Array, place: number, amount: number): void => {
  to[place] = (to[place] ?? 0) + amount;
};

/** Notes a share of the whey in the vat as drawn off; `washWhey` or `drainWhey` then take it out. */
export function noteDrawn(vat: Vat, share: number): void {
  const { acid, conditions, drawn } = vat;
  add(drawn, DRAWN.serumL, share * conditions.wheyL);
  add(drawn, DRAWN.strongL, share * conditions.wheyL * (acid[ACID_STATE.wheyStrength] ?? 1));
  add(drawn, DRAWN.lactoseMM, share * (acid[ACID_STATE.wheyLactoseMM] ?? 0));
  add(drawn, DRAWN.lactateMM, share * (acid[ACID_STATE.wheyLactateMM] ?? 0));
  add(drawn, DRAWN.lossShare, share * lossInWhey(vat));
}

const LEAST_WHEY_FRACTION = 0.5; // the losses are over, and it is curd that was weighed: our own choice
const MOST_WHEY_FRACTION = 0.96; // our own choice: a slip of the pen beyond

/**
 * Sets the curd right by its weight: heavier curd from the same milk is wetter curd, fat and casein are what they were. Its
 * serum comes back from where it was thought to have gone, or goes there. A weight that no curd of this milk has says nothing.
 */
export function weighCurd(vat: Vat, massKg: number): void {
  if (Number.isNaN(vat.cutMin)) return;
  const curd = curdNow(vat);
  // Curd of as much whey as leaves by its end, and what it weighs more with each litre of serum.
  const dry = { ...curd, wheyFraction: 1, serumL: 0, lactoseMM: 0 };
  const perSerumLKg =
    curdKgAt(vat, { ...dry, serumL: 1, lactoseMM: curd.lactoseMM / curd.serumL }) - curdKgAt(vat, dry);
  const wheyFraction = wheyFractionForSolvent(vat.inputs.basis, (massKg - curdKgAt(vat, dry)) / perSerumLKg);
  if (wheyFraction <= LEAST_WHEY_FRACTION || wheyFraction >= MOST_WHEY_FRACTION) return;
  moveSerum(vat, wheyFraction);
}
