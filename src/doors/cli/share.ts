/** `vatside share`: a link that opens Plan with a whole question. */
import { questionAddress } from '../../exchange/share/question-link.ts';
import { planMake } from '../../make/planning.ts';
import { InputError } from '../../numbers/validity.ts';
import { codeOf, errorsText } from './errors.ts';
import { SHARE_HELP } from './export-help.ts';
import { readFlags } from './flags.ts';
import { makeIds, readMake } from './make-files.ts';
import { ANSWER_OPTIONS, answersFrom, flagFor } from './plan-answers.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = { ...ANSWER_OPTIONS, at: { type: 'string' }, help: { type: 'boolean', short: 'h' } } as const;
const USUAL_PLACE = 'http://localhost:4711'; // where `vatside serve` stands unless it is told otherwise

/** Prints one address. The question is worked out first, so that no link is handed on that cannot be planned. */
export function shareCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'share' });
  if (values.help === true) {
    world.out(SHARE_HELP);
    return EXIT.answered;
  }
  const [named, ...more] = positionals;
  if (named === undefined || more.length > 0) throw new UsageError(`name one make: vatside share <make> --milk 4L. Makes: ${makeIds().join(', ')}.`); // prettier-ignore
  const base = values.at ?? USUAL_PLACE;
  if (!/^https?:\/\/[^\s#?]+$/.test(base)) throw new UsageError(`--at ${base}: expected an address such as ${USUAL_PLACE}.`); // prettier-ignore
  try {
    const make = readMake(world, named);
    const answers = answersFrom(values);
    planMake({ make, answers });
    world.out(`${questionAddress({ base, question: { makeId: make.id, answers } })}\n`);
    return EXIT.answered;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    world.err(errorsText({ error, flagOf: flagFor }));
    return codeOf(error);
  }
}
