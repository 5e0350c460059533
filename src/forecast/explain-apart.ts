import { FLAT_PROBE_SD, METER_SD, THERMOMETER_SD_C } from './reading-error.ts';
import type { Course, CourseStep } from './course.ts';
import { figureOf, type Seen } from './explain-seen.ts';

/** A reading or test that was not taken and would have told causes apart; what it would show, and how closely. */
export interface Missing {
  /** Its words are `explain:missing.<id>`. */
  readonly id: string;
  readonly stepId: string | null;
  /** Error of the reading, on its own scale. */
  readonly sd: number;
  /** From that scale back to what is shown. */
  readonly shown: 'plain' | 'exponential';
  readonly expect: (member: Seen) => number;
}

const FLECKS_LN_SD = 0.08; // as in `observe.ts`
const SCALE_LN_SD = 0.02; // as in `observe.ts`
const CUP_LN_SD = 0.15; // drops, clock and eye of a cup test: our own choice
const YOGHURT_LN_SD = 0.4; // how soon a cup of warm milk thickens tells little of the dose: our own choice
const ICE_WATER_SD_C = 0.5; // one point at 0 °C says little of the error at 40: our own choice
const BUFFER_SD = 0.03; // a fresh buffer: our own choice
const BRINE_SD_PERCENT = 1; // a salometer or a floating egg's better: our own choice
const WATER_SD_C = 1.5; // our own choice
const JUG_LN_SD = 0.12; // as in `explain-clues.ts`

/** What could have been read in this make and was not, in the order of the make. */
export function missingOf(course: Course): Missing[] {
  const { readings } = course.history;
  const has = (quantity: string): boolean => readings.some((reading) => reading.quantity === quantity);
  const within = (step: CourseStep, quantity: string): boolean =>
    readings.some(
      (reading) =>
        reading.quantity === quantity &&
        step.startedMin !== null &&
        reading.elapsedMin >= step.startedMin - 1 &&
        reading.elapsedMin <= (step.endedMin ?? Number.POSITIVE_INFINITY) + 1,
    );
  const inVat = course.steps.filter((step) => PH_AT.has(step.verb) && step.startedMin !== null);
  const first = (verb: CourseStep['verb']): CourseStep | undefined => course.steps.find((step) => step.verb === verb);
  const once = (verb: CourseStep['verb'], missing: Omit<Missing, 'stepId'>, isTaken: boolean): Missing[] => {
    const step = first(verb);
    return step === undefined || isTaken ? [] : [{ ...missing, stepId: step.id }];
  };
  const waterTaken = (verb: CourseStep['verb']): boolean => (first(verb)?.waterC ?? null) !== null;
  return [
    test('ice-water', ICE_WATER_SD_C, (member) => member.supposed.inputs.thermometerBiasC),
    ...(course.plan.setup.pHMeter ? [test('buffer', BUFFER_SD, (member) => member.supposed.inputs.meterBiasPH)] : []),
    ratio('rennet-cup', CUP_LN_SD, (member) => member.supposed.rennetStrength),
    ratio('culture-cup', YOGHURT_LN_SD, (member) => member.supposed.cultureAlive),
    ...inVat.flatMap((step) => [
      ...(within(step, 'pH') ? [] : [atEnd('pH', step, step.verb === 'ripen' ? METER_SD : FLAT_PROBE_SD, endPH)]),
      ...(within(step, 'temperatureC') ? [] : [atEnd('temperatureC', step, THERMOMETER_SD_C, endC)]),
    ]),
    ...once('set', ratio('flecks', FLECKS_LN_SD, (member) => member.flecksMin), has('flocculationMin')),
    ...once('drawWhey', ratio('whey', JUG_LN_SD, wheyDrawnL), has('wheyL')),
    ...once('drain', ratio('curd-weight', SCALE_LN_SD, (member) => figureOf(member, 'curdKg')), readings.some((one) => one.quantity === 'massKg' && one.sample === 'curd')),
    ...once('stretch', test('stretch-water', WATER_SD_C, stretchWaterC), waterTaken('stretch')),
    ...once('brine', test('brine-temperature', WATER_SD_C, (member) => member.supposed.variant.decisions.brine?.brineC ?? Number.NaN), waterTaken('brine')),
    ...once('brine', test('brine-strength', BRINE_SD_PERCENT, (member) => member.supposed.variant.decisions.brine?.brinePercent ?? Number.NaN), false),
  ]; // prettier-ignore
}

