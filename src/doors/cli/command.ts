/** The command `vatside`: one verb, its flags, an answer. Nothing is loaded before it is asked for. */
import { InputError } from '../../numbers/validity.ts';
import { StoreTooNewError, StoreUnreachableError } from '../../store/port.ts';
import { codeOf, errorsText, tellUsage } from './errors.ts';
import { HELP } from './help.ts';
import { EXIT, UsageError, type World } from './world.ts';

type Command = (world: World, args: readonly string[]) => number | Promise<number>;

const COMMANDS: Readonly<Record<string, () => Promise<Command>>> = {
  plan: async () => (await import('./plan.ts')).planCommand,
  day: async () => (await import('./day.ts')).dayCommand,
  solve: async () => (await import('./solve.ts')).solveCommand,
  makes: async () => (await import('./makes.ts')).makesCommand,
  calc: async () => (await import('./calc.ts')).calcCommand,
  advise: async () => (await import('./advise.ts')).adviseCommand,
  replay: async () => (await import('./replay.ts')).replayCommand,
  explain: async () => (await import('./explain.ts')).explainCommand,
  export: async () => (await import('./export.ts')).exportCommand,
  import: async () => (await import('./import.ts')).importCommand,
  backup: async () => (await import('./backup.ts')).backupCommand,
  restore: async () => (await import('./restore.ts')).restoreCommand,
  share: async () => (await import('./share.ts')).shareCommand,
  batches: async () => (await import('./batches.ts')).batchesCommand,
  serve: async () => (await import('./serve.ts')).serveCommand,
};

/**
 * Runs one command line.
 * @returns the exit code: 0 answered, 1 a fault of the program or a store of a newer one, 2 bad input, 3 outside what a model can answer
 */
export async function main(world: World): Promise<number> {
  const [name, ...args] = world.argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    world.out(HELP);
    return name === undefined ? EXIT.badInput : EXIT.answered;
  }
  if (name === '--version' || name === '-v') {
    world.out(`${(await import('./version.ts')).versionOf(world)}\n`);
    return EXIT.answered;
  }
  const load = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (load === undefined) {
    return tellUsage(world, new UsageError(`there is no command "${name}". Commands: ${Object.keys(COMMANDS).join(', ')}.`)); // prettier-ignore
  }
  try {
    return await (
      await load()
    )(world, args);
  } catch (error) {
    if (error instanceof UsageError) return tellUsage(world, error);
    if (error instanceof InputError) {
      world.err(errorsText({ error }));
      return codeOf(error);
    }
    if (error instanceof StoreTooNewError) {
      world.err(`vatside: ${error.message}\n`);
      return EXIT.badInput;
    }
    if (error instanceof StoreUnreachableError) {
      world.err(`vatside: ${error.message}\n`);
      return EXIT.failed;
    }
    const why = error instanceof Error ? error.message : String(error);
    world.err(
      `vatside: a fault in the program: ${why}\nNothing was changed. Please report it with the command you gave.\n`,
    );
    return EXIT.failed;
  }
}
