/** `vatside restore`: a backup back into an empty folder, in one step. */
import { copyFileSync, constants, existsSync, linkSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { StoreTooNewError } from '../../store/port.ts';
import { STORE_FORMAT } from '../../store/sql-schema.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import { copySqlite, DamagedFileError, hasLogBeside, lookAtSqlite, renewIdentity, settleSqlite, type SqliteLook } from '../../store/sqlite-file.ts'; // prettier-ignore
import { sayIn } from './catalogues.ts';
import type { EventStore } from '../../store/port.ts';
import type { StoreAt } from '../server/open-store.ts';
import { DATA_OPTION, storeAt, withStore } from './copy/chosen.ts';
import { kindOfFile } from './copy/read-copy-file.ts';
import { checkCopy, takeCopy } from './copy/take-in.ts';
import { tellingFaults } from './copy/told-faults.ts';
import { syncPath, unfinished } from './copy/whole-file.ts';
import { cutOf } from './copy/write-copy.ts';
import { readFlags } from './flags.ts';
import { LANGUAGE_OPTIONS, languageOf } from './language.ts';
import { RESTORE_HELP } from './leaving-help.ts';
import { EXIT, UsageError, type World } from './world.ts';

const OPTIONS = {
  ...DATA_OPTION, ...LANGUAGE_OPTIONS, into: { type: 'string' }, replace: { type: 'boolean' }, help: { type: 'boolean', short: 'h' },
} as const; // prettier-ignore

/** Puts a backup in place of an empty store, or of one that is kept aside under a dated name. */
export async function restoreCommand(world: World, args: readonly string[]): Promise<number> {
  const { values, positionals } = readFlags({ args, options: OPTIONS, command: 'restore' });
  if (values.help === true) {
    world.out(RESTORE_HELP);
    return EXIT.answered;
  }
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) throw new UsageError('give one file: vatside restore <file>.');
  if (values.into !== undefined && values.data !== undefined) throw new UsageError('--into and --data say the same: give one of them.'); // prettier-ignore
  return tellingFaults(world, async () => {
    const at = storeAt(values.into ?? values.data);
    const say = sayIn(languageOf(world, values));
    const isReplacing = values.replace === true;
    const { counts, aside } =
      at.engine === 'sqlite'
        ? await restoreFile({ path, file: at.file, isReplacing, now: world.now() })
        : await withStore({ at, now: world.now() }, (store) => restoreDatabase({ path, store, at, isReplacing }));
    world.out(`${say('leaving:restore.done', { file: path, ...counts, into: at.told })}\n`);
    if (aside !== null) world.out(`${say('leaving:restore.aside', { aside })}\n`);
    return EXIT.answered;
  });
}

interface Restored {
  readonly counts: { readonly streams: number; readonly events: number };
  /** Where the store of before is kept; null where there was none. */
  readonly aside: string | null;
}

async function restoreFile(input: { readonly path: string; readonly file: string; readonly isReplacing: boolean; readonly now: number }): Promise<Restored> {
  const { path, file, isReplacing, now } = input;
  const drafts = { whole: unfinished(file), filled: `${unfinished(file)}-filled` };
  try {
    mkdirSync(dirname(file), { recursive: true });
    await isFree({ file, isReplacing });
    const { streams, events } = await prepare({ path, drafts, now });
    // Preparing may take minutes, and somebody may have begun to use the place meanwhile.
    const isEmpty = await isFree({ file, isReplacing });
    const aside = isEmpty ? null : keepAside(file, now);
    renameSync(drafts.whole, file);
    syncPath(dirname(file));
    return { counts: { streams, events }, aside };
  } finally {
    for (const draft of Object.values(drafts)) for (const end of ['', '-wal', '-shm', '-journal']) rmSync(`${draft}${end}`, { force: true });
  }
} // prettier-ignore

