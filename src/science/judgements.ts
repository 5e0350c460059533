/**
 * What a maker's own judgement says about milk and curd: each is an ordered choice on one named state, so that a grade is
 * evidence with a stated error, and the simulator and the inference use the same numbers.
 *
 * No peer-reviewed test of hand judgements against an instrument was found: every threshold and width here is common
 * practice or our own choice unless its line names a source.
 */
import { InputError } from '../numbers/validity.ts';
import { JUDGEMENTS, STRETCH_GRADES, type JudgementId, type JudgementModel } from './judgement-models.ts';

export * from './judgement-models.ts';
export const NOT_SURE = 'not-sure';

/** Insoluble calcium of cultured curd, for which the stretch thresholds hold [mg per g protein]. */
export const STRETCH_REFERENCE_CALCIUM_MG_PER_G = 22; // our own choice: 18-23 suggested from Lee 2017 and Guinee et al. 2002, tables and abstracts seen
/** Less insoluble calcium, stretch at a higher pH: direct-acid curd of about 17 mg/g at 5.6 (window 5.5-5.7). */
const STRETCH_PH_PER_CALCIUM = 0.08; // pH per mg/g; our own line through cultured 5.2 at 22 and direct acid 5.6 at 17
const STRETCH_SHIFT_LOW = -0.12; // drained sweet; our own bound
const STRETCH_SHIFT_HIGH = 0.6; // pH 5.8 at most (low-calcium curds stretched at 5.9: Sheehan and Guinee 2004, abstract seen); our own bound
/** In cooler test water a failed stretch says nothing about the curd: test in 75-80 °C. Common practice (no source). */
export const STRETCH_TEST_WATER_MIN_C = 70; // our own choice below the 70-80 °C of Chandan and Kilara 2011 p. 278, seen
/** Share of grades that are slips of the pen or of the hand, spread over all grades: our own choice. */
const SLIP_FRACTION = 0.03; // our own choice

/** How alike one maker's calls are through a make, as a correlation: who calls it late once, calls it late again. */
const SAME_HAND = 0.7; // our own choice: half of what makers differ by stays with the maker all day

const LOGISTIC_PER_SD = Math.PI / Math.sqrt(3); // a logistic of this steepness has standard deviation 1

/** One judgement as evidence. */
export interface Judged {
  judgement: JudgementId;
  /** One of the judgement's grades, or `not-sure`. */
  grade: string;
  /** Value of the judgement's state, in its unit. */
  state: number;
  /**
   * Stretch only: insoluble calcium when most of the whey left the curd, or when the milk was acidified before rennet
   * [mg per g protein]; left out = cultured curd.
   */
  insolubleCalciumMgPerG?: number;
  /** Stretch only: measured temperature of the test water [°C]. */
  testWaterC?: number;
  /** How far this maker's thresholds lie above others' [standard deviations of the judgement]; left out = a maker nobody knows. */
  makerZ?: number;
}

/** The judgement as one maker makes it: its thresholds moved as far as a maker's calls are alike, its width what is left. */
interface Hand {
  readonly shift: number;
  readonly sd: number;
}

function handOf({ judgement, insolubleCalciumMgPerG, makerZ }: Omit<Judged, 'grade' | 'state'>): Hand {
  const { sd } = JUDGEMENTS[judgement];
  const shift = shiftOf(judgement, insolubleCalciumMgPerG);
  if (makerZ === undefined) return { shift, sd };
  return { shift: shift + SAME_HAND * sd * makerZ, sd: sd * Math.sqrt(1 - SAME_HAND * SAME_HAND) };
}

/**
 * How much higher in pH this curd stretches than ordinary cultured curd (kernel, unchecked).
 *
 * 0.08 pH per mg/g of insoluble calcium below 22, between -0.12 and +0.6.
 *
 * @param insolubleCalciumMgPerG  [mg per g protein]
 * @returns shift of all stretch thresholds [pH]
 * Valid: 14 to 27 mg/g. Uncertainty: 0.1 pH (our own statement).
 * @source our own line through the two windows of Gonçalves and Cardarelli 2021, Table 1, seen
 */
export function stretchShiftPH(insolubleCalciumMgPerG: number): number {
  const shift = STRETCH_PH_PER_CALCIUM * (STRETCH_REFERENCE_CALCIUM_MG_PER_G - insolubleCalciumMgPerG);
  return shift < STRETCH_SHIFT_LOW ? STRETCH_SHIFT_LOW : shift > STRETCH_SHIFT_HIGH ? STRETCH_SHIFT_HIGH : shift;
}

