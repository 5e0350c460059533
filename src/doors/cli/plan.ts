/** `vatside plan`: amounts, clock and what one gets, from what is known of milk and kit. */
import { planDocument } from '../../exchange/plan-json.ts';
import { planText } from '../../exchange/plan-text.ts';
import { scheduleOf } from '../../exchange/schedule.ts';
import { spoonDelayMin } from '../../exchange/spoon-delay.ts';
import { bothUnits } from '../../exchange/text/both-units.ts';
import { openWriter } from '../../exchange/written.ts';
import { simulate } from '../../forecast/simulate.ts';
import { planMake } from '../../make/planning.ts';
import { InputError } from '../../numbers/validity.ts';
import { bookIn, sayIn } from './catalogues.ts';
import { codeOf, errorsText } from './errors.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { makeIds, readMake } from './make-files.ts';
import { ANSWER_OPTIONS, answersFrom, flagFor } from './plan-answers.ts';
import { PLAN_HELP } from './plan-help.ts';
import { wishFrom } from './plan-when.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  ...ANSWER_OPTIONS,
  start: { type: 'string' }, 'done-by': { type: 'string' }, date: { type: 'string' },
  seed: { type: 'string' }, members: { type: 'string' }, ...LANGUAGE_OPTIONS,
  json: { type: 'boolean' }, text: { type: 'boolean' }, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

export const WIDTH = { least: 64, usual: 96, most: 110 } as const;

/** Plans one make and prints the sheet, or the same as JSON. */
export function planCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'plan' });
  if (values.help === true) {
    world.out(PLAN_HELP);
    return EXIT.answered;
  }
  const [named, ...more] = positionals;
  if (named === undefined) throw new UsageError(`name the make: vatside plan <make> --milk 12L. Makes: ${makeIds().join(', ')}.`); // prettier-ignore
  if (more.length > 0) throw new UsageError(`one make at a time; "${more.join(' ')}" is too many.`);
  const language = languageOf(world, values);
  const seed = wholeNumber('seed', values.seed) ?? 1;
  const members = wholeNumber('members', values.members);
  try {
    const make = readMake(world, named);
    const wish = wishFrom({ start: values.start, doneBy: values['done-by'], date: values.date, now: world.now() });
    const plan = planMake({ make, answers: answersFrom(values) });
    const forecast = simulate({ plan, seed, ...(members === undefined ? {} : { members }) });
    const schedule = scheduleOf({ plan, forecast, wish, now: world.now() });
    if (schedule === null) {
      world.err(`vatside: ${sayIn(language)('plan:start.unseen')}\n`);
      return EXIT.outsideModel;
    }
    const units = plan.setup.units === 'us' ? 'us' : 'metric';
    const write = openWriter({ language, units });
    const sheet = {
      plan: values.json === true ? plan : bookIn(language).plan(plan),
      forecast,
      schedule,
      now: world.now(),
      spoonDelayMin: spoonDelayMin({ plan, seed }),
      say: sayIn(language),
      both: bothUnits(units, language),
      write,
      clock: write.clock,
      day: write.day,
      wayToAnswer: (field: string) => flagFor(field) ?? `--set ${field}=`,
      width: Math.min(Math.max(world.columns ?? WIDTH.usual, WIDTH.least), WIDTH.most),
    };
    world.out(values.json === true ? `${JSON.stringify(planDocument(sheet), null, 2)}\n` : planText(sheet));
    return EXIT.answered;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    world.err(errorsText({ error, flagOf: flagFor }));
    return codeOf(error);
  }
}

export function wholeNumber(flag: string, given: string | undefined): number | undefined {
  if (given === undefined) return undefined;
  if (!/^\d{1,9}$/.test(given)) throw new UsageError(`--${flag} ${given}: expected a whole number.`);
  return Number(given);
}
