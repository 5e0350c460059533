/** `vatside backup`: a copy of the whole store, made while a server may be writing to it. */
import { existsSync, realpathSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { StoreTooNewError } from '../../store/port.ts';
import { STORE_FORMAT } from '../../store/sql-schema.ts';
import { copySqlite, DamagedFileError, hasLogBeside, lookAtSqlite } from '../../store/sqlite-file.ts';
import { sayIn } from './catalogues.ts';
import { DATA_OPTION, placeOf, refuseMissing, type StorePlace } from './copy/chosen.ts';
import { tellingFaults } from './copy/told-faults.ts';
import { putInPlace, refuseTaken, syncPath, unfinished } from './copy/whole-file.ts';
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
  return tellingFaults(world, async () => {
    const place = placeOf(values.data);
    refuseMissing(place);
    const counts = await backUpFile({ place, path, isForced: values.force === true });
    world.out(`${sayIn(languageOf(world, values))('leaving:backup.done', { file: path, ...counts, from: place.told })}\n`); // prettier-ignore
    return EXIT.answered;
  });
}

async function backUpFile(input: { readonly place: StorePlace; readonly path: string; readonly isForced: boolean }) {
  const { place, path, isForced } = input;
  const isItself = existsSync(path) && realpathSync(path) === realpathSync(place.file);
  if (isItself || resolve(path) === resolve(place.file)) throw new UsageError(`${path} is the store itself. Choose another name.`); // prettier-ignore
  refuseTaken(path, isForced);
  if (hasLogBeside(path)) throw new UsageError(`${path} is a store that is being written to. Choose another name.`);
  const draft = unfinished(path);
  try {
    await copySqlite({ from: place.file, to: draft });
    const { format, streams, events } = await lookAtSqlite(draft, place.file);
    if (format === 0) throw new DamagedFileError({ file: place.file, found: 'it has no log in it' });
    if (format > STORE_FORMAT) throw new StoreTooNewError({ found: format, known: STORE_FORMAT });
    syncPath(draft);
    putInPlace({ draft, path, isForced });
    return { streams, events };
  } finally {
    rmSync(draft, { force: true });
  }
}
