import type { History } from '../make/history.ts';
import { FRESH_ACIDITY_D, milkAcidityKernel, serumAcidityKernel } from '../science/acidity.ts';
import { ACID_STATE } from '../science/acidification.ts';
import { colloidalDissolvedFraction, COLLOIDAL_MIDPOINT_QUICK_PH } from '../science/buffer.ts';
import { note, SLIP_SPAN, weigh } from './evidence.ts';
import type { MemberRun } from './run.ts';
import { wheyPHOf, type Vat } from './vat-state.ts';

const TITRATION_SD_D = 0.8; // 0.5 °D of the titration itself (`science/acidity.ts`), read to whole degrees
// Errors of the model as shares, `science/acidity.ts`: its stated uncertainties taken as nine in ten (ours).
const MILK_RISE_SD = 0.06;
const WHEY_START_SD = 0.06;
const WHEY_RISE_SD = 0.09;
// Serum of drained curd: our own choice, because a seventh or all of the curd's phosphate may have dissolved by then.
const CURD_SERUM_SD = 0.35;

/**
 * A titration as evidence. Milk titrates what it did when fresh, which differs from milk to milk, plus its lactic acid; whey
 * in the vat less, by what the casein keeps; the serum of drained curd is taken as it runs, and says little.
 */
export function observeAcidity(input: {
  vat: Vat;
  run: MemberRun;
  index: number;
  reading: History['readings'][number];
  /** What this member believes the milk or curd to be at. */
  pH: number;
}): void {
  const { vat, run, index, reading, pH } = input;
  if (reading.sample !== 'milk' && reading.sample !== 'whey' && reading.sample !== 'curd') return;
  const { value, sd } = acidityOf({ vat, sample: reading.sample, pH });
  note(run, index, value, sd);
  weigh(run, index, { z: (reading.value - value) / sd, sd, span: SLIP_SPAN.dornic });
}

/** What this member's vat would titrate, with the model's and the burette's error [°D]. */
function acidityOf(at: { vat: Vat; sample: 'milk' | 'whey' | 'curd'; pH: number }): { value: number; sd: number } {
  const { vat, sample, pH } = at;
  const { inputs, acid, conditions } = vat;
  const fresh = FRESH_ACIDITY_D[inputs.ground.milk.species];
  const startDornic = fresh.mean + fresh.sd * inputs.milkAcidityZ;
  const lactateMM = acid[ACID_STATE.curdLactateMM] ?? 0;
  if (conditions.phase === 'milk') {
    const value = milkAcidityKernel({ startDornic, lactateMM });
    return { value, sd: Math.hypot(TITRATION_SD_D, MILK_RISE_SD * (value - startDornic)) };
  }
  const { composition } = inputs.ground.buffer;
  const milk = { composition, startDornic, startPH: inputs.startPH };
  if (sample !== 'curd' && conditions.phase === 'curd-in-whey' && conditions.wheyL > 0) {
    const strength = acid[ACID_STATE.wheyStrength] ?? 1;
    const value = serumAcidityKernel({
      ...milk,
      pH: wheyPHOf(vat),
      strength,
      lactateMM: (acid[ACID_STATE.wheyLactateMM] ?? 0) / conditions.wheyL,
      dissolvedPhosphateMM: 0,
    });
    const sweet = serumAcidityKernel({ ...milk, pH: inputs.startPH, strength, lactateMM: 0, dissolvedPhosphateMM: 0 });
    return { value, sd: Math.hypot(TITRATION_SD_D, WHEY_START_SD * sweet, WHEY_RISE_SD * (value - sweet)) };
  }
  const serumL = Math.max(conditions.curdSerumL, 0.01);
  const dissolved = colloidalDissolvedFraction({ pH, midpointPH: COLLOIDAL_MIDPOINT_QUICK_PH });
  const value = serumAcidityKernel({
    ...milk,
    pH,
    strength: acid[ACID_STATE.curdStrength] ?? 1,
    lactateMM: lactateMM / serumL,
    dissolvedPhosphateMM: (dissolved * composition.colloidalPhosphateMM) / serumL,
  });
  return { value, sd: Math.hypot(TITRATION_SD_D, CURD_SERUM_SD * value) };
}
