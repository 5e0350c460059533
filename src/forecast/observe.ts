import type { History } from '../make/history.ts';
import type { JudgementName } from '../make/judgement.ts';
import type { Sample } from '../make/step.ts';
import { ACID_STATE } from '../science/acidification.ts';
import { JUDGEMENTS, judgementLogLikelihood, type JudgementId } from '../science/judgements.ts';
import { curdKgOf, curdMoistureOf } from './contents.ts';
import type { Course } from './course.ts';
import { BELIEVED_SD, note, SLIP_SPAN, weigh } from './evidence.ts';
import { observeAcidity } from './observe-acidity.ts';
import { observeSalt } from './observe-salt.ts';
import { observeWhey } from './observe-whey.ts';
import { FLAT_PROBE_SD, METER_SD, THERMOMETER_SD_C } from './reading-error.ts';
import type { MemberRun } from './run.ts';
import { weighCurd } from './serum.ts';
import { curdPHOf, firmnessOf, wheyPHOf, type Vat } from './vat-state.ts';

/**
 * What a reading or a judgement says about one member, and how the member's own vat is set right by it. A reading is
 * evidence about what led there (its likelihood weighs the member) and knowledge of where the vat is now (the state moves).
 */

const MILK_ERROR_SD = 0.04; // model error of pH in milk, acidification notes 5.5 rule 2 (our own fit)
const CURD_ERROR_SD = 0.2; // in drained curd, same rule
const CURD_ERROR_AFTER_READING_SD = 0.05; // restarts here once the curd was read, same rule
const CURD_ERROR_GROWS_MIN = 180; // and grows back over about three hours, same rule
/** Drained curd that has soured by so much the model is as far out of as it will be; what never sours it knows as well as milk. */
const CURD_ERROR_GROWS_PH = 0.4; // an hour or two of a live culture: our own choice
const FLOCCULATION_LN_SD = 0.08; // a bowl spun every half minute in a 15 minute wait, our own choice
const SCALE_LN_SD = 0.02; // weighing wet curd, our own choice
const ROOM_READING_SD_C = 2; // a room is warmer by the stove and changes through a morning: our own choice
const ROOM_POSSIBLE_C = { low: 0, high: 45 }; // our own choice
const AFTER_ICE_TEST_SD_C = 0.3; // one point at 0 °C says little of the error at 40: our own choice
/** What is read in these is read of the vat. */
export const IN_THE_VAT: ReadonlySet<Sample> = new Set<Sample>(['milk', 'curd', 'whey']);

/** How far the error of the milk has given way to that of the drained curd, 0 to 1, with the acid made since it was drained or read. */
function souredShare(vat: Vat, pH: number): number {
  const share = (vat.curdErrorFromPH - pH) / CURD_ERROR_GROWS_PH;
  // Where nobody kept what it was drained at, it has soured.
  return share <= 0 ? 0 : share < 1 ? share * (2 - share) : 1;
}

function sdAfterReading(vat: Vat, pH: number): number {
  const passed = Math.min((vat.minute - vat.curdErrorFromMin) / CURD_ERROR_GROWS_MIN, 1);
  const share = Math.min(passed, souredShare(vat, pH));
  return CURD_ERROR_AFTER_READING_SD + share * (CURD_ERROR_SD - CURD_ERROR_AFTER_READING_SD);
}

/** Standard deviation of the model's own pH error now. */
export function modelErrorSd(vat: Vat): number {
  if (vat.conditions.phase !== 'drained') return MILK_ERROR_SD;
  const pH = curdPHOf(vat);
  if (vat.curdWasRead) return sdAfterReading(vat, pH);
  const share = souredShare(vat, pH);
  return Math.hypot((1 - share) * MILK_ERROR_SD, share * CURD_ERROR_SD);
}

/** The pH this member says is really there: the equations' and its own share of the model error. */
export const believedPH = (vat: Vat): number => believedPHAt(vat, curdPHOf(vat));

