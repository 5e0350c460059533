import type { History } from '../make/history.ts';
import type { Verb } from '../make/step.ts';
import type { Course, CourseStep } from './course.ts';
import { SLIP, SPAN, type Clue, type ClueAbout } from './explain-clue.ts';
import { doseClues, faultClues, judgementClue, lastedClue } from './explain-clues-made.ts';
import { stretchedC, type FaultsSaid } from './explain-faults.ts';
import { figureOf, type Seen } from './explain-seen.ts';

const JUG_LN_SD = 0.12; // litres drawn by jug and by the marks of a pot: our own choice
const CHEESE_LN_SD = 0.03; // weighed wet, a piece eaten: our own choice
const FLECKS_LN_SD = 0.08; // as in `observe.ts`
const KEPT_SD_C = 1.2; // how closely a pot is kept where it is meant to be: our own choice
const WARM_END_SD_C = 0.8; // where the milk stands when the maker says it is warm: our own choice
const WATER_SD_C = 2.5; // water, bath and brine against the plan's figure: our own choice
const NEAR_END_MIN = 3; // a reading this close to a step's end is of its end: our own choice

/** Everything in a record that speaks, in the order of time. `sdOf` says how closely readings are taken in this walk. */
export function cluesOf(input: {
  readonly course: Course;
  readonly faults: FaultsSaid | null;
  /** Minutes each step is expected to last with nothing unusual. */
  readonly usualMin: readonly number[];
  readonly sdOf: (reading: number) => number;
}): Clue[] {
  const { course, faults } = input;
  const { readings, judgements } = course.history;
  const clues = [
    ...readings.flatMap((reading, index) => readingClue({ ...input, reading, index })),
    ...judgements.flatMap(judgementClue),
    ...course.steps.flatMap((step) => lastedClue({ ...input, step })),
    ...doseClues(course),
  ].sort((a, b) => minuteOf(a) - minuteOf(b));
  return [...clues, ...(faults === null ? [] : faultClues(course, faults))];
}

const minuteOf = ({ about }: Clue): number => ('elapsedMin' in about ? about.elapsedMin : Number.POSITIVE_INFINITY);

function stepAt(course: Course, minute: number): CourseStep | undefined {
  return course.steps.filter((step) => step.startedMin !== null && step.startedMin <= minute + 1e-6).at(-1);
}

function readingClue(input: {
  course: Course;
  reading: History['readings'][number];
  index: number;
  sdOf: (reading: number) => number;
}): Clue[] {
  const { course, reading, index } = input;
  const { quantity, sample, value, elapsedMin } = reading;
  const step = stepAt(course, elapsedMin);
  const about: ClueAbout = { kind: 'reading', quantity, sample, value, elapsedMin, stepId: step?.id ?? null };
  const plain = (sd: number, span: number, expect: Clue['expect']): Clue[] => [
    { about, shown: 'plain', expect, likelihood: { kind: 'value', value, sd, slip: SLIP, span } },
  ];
  const ratio = (sd: number, expect: Clue['expect']): Clue[] =>
    value <= 0
      ? []
      : [
          {
            about,
            shown: 'exponential',
            expect: (member) => Math.log(Math.max(expect(member), 1e-6)),
            likelihood: { kind: 'value', value: Math.log(value), sd, slip: SLIP, span: SPAN.ln },
          },
        ];
  const walked = (member: Seen): number => member.run.expected[index] ?? Number.NaN;
  switch (quantity) {
    case 'pH':
      return plain(input.sdOf(index), SPAN.pH, walked);
    case 'flocculationMin':
      return ratio(FLECKS_LN_SD, walked);
    case 'massKg':
      return sample === 'curd'
        ? ratio(input.sdOf(index) / value, walked)
        : sample === 'cheese'
          ? ratio(CHEESE_LN_SD, (member) => figureOf(member, 'cheeseKg'))
          : [];
    case 'wheyL':
      return step?.verb === 'drawWhey' ? ratio(JUG_LN_SD, (member) => plannedWheyL(member, step.index)) : [];
    case 'temperatureC':
      return temperatureClue({ step, sample, elapsedMin, plain, walked });
    case 'titratableAcidityD':
    case 'saltG':
    case 'iceWaterC':
      return [];
  }
}

function plannedWheyL({ supposed }: Seen, index: number): number {
  const { course, ground } = supposed.variant;
  const fraction = course.steps[index]?.plan.set.fractionOfVat;
  return typeof fraction === 'number' ? fraction * ground.plan.setup.milk.volumeL : Number.NaN;
}

/** Which setting a temperature of water, bath or brine is held against. */
const WATER_SETTING: Readonly<Partial<Record<Verb, 'waterC' | 'bathC' | 'brineC'>>> = {
  wash: 'waterC',
  stretch: 'waterC',
  cool: 'bathC',
  brine: 'brineC',
};

function temperatureClue(input: {
  step: CourseStep | undefined;
  sample: string;
  elapsedMin: number;
  plain: (sd: number, span: number, expect: Clue['expect']) => Clue[];
  walked: Clue['expect'];
}): Clue[] {
  const { step, sample, elapsedMin, plain, walked } = input;
  if (step === undefined) return [];
  const setting = (member: Seen, name: 'waterC' | 'bathC' | 'brineC' | 'toC'): number => {
    const value = member.supposed.variant.course.steps[step.index]?.plan.set[name];
    return typeof value === 'number' ? value : Number.NaN;
  };
  const name = WATER_SETTING[step.verb];
  if (name !== undefined && (sample === 'water' || sample === 'brine')) {
    // Whoever heats water by a thermometer gets what it shows.
    return plain(WATER_SD_C, SPAN.temperatureC, (member) =>
      step.verb === 'stretch' ? setting(member, name) + member.supposed.stretchWaterOffsetC : setting(member, name),
    );
  }
  if (sample !== 'milk' && sample !== 'curd' && sample !== 'whey') return [];
  if (step.verb === 'stretch')
    return plain(
      WATER_SD_C,
      SPAN.temperatureC,
      (member) => stretchedC(member) + member.supposed.inputs.thermometerBiasC,
    );
  if (step.heating === 'heat-up') {
    // On the way up it tells of burner and pot; at the end, of what the maker took for warm.
    const isEnd = step.endedMin !== null && elapsedMin > step.endedMin - NEAR_END_MIN;
    return isEnd ? plain(WARM_END_SD_C, SPAN.temperatureC, (member) => setting(member, 'toC')) : [];
  }
  // As the member's own thermometer would have shown it.
  return plain(KEPT_SD_C, SPAN.temperatureC, walked);
}