/** Steps at whose end a pH or a temperature tells something. */
const PH_AT: ReadonlySet<CourseStep['verb']> = new Set(['ripen', 'set', 'stir', 'restToAcid', 'drain']);

const test = (id: string, sd: number, expect: Missing['expect']): Missing => ({ id, stepId: null, sd, shown: 'plain', expect }); // prettier-ignore
const ratio = (id: string, sd: number, expect: Missing['expect']): Missing => ({
  id,
  stepId: null,
  sd,
  shown: 'exponential',
  expect: (member) => Math.log(Math.max(expect(member), 1e-6)),
});

function atEnd(id: string, step: CourseStep, sd: number, read: (member: Seen, index: number) => number): Missing {
  return { id, stepId: step.id, sd, shown: 'plain', expect: (member) => read(member, step.index) };
}

const endPH = ({ run, supposed }: Seen, index: number): number =>
  (run.endPH[index] ?? Number.NaN) + supposed.inputs.meterBiasPH;
/** By a thermometer that was checked. */
const endC = ({ run }: Seen, index: number): number => run.endTemperatureC[index] ?? Number.NaN;

function wheyDrawnL({ supposed }: Seen): number {
  const { course, ground } = supposed.variant;
  const share = course.steps.find((step) => step.verb === 'drawWhey')?.plan.set.fractionOfVat;
  return typeof share === 'number' ? share * ground.plan.setup.milk.volumeL : Number.NaN;
}

function stretchWaterC({ supposed }: Seen): number {
  const meant = supposed.variant.course.steps.find((step) => step.verb === 'stretch')?.plan.set.waterC;
  return typeof meant === 'number' ? meant + supposed.stretchWaterOffsetC : Number.NaN;
}

/** One missing reading as two causes foresee it, everything noted taken into account. */
export interface Apart {
  readonly id: string;
  readonly stepId: string | null;
  /** What the first and the second of the two would have shown, in the reading's unit. */
  readonly first: number;
  readonly second: number;
  /** Distance of the two in standard deviations of what the reading would show. */
  readonly separation: number;
}

/** Causes that lie closer than this to one another in a reading are not told apart by it: our own choice. */
const LEAST_SEPARATION = 1;

/**
 * The missing reading that would best tell two causes apart: the largest distance between what they foresee, in units of what
 * the reading may show about each.
 * @param input.first  means and standard deviations of all missing readings under the first cause, after the record
 */
export function bestApart(input: {
  readonly missing: readonly Missing[];
  readonly first: Foreseen;
  readonly second: Foreseen;
}): Apart | null {
  const { missing, first, second } = input;
  let best: Apart | null = null;
  for (const [at, { id, stepId, sd, shown }] of missing.entries()) {
    const [a, b] = [first.mean[at] ?? 0, second.mean[at] ?? 0];
    const spread = Math.hypot(sd, Math.hypot(first.sd[at] ?? 0, second.sd[at] ?? 0) / Math.SQRT2);
    const separation = Math.abs(a - b) / spread;
    if (!(separation >= LEAST_SEPARATION) || separation <= (best?.separation ?? 0)) continue;
    const back = (value: number): number => (shown === 'exponential' ? Math.exp(value) : value);
    best = { id, stepId, first: back(a), second: back(b), separation };
  }
  return best;
}

export interface Foreseen {
  readonly mean: ArrayLike<number>;
  readonly sd: ArrayLike<number>;
}
