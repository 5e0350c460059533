import type { Kysely, Selectable } from 'kysely';
import { ROLES } from '../record/may-note.ts';
import type { AccessStore, PairedDevice } from './access.ts';
import type { Tables } from './sql-schema.ts';

/** Access kept in a table beside the events; the same statements on every SQL engine. */
export function sqlAccess(db: Kysely<Tables>): AccessStore {
  return {
    async add(device) {
      await db.insertInto('paired_devices').values(rowOf(device)).execute();
    },
    async find(id) {
      const row = await db.selectFrom('paired_devices').selectAll().where('id', '=', id).executeTakeFirst();
      return row === undefined ? null : deviceOf(row);
    },
    async list() {
      const rows = await db.selectFrom('paired_devices').selectAll().orderBy('paired_at').orderBy('id').execute();
      return rows.map(deviceOf);
    },
    async seen({ id, at }) {
      await db
        .updateTable('paired_devices')
        .set({ seen_at: at })
        .where('id', '=', id)
        .where('seen_at', '<', at)
        .execute();
    },
    async remove(id) {
      const { numDeletedRows } = await db.deleteFrom('paired_devices').where('id', '=', id).executeTakeFirstOrThrow();
      return numDeletedRows > 0n;
    },
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
