/** `vatside backup`: a copy of the whole store, made while a server may be writing to it. */
import { existsSync, realpathSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import type { CopyCounts } from '../../exchange/copy/copy-format.ts';
import { StoreTooNewError } from '../../store/port.ts';
import { STORE_FORMAT } from '../../store/sql-schema.ts';
import { copySqlite, DamagedFileError, hasLogBeside, lookAtSqlite } from '../../store/sqlite-file.ts';
import { sayIn } from './catalogues.ts';
import { DATA_OPTION, refuseMissing, storeAt, withStore } from './copy/chosen.ts';
import { tellingFaults } from './copy/told-faults.ts';
import { putInPlace, refuseTaken, syncPath, unfinished, writeWhole } from './copy/whole-file.ts';
import { copyParts, cutOf } from './copy/write-copy.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { BACKUP_HELP } from './leaving-help.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  ...DATA_OPTION, ...LANGUAGE_OPTIONS, force: { type: 'boolean' }, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

/** Writes a backup that is whole and on the disk when the command says so. */
export async function backupCommand(world: World, args: readonly string[]): Promise<number> {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'backup' });
  if (values.help === true) {
    world.out(BACKUP_HELP);
    return EXIT.answered;
  }
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) throw new UsageError('give one file: vatside backup <file>.');
  const isForced = values.force === true;
  return tellingFaults(world, async () => {
    const at = storeAt(values.data);
    refuseMissing(at);
    refuseStore(path);
    const { streams, events } =
      at.engine === 'sqlite'
        ? await backUpFile({ file: at.file, path, isForced })
        : await withStore({ at, now: world.now() }, async (store) => {
            const cut = await cutOf(store);
            await writeWhole({ path, parts: copyParts(store, cut), isForced });
            return cut.counts;
          });
    world.out(`${sayIn(languageOf(world, values))('leaving:backup.done', { file: path, from: at.told, streams, events })}\n`); // prettier-ignore
    return EXIT.answered;
  });
}

/** A store at work has a log of its own beside it, which would be read as that of the backup. */
function refuseStore(path: string): void {
  if (hasLogBeside(path)) throw new UsageError(`${path} is a store that is being written to. Choose another name.`);
}

async function backUpFile(input: {
  readonly file: string;
  readonly path: string;
  readonly isForced: boolean;
}): Promise<CopyCounts> {
  const { file, path, isForced } = input;
  const isItself = existsSync(path) && realpathSync(path) === realpathSync(file);
  if (isItself || resolve(path) === resolve(file)) throw new UsageError(`${path} is the store itself. Choose another name.`); // prettier-ignore
  refuseTaken(path, isForced);
  const draft = unfinished(path);
  try {
    await copySqlite({ from: file, to: draft });
    const { format, streams, events } = await lookAtSqlite(draft, file);
    if (format === 0) throw new DamagedFileError({ file, found: 'it has no log in it' });
    if (format > STORE_FORMAT) throw new StoreTooNewError({ found: format, known: STORE_FORMAT });
    syncPath(draft);
    putInPlace({ draft, path, isForced });
    return { streams, events };
  } finally {
    rmSync(draft, { force: true });
  }
}
