import { describe } from 'vitest';
import { openPostgresStore } from '../../src/store/postgres.ts';
import { newSchema } from './database.ts';
import { bringsForward } from './released.ts';

describe('a newer program with an older PostgreSQL database', () => {
  bringsForward(async () => {
    const schema = await newSchema();
    return {
      run: async (statements) => void (await schema.run(statements)),
      open: () => openPostgresStore({ url: schema.url, nowMs: 0 }),
      remove: schema.remove,
    };
  });
});
