/** SQLite's own number for "database or disk is full". Result codes of SQLite, `SQLITE_FULL`. [from memory, not seen] */
const SQLITE_FULL = 13;
/** PostgreSQL's `disk_full`. PostgreSQL documentation, appendix A, error codes. [from memory, not seen] */
const POSTGRES_DISK_FULL = '53100';

/** Whether a store's complaint is that there is no room: nothing of the change was written, and what was there is there. */
export function isDiskFull(error: unknown): boolean {
  if (typeof error !== 'object' || error === null) return false;
  if ('errcode' in error && typeof error.errcode === 'number' && (error.errcode & 0xff) === SQLITE_FULL) return true;
  if ('code' in error && (error.code === POSTGRES_DISK_FULL || error.code === 'ENOSPC')) return true;
  return 'cause' in error && isDiskFull(error.cause);
}
