/**
 * How sure the rennet is: a bottle that nobody knows, one whose label says its strength, or one tested in a cup.
 *
 * A cup test times the flecks of this bottle in this kitchen's milk, by its thermometer and eyes. Whatever makes this
 * kitchen's milk set sooner or later than the model says is in the strength it found, and is the same again in the pot:
 * it cancels. So a tested bottle leaves the error of its drops, once what differs between the cup and the pot, and its
 * age; a label leaves the bottle's own spread and all of the model's error.
 */
import type { Setup } from '../make/setup.ts';
import { CLOTTING_LN_SD, CLOTTING_LN_SD_CALIBRATED } from '../science/coagulation.ts';
import { rennetStrengthAt } from '../science/rennet.ts';

type Rennet = Setup['rennet'];

const LABEL_LN_SD = 0.07; // a labelled bottle, our own choice
const AGE_LN_SD_PER_MONTH = 0.01; // as much as the loss itself (`rennetKeptFraction`), which is from memory
const Z95 = 1.645; // standard normal, 95 %

/**
 * What the bottle really holds over what the plan reckons with, at a standard normal deviate. Age takes from both alike.
 * @param input.rennet as in the setup; strengths in IMCU per mL, g or tablet
 * @param input.z standard normal deviate [-]
 * @returns ratio [-], 1 at z = 0
 * @source spread of unknown bottles as `rennetStrengthAt`; of labels our own choice; of tests as `rennetStrengthFromAssay`
 */
export function realOverBelieved(input: { readonly rennet: Rennet; readonly z: number }): number {
  const { rennet, z } = input;
  if (rennet.strengthImcuPerMl === undefined) {
    return rennetStrengthAt({ form: rennet.form, z }) / rennetStrengthAt({ form: rennet.form, z: 0 });
  }
  const lnSd = rennet.testedSpanImcuPerMl === undefined ? LABEL_LN_SD : testedLnSd(rennet.testedSpanImcuPerMl, rennet);
  return Math.exp(lnSd * z);
}

/**
 * Spread of the maker's own clotting factor that is left: after a cup test only what differs from batch to batch.
 * @param input.lnSd spread of ln(factor) before [-]
 */
export function makerLnSdWith(input: { readonly rennet: Rennet; readonly lnSd: number }): number {
  const isTested = input.rennet.testedSpanImcuPerMl !== undefined;
  return isTested ? Math.min(input.lnSd, CLOTTING_LN_SD_CALIBRATED) : input.lnSd;
}

/** The test's span holds the model's whole error and that of the drops; of the model's, the cup keeps its own batch's part. */
function testedLnSd(span: { readonly low: number; readonly high: number }, rennet: Rennet): number {
  const spanLnSd = Math.log(span.high / span.low) / (2 * Z95);
  const dropsVariance = Math.max(0, spanLnSd ** 2 - CLOTTING_LN_SD ** 2);
  return Math.hypot(Math.sqrt(dropsVariance), CLOTTING_LN_SD_CALIBRATED, AGE_LN_SD_PER_MONTH * rennet.monthsStored);
}
