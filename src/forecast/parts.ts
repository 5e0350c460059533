import { courseOf } from './course.ts';
import { rowAt } from './draw.ts';
import { ensembleSteps } from './ensemble.ts';
import { groundOf } from './inputs.ts';
import { runSizes } from './member.ts';
import { runBytes, runIn, type MemberRun, type RunSizes } from './run.ts';
import { answerOf, benchOf, setOut, type SimulateInput } from './simulate.ts';
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

/** What the members ask of whoever has a second core: to send a part there, or what came back of the one sent last. */
export type PartsAsk = { readonly send: Part } | 'bring';

/** A forecast's members on their way: asks come out, `runPart`'s answers go in (nothing for a sending). */
export type PartsSteps = Generator<PartsAsk, Stored, ArrayBuffer | null>;

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
 * The members of a forecast, half of each draw run elsewhere. While a part is away, the rest is run here: send it before
 * asking for the next step.
 * @returns the same as `storeMembers`, to the bit
 */
export function* storeInParts(input: SimulateInput): PartsSteps {
  const { drawing, groundOnce, ...set } = setOut(input);
  const { plan, history = NO_HISTORY, stepMin } = input;
  const make = { plan, history, ...(stepMin === undefined ? {} : { stepMin }) };
  const sizes = runSizes(set.course);
  const steps = ensembleSteps(drawing);
  let step = steps.next();
  while (step.done !== true) {
    const rows = step.value;
    const count = rows.length / DIMENSIONS;
    const here = count < FEWEST_TO_SEND ? count : count - Math.floor(ELSEWHERE_SHARE * count);
    if (here < count) yield { send: { make, rows: rows.slice(here * DIMENSIONS) } };
    const answers = [...drawing.runAll(rows.subarray(0, here * DIMENSIONS))];
    if (here < count) answers.push(...runsIn((yield 'bring') ?? new ArrayBuffer(0), sizes).map(answerOf));
    if (answers.length !== count) throw new Error(`${count} members were drawn and ${answers.length} came back`);
    step = steps.next(answers);
  }
  return { ...set, ground: groundOnce(), ensemble: step.value, input };
}
