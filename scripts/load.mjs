// npm run load [-- --minutes 1] [--batches 10000] [--only vats|growth] [--keep]: 200 vats with 1,000 devices on one server, and a store that grows
// to 100,000 batches; docs/reliability/load.json. The same parts that `npm run faults` runs, with a PostgreSQL where its programs are.
import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { buildServer } from './build-server.mjs';
import { ensureInstalled, run } from './install.mjs';
import { ensurePostgres, startPostgres } from './postgres.mjs';

const FULL = { minutes: 5, batches: 100_000 };
const { values } = parseArgs({ options: { minutes: { type: 'string' }, batches: { type: 'string' }, only: { type: 'string' }, keep: { type: 'boolean' } } }); // prettier-ignore
ensureInstalled();
await buildServer();
const parts = { vats: Number(values.minutes ?? FULL.minutes) / FULL.minutes, growth: Number(values.batches ?? FULL.batches) / FULL.batches }; // prettier-ignore
const asked = Object.entries(parts).filter(([name]) => values.only === undefined || values.only === name);
if (asked.length === 0 || asked.some(([, share]) => !(share > 0 && share <= 1))) {
  console.error('npm run load -- [--minutes 0.5 to 5] [--batches 1000 to 100000] [--only vats|growth] [--keep]');
  process.exit(2);
}
// A database of the machine's own where its programs are there; otherwise SQLite alone, and the run says so.
const postgres = asked.some(([name]) => name === 'vats') && existsSync('/usr/lib/postgresql') ? await startPostgres(ensurePostgres()) : undefined; // prettier-ignore
try {
  const env = { ...process.env, ...(postgres === undefined ? {} : { VATSIDE_TEST_DATABASE_URL: postgres.url }) };
  for (const [name, share] of asked) {
    const args = ['--import', 'tsx', 'tests/faults/run.ts', name, '--share', String(share), ...(values.keep === true ? ['--keep'] : [])]; // prettier-ignore
    if (run(process.execPath, args, { env }) !== 0) process.exitCode = 1;
  }
} finally {
  postgres?.stop();
}
