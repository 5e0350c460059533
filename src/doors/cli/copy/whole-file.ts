/** Files that are there whole or not at all, also after a power cut. */
import { closeSync, existsSync, fsyncSync, linkSync, openSync, renameSync, rmSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { dirname } from 'node:path';
import { UsageError } from '../world.ts';

/** A name beside a file for what is not whole yet; on the same disk, so that it can be moved into place in one step. */
export const unfinished = (path: string): string => `${path}.unfinished-${process.pid}`;

/** @throws UsageError where something is there that nobody said may be written over */
export function refuseTaken(path: string, isForced: boolean): void {
  if (existsSync(path) && !isForced) throw new UsageError(`${path} is there already. Choose another name, or write over it with --force.`); // prettier-ignore
}

/**
 * Writes a text in parts. It has its name only once it is whole and on the disk; a failure leaves nothing behind.
 * @throws UsageError where something is there already
 */
export async function writeWhole(input: {
  readonly path: string;
  readonly parts: AsyncIterable<string> | Iterable<string>;
  readonly isForced: boolean;
}): Promise<void> {
  const { path, parts, isForced } = input;
  refuseTaken(path, isForced);
  const draft = unfinished(path);
  try {
    const file = await open(draft, 'wx');
    try {
      for await (const part of parts) await file.write(part);
      await file.sync();
    } finally {
      await file.close();
    }
    putInPlace({ draft, path, isForced });
  } finally {
    rmSync(draft, { force: true });
  }
}

/** Gives a whole file its name in one step. */
export function putInPlace(input: { readonly draft: string; readonly path: string; readonly isForced: boolean }): void {
  const { draft, path, isForced } = input;
  if (!isForced) nameOnce(draft, path);
  else renameSync(draft, path);
  syncPath(dirname(path));
}

/** A second name for a file, where nothing has it yet: no other program can come between looking and naming. */
function nameOnce(draft: string, path: string): void {
  try {
    linkSync(draft, path);
  } catch (error) {
    if (hasCode(error, 'EEXIST')) refuseTaken(path, false);
    // Sticks and shared folders may know no second names; there, looking first must do.
    refuseTaken(path, false);
    renameSync(draft, path);
  }
}

/** Tells the disk to keep a file, or the names in a folder. */
export function syncPath(path: string): void {
  // Some systems cannot open a folder; their names are kept with the file.
  let handle: number;
  try {
    handle = openSync(path, 'r');
  } catch (error) {
    if (hasCode(error, 'EISDIR') || hasCode(error, 'EPERM')) return;
    throw error;
  }
  try {
    fsyncSync(handle);
  } catch (error) {
    if (!hasCode(error, 'EPERM') && !hasCode(error, 'EINVAL')) throw error;
  } finally {
    closeSync(handle);
  }
}

/** True for an error of the system with this name. */
export const hasCode = (error: unknown, code: string): boolean =>
  error instanceof Error && 'code' in error && error.code === code;
