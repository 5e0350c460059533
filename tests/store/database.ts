import { randomBytes } from 'node:crypto';
import { Client } from 'pg';

/** An empty place in the tests' PostgreSQL database, one schema of its own. */
export interface Schema {
  /** Opens the store, or a server, in this schema alone. */
  readonly url: string;
  /** Runs one statement beside the store, and gives its rows. */
  readonly run: (statement: string) => Promise<readonly unknown[]>;
  readonly remove: () => Promise<void>;
}

const NAME = 'VATSIDE_TEST_DATABASE_URL';

/** @throws an error that says how to come by a database */
export async function newSchema(): Promise<Schema> {
  const given = process.env[NAME] ?? '';
  if (given === '') {
    throw new Error(
      `${NAME} names no database: npm test starts one, and so does node scripts/postgres.mjs npx vitest run …`,
    );
  }
  const name = `vatside_${randomBytes(6).toString('hex')}`;
  const url = new URL(given);
  url.searchParams.set('options', `-c search_path=${name}`);
  // So that what is done to this schema's own connections leaves those of other tests alone.
  url.searchParams.set('application_name', name);
  const run = async (statement: string): Promise<readonly unknown[]> => {
    const client = new Client({ connectionString: url.href });
    await client.connect();
    try {
      return (await client.query<object>(statement)).rows;
    } finally {
      await client.end();
    }
  };
  await run(`create schema ${name}`);
  return { url: url.href, run, remove: async () => void (await run(`drop schema ${name} cascade`)) };
}
