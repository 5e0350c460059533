import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { Telling } from '../vat/said.ts';
import type { Course, CoursePoint } from './compare-course.ts';
import { ALIGNMENTS, momentMin, type Alignment } from './compare-moment.ts';
import { differenceRows, differenceSentence, type DifferenceRow } from './compare-told.ts';

/** One line of the plot, with the words at its end. */
export interface CompareLine {
  readonly id: string;
  readonly label: string;
  readonly isMine: boolean;
  readonly isWorkedOut: boolean;
  readonly points: readonly CoursePoint[];
}

/** A batch beside others of its make. */
export interface CompareView {
  /** The difference with its numbers; null where too little is known. */
  readonly sentence: string | null;
  /** The two readings that would say more; null where the acid was read well enough. */
  readonly help: string | null;
  /** pH, or how many steps were over, where nobody has a meter. */
  readonly plotted: 'pH' | 'steps';
  readonly lines: readonly CompareLine[];
  /** Exactly what is plotted. */
  readonly numbers: readonly (readonly string[])[];
  readonly rows: readonly DifferenceRow[];
}

type Words = Pick<Telling, 'say' | 'write'>;

/** What two batches can be laid on: the rennet where both have it, else whatever they share; the clock is always there. */
export function alignmentsOf(
  batches: readonly { readonly record: BatchRecord; readonly plan: Plan }[],
): readonly Alignment[] {
  const [mine, ...others] = batches;
  if (mine === undefined) return ['clock'];
  const has = (batch: { readonly record: BatchRecord; readonly plan: Plan }, alignment: Alignment): boolean => momentMin({ ...batch, alignment }) !== null; // prettier-ignore
  return ALIGNMENTS.filter(
    (alignment) =>
      has(mine, alignment) && (others.length === 0 ? alignment !== 'firstReading' : others.some((other) => has(other, alignment))), // prettier-ignore
  );
}

/** How a batch is called beside others: its day; with its pot where two are of one day, with its year where it is another. */
export function batchLabels(records: readonly BatchRecord[], { write }: Pick<Telling, 'write'>): readonly string[] {
  const years = new Set(records.map(({ zeroAt }) => new Date(zeroAt).getFullYear()));
  const days = records.map(({ zeroAt }) => (years.size > 1 ? `${write.shortDate(zeroAt)} ${new Date(zeroAt).getFullYear()}` : write.shortDate(zeroAt))); // prettier-ignore
  return records.map(({ name }, index) => {
    const day = days[index] ?? '';
    return days.filter((one) => one === day).length > 1 ? `${day} ${name}` : day;
  });
}

/** The whole comparison in words and lines. */
export function compareView(input: {
  readonly mine: Course;
  readonly others: readonly Course[];
  readonly plan: Plan;
  readonly alignment: Alignment;
  readonly words: Words;
}): CompareView {
  const { mine, others, plan, alignment, words } = input;
  const { say, write } = words;
  const timeText = (minutes: number): string => timeWords({ minutes, alignment, words });
  const isRead = [mine, ...others].some(({ isWorkedOut }) => !isWorkedOut);
  const plotted = plan.setup.pHMeter || isRead ? 'pH' : 'steps';
  const all = [mine, ...others].map((course) => lineOf(course, plotted, course === mine, plan));
  const lines = all.filter(({ points }) => points.length > 0);
  const told = { mine, others, plan, telling: words };
  return {
    sentence: differenceSentence(told),
    help: mine.isWorkedOut ? helpText(plan, words) : null,
    plotted,
    lines,
    numbers: lines.flatMap((line) =>
      line.points.map(({ atMin, value }) => [
        line.label,
        timeText(atMin),
        plotted === 'pH' ? write.pH(value).number : say('compare:step', { number: value, name: plan.steps[value - 1]?.name ?? '' }), // prettier-ignore
        say(line.isWorkedOut ? 'compare:basis.worked' : plotted === 'pH' ? 'compare:basis.read' : 'compare:basis.noted'), // prettier-ignore
      ]),
    ),
    rows: differenceRows({ ...told, timeText }),
  };
}

/** A time on the clock, or after the shared moment. */
export function timeWords(input: {
  readonly minutes: number;
  readonly alignment: Alignment;
  readonly words: Words;
}): string {
  const { minutes, alignment, words } = input;
  const whole = Math.round(minutes);
  if (alignment === 'clock') return words.write.clock(new Date(2000, 0, 1, 0, whole).getTime());
  const length = words.write.duration(Math.abs(whole));
  return whole < 0 ? `\u2212${length}` : length;
}

function lineOf(course: Course, plotted: CompareView['plotted'], isMine: boolean, plan: Plan): CompareLine {
  const { id, label } = course;
  if (plotted === 'pH') return { id, label, isMine, isWorkedOut: course.isWorkedOut, points: course.points };
  const points = plan.steps.flatMap((step, index) => {
    const end = course.ends.find(({ stepId }) => stepId === step.id);
    return end === undefined ? [] : [{ atMin: end.value, value: index + 1 }];
  });
  return { id, label, isMine, isWorkedOut: course.isPlan, points };
}

/** The last two places of the make where a reading, or a look, would have told most. */
function helpText(plan: Plan, { say }: Words): string | null {
  const wanted = plan.setup.pHMeter ? 'pH' : 'judgement';
  const found = plan.steps.flatMap((step) => {
    const watch = step.watch.find(({ quantity }) => quantity === wanted);
    if (watch === undefined) return [];
    const what = wanted === 'pH' ? say('record:quantity.pH') : say(`record:judgement.${watch.judgement ?? 'tang'}`);
    return [say('compare:help.one', { what, step: step.name })];
  });
  const [first, second] = found.slice(-2);
  return first === undefined || second === undefined ? null : say('compare:help.two', { first, second });
}
