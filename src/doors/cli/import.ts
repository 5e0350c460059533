/** `vatside import`: what copies hold, into the store that is there. */
import { sayIn } from './catalogues.ts';
import { DATA_OPTION, storeAt, withStore } from './copy/chosen.ts';
import { kindOfFile } from './copy/read-copy-file.ts';
import { checkCopy, takeCopy } from './copy/take-in.ts';
import { tellingFaults } from './copy/told-faults.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { IMPORT_HELP } from './leaving-help.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = { ...DATA_OPTION, ...LANGUAGE_OPTIONS, help: { type: 'boolean', short: 'h' } } as const;

/** Looks every file through before it writes anything of any of them. */
export async function importCommand(world: World, args: readonly string[]): Promise<number> {
  const { values, positionals: files } = readFlags({ args, options: OPTIONS, command: 'import' });
  if (values.help === true) {
    world.out(IMPORT_HELP);
    return EXIT.answered;
  }
  if (files.length === 0) throw new UsageError('give one file or more: vatside import <file>...');
  const say = sayIn(languageOf(world, values));
  return tellingFaults(world, async () => {
    // A slip in a name makes no store.
    for (const file of files) await kindOfFile(file);
    return withStore({ at: storeAt(values.data), now: world.now() }, async (store) => {
      for (const file of files) await checkCopy(store, file);
      for (const file of files) {
        const { demo, ...counts } = await takeCopy(store, file);
        world.out(`${say('leaving:import.done', { file, ...counts })}\n`);
        if (demo > 0) world.out(`${say('leaving:import.demo', { count: demo })}\n`);
      }
      return EXIT.answered;
    });
  });
}
