import type { Kysely } from 'kysely';
import type { NamedStore } from './identity.ts';
import type { SqlEngine } from './sql-engine.ts';
import type { Tables } from './sql-schema.ts';

/** Which store this is, in a table of one row. */
export function sqlIdentity(input: {
  readonly db: Kysely<Tables>;
  readonly engine: SqlEngine;
}): Pick<NamedStore, 'identity'> {
  const { db, engine } = input;
  return {
    identity: () =>
      engine.run(async () => {
        const { id } = await db.selectFrom('store_identity').select('id').executeTakeFirstOrThrow();
        return id;
      }),
  };
}
