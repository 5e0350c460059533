import { courseOf } from './course.ts';
import { rowAt, type MemberAnswer } from './draw.ts';
import { ensembleSteps, runAll } from './ensemble.ts';
import { groundOf } from './inputs.ts';
import { runSizes } from './member.ts';
import { runBytes, runIn, type MemberRun, type RunSizes } from './run.ts';
import { answerOf, benchOf, setOut, type Members, type SimulateInput } from './simulate.ts';
import type { Stored } from './stored-members.ts';
import { DIMENSIONS } from './uncertain.ts';
import { NO_HISTORY } from '../make/history.ts';

/**
 * One forecast's members run in two places at once. Members know nothing of each other, so half of them can be run on another
 * core, by whatever door has one; what comes out does not differ by a bit from what one core alone would say.
 */

/** Members to be run elsewhere. Plain data, to be sent. */
export interface Part {
  readonly make: Pick<SimulateInput, 'plan' | 'history' | 'stepMin'>;
  /** One row of uncertain inputs a member. */
  readonly rows: Float64Array<ArrayBuffer>;
}

/** Runs a part somewhere else and brings back what `runPart` gives there. */
export type RunElsewhere = (part: Part) => Promise<ArrayBuffer>;

const ELSEWHERE_SHARE = 0.48; // a little less than half, for the way there and back: our own choice
const FEWEST_TO_SEND = 60; // fewer members are run sooner than sent; our own choice

/** Runs every member of a part, all in one piece of memory. */
export function runPart({ make, rows }: Part): ArrayBuffer {
  const course = courseOf({ plan: make.plan, history: make.history ?? NO_HISTORY });
  const bench = benchOf(course, groundOf(make.plan), make.stepMin);
  const bytes = runBytes(runSizes(course));
  const count = rows.length / DIMENSIONS;
  const memory = new ArrayBuffer(count * bytes);
  for (let i = 0; i < count; i++) bench.run(rowAt(rows, i), { memory, from: i * bytes });
  return memory;
}

/** The runs of a part, as `runPart` laid them out. */
function runsIn(memory: ArrayBuffer, sizes: RunSizes): MemberRun[] {
  const bytes = runBytes(sizes);
  return Array.from({ length: memory.byteLength / bytes }, (_, i) => runIn(sizes, memory, i * bytes));
}

/**
 * The members of a forecast, half of each draw run elsewhere.
 * @returns the same as `membersOf`, to the bit
 * @throws what `elsewhere` throws; nothing is kept then
 */
export async function membersTogether(input: SimulateInput, elsewhere: RunElsewhere): Promise<Members> {
  const { drawing, ...set } = setOut(input);
  const { plan, history = NO_HISTORY, stepMin } = input;
  const make = { plan, history, ...(stepMin === undefined ? {} : { stepMin }) };
  const sizes = runSizes(set.course);
  const steps = ensembleSteps(drawing);
  let step = steps.next();
  while (step.done !== true) {
    const rows = step.value;
    const count = rows.length / DIMENSIONS;
    const here = count < FEWEST_TO_SEND ? count : count - Math.floor(ELSEWHERE_SHARE * count);
    const sent = here === count ? null : elsewhere({ make, rows: rows.slice(here * DIMENSIONS) });
    const answers: MemberAnswer<MemberRun>[] = runAll(rows.subarray(0, here * DIMENSIONS), drawing.run);
    if (sent !== null) answers.push(...runsIn(await sent, sizes).map(answerOf));
    step = steps.next(answers);
  }
  return { ...set, ensemble: step.value };
}

/** The same, kept for the next reading. */
export const storeTogether = async (input: SimulateInput, elsewhere: RunElsewhere): Promise<Stored> => ({
  ...(await membersTogether(input, elsewhere)),
  input,
});
