/** What can go wrong with files, disks and stores, in one line each: it is no fault of the program's. */
import { StoreTooNewError, StoreUnreachableError } from '../../../store/port.ts';
import { DamagedFileError, FileInUseError } from '../../../store/sqlite-file.ts';
import { EXIT, type World } from '../world.ts';
import { TakingStoppedError } from './take-in.ts';
import { hasCode } from './whole-file.ts';

/**
 * Runs a command that touches files.
 * @returns 2 where the file or the store is not what the command can work with, 1 where the machine could not do it
 */
export async function tellingFaults(world: World, work: () => Promise<number>): Promise<number> {
  try {
    return await work();
  } catch (error) {
    const code = codeOf(error);
    if (code === null || !(error instanceof Error)) throw error;
    world.err(`vatside: ${error.message}\n`);
    return code;
  }
}

function codeOf(error: unknown): number | null {
  if (error instanceof StoreTooNewError || error instanceof DamagedFileError || error instanceof FileInUseError) return EXIT.badInput; // prettier-ignore
  if (error instanceof TakingStoppedError || error instanceof StoreUnreachableError) return EXIT.failed;
  // The system's own words: no such file, no space left, not allowed.
  if (error instanceof Error && ['ENOENT', 'EISDIR', 'ENOTDIR'].some((name) => hasCode(error, name)))
    return EXIT.badInput;
  const isSystems = error instanceof Error && 'code' in error && typeof error.code === 'string' && /^(E[A-Z]+|SQLITE_\w+|ERR_SQLITE\w*)$/.test(error.code); // prettier-ignore
  return isSystems ? EXIT.failed : null;
}