/** Into a database that was made for it: there is no file to put in place, so the copy as text is taken in. */
async function restoreDatabase(input: {
  readonly path: string;
  readonly store: EventStore;
  readonly at: StoreAt;
  readonly isReplacing: boolean;
}): Promise<Restored> {
  const { path, store, at, isReplacing } = input;
  if (isReplacing) throw new UsageError('--replace is for a store in a file. Make a new database, name it in VATSIDE_DATABASE_URL and restore into that; the old one stays.'); // prettier-ignore
  if ((await kindOfFile(path)) === 'store') throw new UsageError(`${path} is the backup of a store in a file. Restore it into a folder (--into), write it out with vatside export --all, and restore events.ndjson from there.`); // prettier-ignore
  const { counts } = await cutOf(store);
  if (counts.events > 0) throw new UsageError(`${at.told} has ${counts.events} events in ${counts.streams} streams already. Restore into an empty database, or add to this one with vatside import.`); // prettier-ignore
  await checkCopy(store, path);
  await takeCopy(store, path);
  return { counts: (await cutOf(store)).counts, aside: null };
}

/**
 * True where nothing is lost when another file takes this place.
 * @throws FileInUseError; UsageError where there are events and nobody said to replace them
 */
async function isFree(input: { readonly file: string; readonly isReplacing: boolean }): Promise<boolean> {
  const { file, isReplacing } = input;
  if (!existsSync(file)) {
    const left = journalsOf(file)[0];
    if (left !== undefined) throw new UsageError(`${left} lies there without the store that it belongs to, and would be read as part of the restored one. Move it to where that store is now, or name an empty folder with --into.`); // prettier-ignore
    return true;
  }
  try {
    await settleSqlite(file);
    const { format, streams, events } = await lookAtSqlite(file);
    if (format > 0 && events === 0) return true;
    if (isReplacing) return false;
    throw new UsageError(`${dirname(file)} has ${events} events in ${streams} streams already. Name an empty folder with --into, or keep what is there aside with --replace.`); // prettier-ignore
  } catch (error) {
    // What cannot be read is kept aside all the more.
    if (error instanceof DamagedFileError && isReplacing) return false;
    throw error;
  }
}

/** Makes the new store beside the place it is to have, whole and looked through. */
async function prepare(input: { readonly path: string; readonly drafts: { readonly whole: string; readonly filled: string }; readonly now: number }): Promise<SqliteLook> {
  const { path, drafts, now } = input;
  const { whole: draft, filled } = drafts;
  const kind = await kindOfFile(path);
  if (kind === 'store') {
    if (hasLogBeside(path)) throw new UsageError(`${path} is a store at work and no backup: some of it stands in ${path}-wal. Make a backup with vatside backup.`);
    copyFileSync(path, draft, constants.COPYFILE_EXCL);
  } else {
    // A copy as text, or something that its reader will name.
    const store = await openSqliteStore({ file: filled, nowMs: now });
    try {
      await checkCopy(store, path);
      await takeCopy(store, path);
    } finally {
      await store.close();
    }
    await copySqlite({ from: filled, to: draft });
  }
  if (kind === 'store') await settleSqlite(draft, path);
  const look = await lookAtSqlite(draft, path);
  if (look.format === 0) throw new DamagedFileError({ file: path, found: 'it is a database of another program' });
  if (look.format > STORE_FORMAT) throw new StoreTooNewError({ found: look.format, known: STORE_FORMAT });
  await renewIdentity(draft);
  syncPath(draft);
  return look;
} // prettier-ignore

/** What the engine left beside a file that was not closed; it is read as part of whatever file has that name. */
const journalsOf = (file: string): string[] =>
  ['-wal', '-journal'].map((end) => `${file}${end}`).filter((path) => existsSync(path) && statSync(path).size > 0);

/** Gives what is there a second, dated name, so that there is a store under the first one at every moment. */
function keepAside(file: string, now: number): string {
  const aside = join(dirname(file), `vatside.${new Date(now).toISOString().replaceAll(/[:.]/g, '-')}.sqlite`);
  try {
    linkSync(file, aside);
  } catch {
    copyFileSync(file, aside, constants.COPYFILE_EXCL);
  }
  syncPath(aside);
  // Of a store too damaged to be closed properly.
  for (const journal of journalsOf(file)) renameSync(journal, `${aside}${journal.slice(file.length)}`);
  return aside;
}
