/** What `vatside backup`, `restore` and `import` take. */
export const BACKUP_HELP = `vatside backup <file> [--data folder] [--force]

Copies the whole store into one file while the app may be running and writing: the copy is the store as it stood at one
moment. It is looked through and on the disk before it gets its name; nothing is written over without --force.

Where VATSIDE_DATABASE_URL names a PostgreSQL database there is no file to copy: the backup is then the events as text
(events.ndjson of "vatside export --all"), cut at one moment just the same, and "vatside restore" takes it into an empty
database or a folder.

  vatside backup vatside-monday.sqlite
  vatside restore vatside-monday.sqlite --into elsewhere   to try it out: a backup that was never restored is a hope
`;

export const RESTORE_HELP = `vatside restore <file> [--into folder | --data folder] [--replace]

Puts a backup back, into an empty folder: looked through from end to end first, then in place in one step. A copy as text
("vatside export --all", "Save a copy" in the app) is taken too.

  --into folder   where to; else where "vatside serve" keeps its store: a folder, or the database in VATSIDE_DATABASE_URL,
                  which must be empty and takes copies as text
  --replace       where a store is already: that one is kept beside it under the day and hour, never deleted
Stop "vatside serve" first. A backup of an older program is brought forward when it is next started; one of a newer program
is refused. Devices that were used since the backup hand in what it lacks when they next meet the server; of one that does
not come back, take "Save a copy" to "vatside import".
`;

export const IMPORT_HELP = `vatside import <file>... [--data folder]

Adds what copies hold to the store: events.ndjson of "vatside export --all", or a file of "Save a copy" in the app. Every file
is looked through to its end before anything is written: its sum, every event, and that none contradicts the store. What is
there already is passed over, so that importing twice adds nothing. The worked example is no record and is left out.

A file that was cut off, altered or is something else is refused with the line and the field. Should the machine stop in the
middle, the same command goes on from there.
`;