/** The same where the equations say so much. */
export function believedPHAt(vat: Vat, pH: number): number {
  const { milkErrorZ, curdErrorZ, curdErrorAfterReadingZ } = vat.inputs;
  if (vat.conditions.phase !== 'drained') return pH + MILK_ERROR_SD * milkErrorZ;
  if (vat.curdWasRead) return pH + curdErrorAfterReadingZ * sdAfterReading(vat, pH);
  const share = souredShare(vat, pH);
  return pH + (1 - share) * MILK_ERROR_SD * milkErrorZ + share * CURD_ERROR_SD * curdErrorZ;
}

/** One reading, and where it finds a member's make. */
interface Observed {
  readonly vat: Vat;
  readonly run: MemberRun;
  readonly course: Course;
  /** Of the reading in the history. */
  readonly index: number;
  readonly reading: History['readings'][number];
}

/** Weighs one reading and moves the vat to it. What is read of brine or cold bath says nothing of the vat (`as-done.ts`). */
export function observeReading(observed: Observed): void {
  const { vat, run, index, reading } = observed;
  switch (reading.quantity) {
    case 'pH':
      if (IN_THE_VAT.has(reading.sample)) observePH(vat, run, index, reading);
      return;
    case 'temperatureC': {
      if (reading.sample === 'room') return observeRoom(observed);
      if (!IN_THE_VAT.has(reading.sample)) return;
      const value = reading.value - vat.inputs.thermometerBiasC;
      // While the burner is on a temperature tells of burner and pot; otherwise of what the maker did.
      const heating = vat.heaterW > 0;
      const warmed = vat.temperatureC - vat.inputs.ground.plan.setup.milk.temperatureC;
      const sd = heating ? Math.max(THERMOMETER_SD_C, 0.08 * warmed) : 3 * THERMOMETER_SD_C;
      note(run, index, vat.temperatureC + vat.inputs.thermometerBiasC, sd);
      if (heating) weigh(run, index, { z: (value - vat.temperatureC) / sd, sd, span: SLIP_SPAN.temperatureC });
      if (value > 0 && value < 100) vat.temperatureC = value;
      return;
    }
    case 'flocculationMin': {
      const expected = Number.isNaN(vat.flocculationMin)
        ? (vat.minute - vat.rennetMin) / Math.max(vat.clotProgress, 0.02)
        : vat.flocculationMin - vat.rennetMin;
      note(run, index, expected, FLOCCULATION_LN_SD * expected);
      const z = Math.log(reading.value / expected) / FLOCCULATION_LN_SD;
      weigh(run, index, { z, sd: FLOCCULATION_LN_SD, span: SLIP_SPAN.ln });
      vat.flocculationMin = vat.rennetMin + reading.value;
      vat.clotProgress = 1;
      return;
    }
    case 'massKg': {
      if (reading.sample !== 'curd') return;
      const expected = curdKgOf(vat);
      note(run, index, expected, SCALE_LN_SD * expected);
      const z = Math.log(reading.value / expected) / SCALE_LN_SD;
      weigh(run, index, { z, sd: SCALE_LN_SD, span: SLIP_SPAN.ln });
      weighCurd(vat, reading.value);
      return;
    }
    case 'titratableAcidityD':
      return observeAcidity({ ...observed, pH: believedPH(vat) });
    case 'wheyL':
      return observeWhey(observed);
    case 'saltG':
      return observeSalt(observed);
    case 'iceWaterC': {
      // Temperatures are noted set right by this test already; what is left of the thermometer's error is small.
      const z = vat.inputs.thermometerBiasC / AFTER_ICE_TEST_SD_C;
      weigh(run, index, { z, sd: AFTER_ICE_TEST_SD_C, span: SLIP_SPAN.temperatureC });
      return;
    }
  }
}

/** The room by a thermometer near the vat: it is so from now on. */
function observeRoom({ vat, run, index, reading }: Observed): void {
  const value = reading.value - vat.inputs.thermometerBiasC;
  note(run, index, vat.roomC + vat.inputs.thermometerBiasC, ROOM_READING_SD_C);
  const z = (value - vat.roomC) / ROOM_READING_SD_C;
  weigh(run, index, { z, sd: ROOM_READING_SD_C, span: SLIP_SPAN.temperatureC });
  if (value > ROOM_POSSIBLE_C.low && value < ROOM_POSSIBLE_C.high) vat.roomC = value;
}

