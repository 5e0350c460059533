import type { Kysely, Selectable } from 'kysely';
import { ROLES } from '../record/may-note.ts';
import type { AccessStore, PairedDevice } from './access.ts';
import type { SqlEngine } from './sql-engine.ts';
import type { Tables } from './sql-schema.ts';

/** Access kept in a table beside the events; the same statements on every SQL engine. */
export function sqlAccess(input: { readonly db: Kysely<Tables>; readonly engine: SqlEngine }): AccessStore {
  const { db, engine } = input;
  const find = async (id: string): Promise<PairedDevice | null> => {
    const row = await db.selectFrom('paired_devices').selectAll().where('id', '=', id).executeTakeFirst();
    return row === undefined ? null : deviceOf(row);
  };
  return {
    add: (device) =>
      engine.run(async () => {
        const { numInsertedOrUpdatedRows: added } = await db
          .insertInto('paired_devices')
          .values(rowOf(device))
          .onConflict((conflict) => conflict.doNothing())
          .executeTakeFirstOrThrow();
        // Run again after an answer that was lost, it stands there already.
        const isThere = added === 0n && (await find(device.id))?.secretHash === device.secretHash;
        if (added === 0n && !isThere) throw new Error(`A device with the id ${device.id} is paired already.`);
      }),
    find: (id) => engine.run(() => find(id)),
    list: () =>
      engine.run(async () => {
        const rows = await db.selectFrom('paired_devices').selectAll().orderBy('paired_at').orderBy('id').execute();
        return rows.map(deviceOf);
      }),
    seen: ({ id, at }) =>
      engine.run(async () => {
        const changed = db.updateTable('paired_devices').set({ seen_at: at });
        await changed.where('id', '=', id).where('seen_at', '<', at).execute();
      }),
    remove: (id) =>
      engine.run(async () => {
        const removed = await db.deleteFrom('paired_devices').where('id', '=', id).executeTakeFirstOrThrow();
        return removed.numDeletedRows > 0n;
      }),
  };
}

type Row = Selectable<Tables['paired_devices']>;

const rowOf = (device: PairedDevice): Row => ({
  id: device.id,
  name: device.name,
  role: device.role,
  secret_hash: device.secretHash,
  paired_at: device.pairedAt,
  seen_at: device.seenAt,
  log_device: device.logDevice,
});

/** A role that this program does not know may do the least. */
const deviceOf = (row: Row): PairedDevice => ({
  id: row.id,
  name: row.name,
  role: ROLES.find((role) => role === row.role) ?? 'reader',
  secretHash: row.secret_hash,
  pairedAt: row.paired_at,
  seenAt: row.seen_at,
  logDevice: row.log_device,
});