/** Chance that a maker has called the grade after threshold `index` by now; 1 below the first, 0 past the last. */
function passedFraction(model: JudgementModel, index: number, state: number, { shift, sd }: Hand): number {
  if (index < 0) return 1;
  const threshold = model.thresholds[index];
  if (threshold === undefined) return 0;
  const past = model.falls ? threshold + shift - state : state - threshold - shift;
  return 1 / (1 + Math.exp((-LOGISTIC_PER_SD * past) / sd));
}

function shiftOf(judgement: JudgementId, insolubleCalciumMgPerG: number | undefined): number {
  return judgement === 'stretch' && insolubleCalciumMgPerG !== undefined ? stretchShiftPH(insolubleCalciumMgPerG) : 0;
}

function gradeProbability(model: JudgementModel, index: number, state: number, hand: Hand): number {
  const clean = passedFraction(model, index - 1, state, hand) - passedFraction(model, index, state, hand);
  return (1 - SLIP_FRACTION) * clean + SLIP_FRACTION / model.grades.length;
}

/**
 * How likely this grade was, had the state been as given (kernel, allocates nothing).
 *
 * ln P, P = 0.97 [F(past threshold below) - F(past threshold above)] + 0.03/n, F logistic with the judgement's sd; of a maker whose
 * own way is given, thresholds moved by 0.7 sd z and the sd that is then left, 0.71 of it. `not-sure` counts as flat: 0 whatever the state. So does a failed stretch in test water below 70 °C.
 *
 * @param judged  which judgement, its grade, the state's value, and what belongs to the stretch test
 * @returns log-likelihood [-], at most 0; never -Infinity, so one odd grade cannot end a forecast
 * Valid: any finite state. Uncertainty: that is what it states.
 * @throws InputError where the grade is not one of the judgement's
 * @source as `JUDGEMENTS`
 */
export function judgementLogLikelihood(judged: Judged): number {
  if (judged.grade === NOT_SURE) return 0;
  const model = JUDGEMENTS[judged.judgement];
  const index = gradeIndex(model, judged.grade);
  if (judged.testWaterC !== undefined && judged.testWaterC < STRETCH_TEST_WATER_MIN_C && index < LONG_SMOOTH) return 0;
  return Math.log(gradeProbability(model, index, judged.state, handOf(judged)));
}

/**
 * How likely each grade is at this state.
 *
 * @param input.judgement  which judgement
 * @param input.state  value of its state, in its unit
 * @param input.insolubleCalciumMgPerG  stretch only [mg per g protein]
 * @param input.makerZ  how far this maker's thresholds lie above others' [sd]
 * @returns one probability a grade, in their order; they add up to 1
 * Valid: any finite state. Uncertainty: that is what it states.
 * @source as `JUDGEMENTS`
 */
export function gradeProbabilities(input: Omit<Judged, 'grade' | 'testWaterC'>): number[] {
  const model = JUDGEMENTS[input.judgement];
  const hand = handOf(input);
  return model.grades.map((_, index) => gradeProbability(model, index, input.state, hand));
}

/**
 * Where on its state a maker calls this grade for the first time: what a simulated maker waits for.
 *
 * @param input.judgement  which judgement
 * @param input.grade  one of its grades
 * @param input.insolubleCalciumMgPerG  stretch only [mg per g protein]
 * @returns mean and standard deviation in the state's unit, and whether the state falls towards it; the first grade is
 * called from the start (mean infinite)
 * Uncertainty: the standard deviation is it.
 * @throws InputError where the grade is not one of the judgement's
 * @source as `JUDGEMENTS`
 */
export function judgementThreshold(input: { judgement: JudgementId; grade: string; insolubleCalciumMgPerG?: number }): {
  mean: number;
  sd: number;
  falls: boolean;
} {
  const model = JUDGEMENTS[input.judgement];
  const index = gradeIndex(model, input.grade);
  const start = model.falls ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  const mean = index === 0 ? start : (model.thresholds[index - 1] ?? start);
  return { mean: mean + shiftOf(input.judgement, input.insolubleCalciumMgPerG), sd: model.sd, falls: model.falls };
}

const LONG_SMOOTH = STRETCH_GRADES.indexOf('long-smooth');

function gradeIndex(model: JudgementModel, grade: string): number {
  for (let index = 0; index < model.grades.length; index++) if (model.grades[index] === grade) return index;
  throw new InputError([
    {
      code: 'unknown-choice',
      field: 'grade',
      value: grade,
      expected: `one of ${model.grades.join(', ')}, ${NOT_SURE}`,
      remedy: `Give a grade of ${model.id}.`,
    },
  ]);
}