function observePH(vat: Vat, run: MemberRun, index: number, reading: History['readings'][number]): void {
  const drained = vat.conditions.phase === 'drained';
  const onCurd = drained || (reading.sample === 'curd' && vat.conditions.phase === 'curd-in-whey');
  const expected = reading.sample === 'whey' && !drained ? wheyPHOf(vat) : curdPHOf(vat);
  const sd = Math.hypot(modelErrorSd(vat), onCurd ? FLAT_PROBE_SD : METER_SD);
  note(run, index, expected + vat.inputs.meterBiasPH, sd);
  const z = (reading.value - vat.inputs.meterBiasPH - expected) / sd;
  weigh(run, index, { z, sd, span: SLIP_SPAN.pH });
  if (!drained || Math.abs(z) > BELIEVED_SD) return;
  vat.acid[ACID_STATE.curdPH] = reading.value - vat.inputs.meterBiasPH;
  vat.curdWasRead = true;
  vat.curdErrorFromMin = vat.minute;
  vat.curdErrorFromPH = curdPHOf(vat);
}

/** Calcium of curd that acid was poured for, which stretches at a higher pH. */
export const calciumOf = ({ acidCalciumMgPerG }: Vat): { insolubleCalciumMgPerG?: number } =>
  Number.isNaN(acidCalciumMgPerG) ? {} : { insolubleCalciumMgPerG: acidCalciumMgPerG };

/** What a judgement looks at, as it stands in this member's vat. */
export function judgedStateOf(vat: Vat, judgement: JudgementName): number {
  switch (judgement) {
    case 'cleanBreak':
      return firmnessOf(vat);
    case 'grip':
    case 'panTrack':
      return curdMoistureOf(vat);
    case 'wheyTaste':
      return vat.conditions.phase === 'curd-in-whey' ? wheyPHOf(vat) : believedPH(vat);
    case 'tang':
      return vat.inputs.startPH - believedPH(vat);
    case 'stretch':
    case 'acidGel':
    case 'flocs':
    case 'millTear':
      return believedPH(vat);
  }
}

/** Weighs one judgement; the vat stays where it is. */
export function observeJudgement(vat: Vat, run: MemberRun, index: number, judged: History['judgements'][number]): void {
  const { judgement, grade } = judged;
  const state = judgedStateOf(vat, judgement);
  const makerZ = makerZOf(vat, judgement);
  const made = { judgement, grade, state, ...(makerZ === undefined ? {} : { makerZ }), ...calciumOf(vat) };
  run.logLikelihoods[index] = judgementLogLikelihood(made);
  run.innovations[index] = judgedFrom(made);
}

/** The maker whose call ends a step grades on the way there: early in the one, early in the other. */
function makerZOf({ inputs }: Vat, judgement: JudgementId): number | undefined {
  if (judgement === 'stretch') return inputs.stretchZ;
  return judgement === 'cleanBreak' ? inputs.breakZ : undefined;
}

const WELL_PAST_SD = 6; // from the last threshold: as sure as a judgement can be

/**
 * How far a state lies from where its grade is surest, as a distance whose half square is what the grade loses of its
 * log-likelihood (a deviance residual): flat where the grade fits, never steeper than the likelihood itself.
 */
function judgedFrom(judged: { judgement: JudgementId; grade: string; state: number; makerZ?: number }): number {
  const { judgement, grade, state } = judged;
  const model = JUDGEMENTS[judgement];
  const index = model.grades.indexOf(grade);
  if (index < 0) return Number.NaN;
  const before = model.thresholds[index - 1];
  const after = model.thresholds[index];
  const past = (model.falls ? -1 : 1) * WELL_PAST_SD * model.sd;
  const surest = ((before ?? (after ?? state) - 2 * past) + (after ?? (before ?? state) + 2 * past)) / 2;
  const lost = judgementLogLikelihood({ ...judged, state: surest }) - judgementLogLikelihood(judged);
  return Math.sign(surest - state) * Math.sqrt(2 * Math.max(lost, 0));
}
