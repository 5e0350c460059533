/** `vatside solve`: what must come out, and the settings that bring it about. */
import { readQuestion } from '../../exchange/solve/question-text.ts';
import { solveDocument } from '../../exchange/solve/solve-json.ts';
import { solveText } from '../../exchange/solve/solve-text.ts';
import { nameOf, rangeText, valueText, type Telling } from '../../exchange/solve/solve-words.ts';
import { columns, plainSpaces } from '../../exchange/text/layout.ts';
import { openWriter } from '../../exchange/written.ts';
import type { Question, Way } from '../../forecast/question.ts';
import { solve } from '../../forecast/solve.ts';
import { adjustablesOf } from '../../make/adjustable.ts';
import { planMake } from '../../make/planning.ts';
import { InputError, type Problem } from '../../numbers/validity.ts';
import { bookIn, sayIn } from './catalogues.ts';
import { codeOf, errorsText } from './errors.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { makeIds, readMake } from './make-files.ts';
import { ANSWER_OPTIONS, answersFrom, flagFor } from './plan-answers.ts';
import { wholeNumber, WIDTH } from './plan.ts';
import { wishFrom } from './plan-when.ts';
import { SOLVE_HELP } from './solve-help.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  ...ANSWER_OPTIONS,
  aim: { type: 'string', multiple: true }, free: { type: 'string', multiple: true }, chance: { type: 'string' },
  start: { type: 'string' }, date: { type: 'string' }, seed: { type: 'string' }, ...LANGUAGE_OPTIONS,
  list: { type: 'boolean' }, json: { type: 'boolean' }, text: { type: 'boolean' }, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

/** Solves for aims and prints the sheet, or the same as JSON. */
export function solveCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'solve' });
  if (values.help === true) {
    world.out(SOLVE_HELP);
    return EXIT.answered;
  }
  const [named, ...more] = positionals;
  if (named === undefined) throw new UsageError(`name the make: vatside solve <make> --milk 12L --aim ... --free .... Makes: ${makeIds().join(', ')}.`); // prettier-ignore
  if (more.length > 0) throw new UsageError(`one make at a time; "${more.join(' ')}" is too many.`);
  const language = languageOf(world, values);
  const seed = wholeNumber('seed', values.seed) ?? 1;
  try {
    const make = readMake(world, named);
    const answers = answersFrom(values);
    const plan = planMake({ make, answers });
    const { at: zeroAt } = wishFrom({ start: values.start, doneBy: undefined, date: values.date, now: world.now() });
    const adjustables = adjustablesOf(plan);
    const write = openWriter({ language, units: plan.setup.units === 'us' ? 'us' : 'metric' });
    const book = bookIn(language);
    const telling: Telling = { say: sayIn(language), write, plan: book.plan(plan), adjustables: adjustables.map((one) => ({ ...one, name: one.name === null ? null : book.tell(one.name) })), zeroAt }; // prettier-ignore
    const width = Math.min(Math.max(world.columns ?? WIDTH.usual, WIDTH.least), WIDTH.most);
    if (values.list === true) {
      world.out(plainSpaces(`${listLines(telling, width).join('\n')}\n`));
      return EXIT.answered;
    }
    const clock = (text: string): number | null => minutesAfter(text, zeroAt);
    const read = readQuestion({ aims: values.aim ?? [], free: values.free ?? [], clock, adjustables });
    const probability = chanceOf(values.chance);
    const question: Question = { ...read, ...(probability === undefined ? {} : { probability }) };
    const answer = solve({ plan, answers, question, seed });
    const toTake = (way: Way): string => flagsFor(way, telling);
    world.out(values.json === true ? `${JSON.stringify(solveDocument({ question, answer }), null, 2)}\n` : solveText({ ...telling, question, answer, width, toTake })); // prettier-ignore
    return EXIT.answered;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    world.err(errorsText({ error: new InputError(error.problems.map(asTyped)), flagOf: flagFor }));
    return codeOf(error);
  }
}

/** What may be freed, how far, and how it stands. */
function listLines(telling: Telling, width: number): string[] {
  const rows = telling.adjustables.map(({ id, low, high, now }) => [
    id,
    rangeText({ ...telling, id, low, high }),
    now === null ? '' : valueText({ ...telling, id, value: now }),
    nameOf(id, telling).replace(/:$/, ''),
  ]);
  return columns({ rows, width, indent: 0 });
}

/** The flags that put a way into `vatside plan`. */
function flagsFor(way: Way, { adjustables, write, zeroAt, say }: Telling): string {
  return way.settings
    .filter((one) => one.isChanged)
    .map(({ id, value }) => {
      const path = adjustables.find((one) => one.id === id)?.path;
      if (path === undefined) return say('solve:text.takeStart', { at: write.clock(zeroAt + value * 60_000) });
      return `--set ${(path ?? ['changes', id]).join('.')}=${value}`;
    })
    .join(' ');
}

/** A time of day as minutes from the plan's zero: the next time that the clock shows it, the start itself included. */
function minutesAfter(text: string, zeroAt: number): number | null {
  const clock = /^(\d{1,2}):(\d{2})$/.exec(text);
  const [hour, minute] = [Number(clock?.[1] ?? 99), Number(clock?.[2] ?? 99)];
  if (hour > 23 || minute > 59) return null;
  const at = new Date(zeroAt).setHours(hour, minute, 0, 0);
  const minutes = (at - zeroAt) / 60_000;
  return minutes < -HALF_DAY_MIN ? minutes + 2 * HALF_DAY_MIN : minutes;
}
const HALF_DAY_MIN = 720;

function chanceOf(given: string | undefined): number | undefined {
  if (given === undefined) return undefined;
  const share = Number(given);
  if (given.trim() === '' || !Number.isFinite(share)) throw new UsageError(`--chance ${given}: expected a share of makes, such as 0.8.`); // prettier-ignore
  return share;
}

/** Problems of the question, named as they were typed. */
const asTyped = (problem: Problem): Problem => ({
  ...problem,
  field: problem.field.replace(/^aims\[(\d+)\].*|^aims$/, '--aim').replace(/^free\[(\d+)\].*|^free$/, '--free').replace(/^(aim|free)$/, '--$1').replace(/^probability$/, '--chance'),
}); // prettier-ignore
