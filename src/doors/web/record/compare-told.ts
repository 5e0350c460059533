import type { Plan } from '../../../make/plan.ts';
import type { Telling } from '../vat/said.ts';
import type { Course, CoursePoint, FigureName, StepEnd } from './compare-course.ts';

/** A difference counts by how many of these it holds, so that minutes and grams can be ranked together: our own choice. */
const YARDSTICK = { minutes: 10, pH: 0.1, moisturePoints: 2, saltPoints: 0.2, weightShare: 0.05 } as const;
/** Less than this is no difference worth a word, min: our own choice; a look at the pot is noted to a minute or two. */
const SAME_MIN = 4;
/** A moisture that is worked out is not told apart closer than this, points: our own choice. */
const SAME_POINTS = 1;

/** How far behind a batch was, and to what. */
export interface Lag {
  readonly minutes: number;
  readonly toPH: number | null;
  readonly toStep: string | null;
  /** How many of the others it is held against. */
  readonly of: number;
}

/** One row of the differences, in words. */
export interface DifferenceRow {
  readonly id: string;
  readonly name: string;
  readonly mine: string;
  readonly others: string;
  readonly difference: string;
  /** How large, in yardsticks; only for the order. */
  readonly size: number;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** When a line first comes down to a pH, straight between two of its points; null where it does not. */
export function reachesMin(points: readonly CoursePoint[], pH: number): number | null {
  for (const [index, point] of points.entries()) {
    if (point.value > pH) continue;
    const before = points[index - 1];
    if (before === undefined) return null;
    return before.atMin + ((before.value - pH) / (before.value - point.value)) * (point.atMin - before.atMin);
  }
  return null;
}

/** How far this batch was behind the others: to the lowest pH that it was followed to, else to the last step that all ended. */
export function lagOf(input: {
  readonly mine: Course;
  readonly others: readonly Course[];
  readonly plan: Plan;
}): Lag | null {
  const { mine, others, plan } = input;
  const aim = plan.make.aims.find(({ quantity }) => quantity === 'pH')?.aim;
  if (aim !== undefined && mine.points.length > 1) {
    const lowest = Math.min(...mine.points.map(({ value }) => value));
    const toPH = Math.max(aim, Math.ceil(lowest * 10 - 1e-9) / 10);
    const own = reachesMin(mine.points, toPH);
    const theirs = others.flatMap(({ points }) => reachesMin(points, toPH) ?? []);
    if (own !== null && theirs.length > 0) return { minutes: own - mean(theirs), toPH, toStep: null, of: theirs.length }; // prettier-ignore
  }
  const step = decisive(plan).findLast(({ id }) => endOf(mine, id) !== undefined && others.some((other) => endOf(other, id) !== undefined)); // prettier-ignore
  const end = step === undefined ? undefined : endOf(mine, step.id);
  if (step === undefined || end === undefined) return null;
  const theirs = others.flatMap((other) => endOf(other, step.id)?.value ?? []);
  return { minutes: end.value - mean(theirs), toPH: null, toStep: step.done, of: theirs.length };
}

const endOf = (course: Course, stepId: string): StepEnd | undefined => course.ends.find((end) => end.stepId === stepId);
/** Steps that the milk ends and not the clock. */
const decisive = (plan: Plan): Plan['steps'] => plan.steps.filter(({ until }) => until.of.some(({ kind }) => kind === 'judgement' || kind === 'pH' || kind === 'flocculation')); // prettier-ignore

/** The difference in one or two sentences with numbers; null where there is nothing to hold against each other. */
export function differenceSentence(input: {
  readonly mine: Course;
  readonly others: readonly Course[];
  readonly plan: Plan;
  readonly telling: Pick<Telling, 'say' | 'write'>;
}): string | null {
  const { mine, others, plan, telling } = input;
  const { say, write } = telling;
  const lag = lagOf(input);
  if (lag === null) return null;
  const than = others[0]?.isPlan === true ? say('compare:than.plan') : say('compare:than.others', { count: lag.of });
  const pace = Math.abs(lag.minutes) < SAME_MIN ? 'same' : lag.minutes > 0 ? 'slower' : 'quicker';
  const to = lag.toPH === null ? say('compare:to.step', { step: lag.toStep ?? '' }) : say('compare:to.pH', { pH: write.number(lag.toPH, 1) }); // prettier-ignore
  const moist = moistureText(mine, others, telling);
  const first = say(`compare:sentence.${pace}`, {
    name: mine.label,
    minutes: write.duration(Math.abs(lag.minutes)),
    to,
    than,
    moist: moist ?? '',
  });
  const where = pace === 'same' ? null : slowestStep({ mine, others, plan, isSlower: lag.minutes > 0 });
  if (where === null) return first;
  const longer = where.minutes > 0 ? 'longer' : 'shorter';
  return `${first} ${say(`compare:where.${longer}`, { step: where.name, minutes: write.duration(Math.abs(where.minutes)) })}`;
}

function moistureText(mine: Course, others: readonly Course[], { say, write }: Pick<Telling, 'say' | 'write'>): string | null {
  const own = mine.figures.moisturePercent?.value;
  const theirs = others.flatMap(({ figures }) => figures.moisturePercent?.value ?? []);
  if (own === undefined || theirs.length === 0) return null;
  const points = own - mean(theirs);
  if (Math.abs(points) < SAME_POINTS) return say('compare:moist.same');
  return say(points > 0 ? 'compare:moist.more' : 'compare:moist.less', { count: Math.round(Math.abs(points)), points: write.number(Math.abs(points), 0) });
} // prettier-ignore

/** The step in which most of the difference came about. */
function slowestStep(input: {
  readonly mine: Course;
  readonly others: readonly Course[];
  readonly plan: Plan;
  readonly isSlower: boolean;
}): { readonly name: string; readonly minutes: number } | null {
  const { mine, others, plan, isSlower } = input;
  const last = decisive(plan).at(-1);
  const found = plan.steps.slice(0, last === undefined ? 0 : plan.steps.indexOf(last) + 1).flatMap((step) => {
    const own = endOf(mine, step.id);
    const theirs = others.flatMap((other) => endOf(other, step.id)?.tookMin ?? []);
    return own === undefined || own.value <= 0 || theirs.length === 0 ? [] : [{ name: step.name, minutes: own.tookMin - mean(theirs) }]; // prettier-ignore
  });
  const most = found.sort((a, b) => (isSlower ? b.minutes - a.minutes : a.minutes - b.minutes))[0];
  return most === undefined || Math.abs(most.minutes) < SAME_MIN || most.minutes > 0 !== isSlower ? null : most;
}

const FIGURES: readonly { readonly name: FigureName; readonly yardstick: (of: number) => number }[] = [
  { name: 'moisturePercent', yardstick: () => YARDSTICK.moisturePoints },
  { name: 'pHAtStretch', yardstick: () => YARDSTICK.pH },
  { name: 'cheeseGPerL', yardstick: (of) => of * YARDSTICK.weightShare },
  { name: 'curdGPerL', yardstick: (of) => of * YARDSTICK.weightShare },
  { name: 'saltPercent', yardstick: () => YARDSTICK.saltPoints },
];

/** Every difference between this batch and the others, the largest first. */
export function differenceRows(input: {
  readonly mine: Course;
  readonly others: readonly Course[];
  readonly plan: Plan;
  readonly telling: Pick<Telling, 'say' | 'write'>;
  /** Minutes of a day on the clock, or minutes after the shared moment, in words. */
  readonly timeText: (minutes: number) => string;
}): readonly DifferenceRow[] {
  return [...stepRows(input), ...figureRows(input)].sort((a, b) => b.size - a.size);
}

function stepRows({ mine, others, plan, telling, timeText }: Parameters<typeof differenceRows>[0]): DifferenceRow[] {
  const { say, write } = telling;
  return plan.steps.flatMap((step) => {
    const own = endOf(mine, step.id);
    const theirs = others.flatMap((other) => endOf(other, step.id) ?? []);
    if (own === undefined || own.value <= 0 || theirs.length === 0) return [];
    const lag = own.value - mean(theirs.map(({ value }) => value));
    const inStep = own.tookMin - mean(theirs.map(({ tookMin }) => tookMin));
    const signed = (minutes: number): string => say(minutes > 0 ? 'compare:plus' : 'compare:minus', { amount: write.duration(Math.abs(minutes)) }); // prettier-ignore
    return [
      {
        id: step.id,
        name: say('compare:stepEnd', { step: step.name, done: step.done }),
        mine: timeText(own.value),
        others: spanText(theirs, timeText, say),
        difference: say('compare:ofIt', { all: signed(lag), step: signed(inStep) }),
        size: Math.abs(inStep) / YARDSTICK.minutes,
      },
    ];
  });
}

function figureRows({ mine, others, telling }: Parameters<typeof differenceRows>[0]): DifferenceRow[] {
  const { say, write } = telling;
  const text: Readonly<Record<FigureName, (value: number) => string>> = {
    moisturePercent: (value) => write.percent(value, 0).text,
    saltPercent: (value) => write.percent(value, 1).text,
    pHAtStretch: (value) => write.pH(value).text,
    cheeseGPerL: (value) => say('compare:perL', { grams: write.number(value, 0) }),
    curdGPerL: (value) => say('compare:perL', { grams: write.number(value, 0) }),
  };
  return FIGURES.flatMap(({ name, yardstick }) => {
    const own = mine.figures[name];
    const theirs = others.flatMap(({ figures }) => figures[name] ?? []);
    if (own === undefined || theirs.length === 0) return [];
    const by = own.value - mean(theirs.map(({ value }) => value));
    // Sums do not tell batches apart closer than half a yardstick.
    const isTold = !own.isWorkedOut || Math.abs(by) >= yardstick(own.value) / 2;
    const basis = own.isWorkedOut ? say('compare:worked', { value: text[name](own.value), low: text[name](own.low), high: text[name](own.high) }) : text[name](own.value); // prettier-ignore
    const amount = name === 'moisturePercent' || name === 'saltPercent' ? say('compare:points', { points: write.number(Math.abs(by), 1) }) : text[name](Math.abs(by)); // prettier-ignore
    return [
      {
        id: name,
        name: say(`compare:figure.${name}`),
        mine: basis,
        others: spanText(theirs, text[name], say),
        difference: isTold ? say(by > 0 ? 'compare:plus' : 'compare:minus', { amount }) : say('compare:tooSmall'),
        size: isTold ? Math.abs(by) / yardstick(own.value) : 0,
      },
    ];
  });
}

/** From the least to the most of the others; of one that is worked out, where it lies 9 times in 10. */
function spanText(
  figures: readonly { readonly value: number; readonly low: number; readonly high: number }[],
  text: (value: number) => string,
  say: Telling['say'],
): string {
  const [only, second] = figures;
  const [from, to] = second === undefined && only !== undefined ? [only.low, only.high] : [Math.min(...figures.map(({ value }) => value)), Math.max(...figures.map(({ value }) => value))]; // prettier-ignore
  const [low, high] = [text(from), text(to)];
  return low === high ? low : say('compare:span', { low, high });
}
