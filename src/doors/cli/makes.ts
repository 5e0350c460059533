/** `vatside makes`: what can be made. */
import { columns } from '../../exchange/text/layout.ts';
import { InputError, problemText } from '../../numbers/validity.ts';
import type { Make } from '../../make/make.ts';
import { readFlags } from './flags.ts';
import { makeIds, readMake } from './make-files.ts';
import { EXIT, UsageError, type World } from './world.ts';

export const MAKES_HELP = `vatside makes [--json]

The makes on the shelf: id, name, and what each is.
`;

/** Lists the makes; a broken file is told of and hides no other. */
export function makesCommand(world: World, args: readonly string[]): number {
  const { values, positionals } = readFlags({ args, options: { json: { type: 'boolean' }, help: { type: 'boolean', short: 'h' } }, command: 'makes' }); // prettier-ignore
  if (values.help === true) {
    world.out(MAKES_HELP);
    return EXIT.answered;
  }
  if (positionals.length > 0)
    throw new UsageError(`makes takes no "${positionals[0] ?? ''}". See vatside makes --help.`);
  const makes: Make[] = [];
  for (const id of makeIds()) {
    try {
      makes.push(readMake(world, id));
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      world.err(`makes/${id}.json cannot be read: ${error.problems.map(problemText).join(' ')}\n`);
    }
  }
  if (values.json === true) {
    const list = makes.map(({ id, name, version, status, family, difficulty, about }) => ({ id, name, version, status, family, difficulty, about })); // prettier-ignore
    world.out(`${JSON.stringify(list, null, 2)}\n`);
  } else {
    const rows = makes.map(({ id, name, about }) => [id, name, about]);
    world.out(`${columns({ rows, width: Math.min(world.columns ?? 96, 110), indent: 0 }).join('\n')}\n`);
  }
  return EXIT.answered;
}
