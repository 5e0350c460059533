// npm run faults: breaks things on purpose (kills, full disks, a database that goes away, lost networks) and counts what is
// lost; see docs/reliability.md. A cluster of PostgreSQL is started for it, unless --without-postgres is said.
import { buildServer } from './build-server.mjs';
import { ensureInstalled, run } from './install.mjs';
import { ensurePostgres, startPostgres } from './postgres.mjs';

const WITHOUT = '--without-postgres';
ensureInstalled();
await buildServer();
const asked = process.argv.slice(2).filter((one) => one !== WITHOUT);
const parts = asked.filter((one) => /^[a-z]+$/.test(one));
const isWanted =
  !process.argv.includes(WITHOUT) &&
  (parts.length === 0 || ['database', 'vats', 'fuzz'].some((name) => parts.includes(name)));
const postgres = isWanted ? await startPostgres(ensurePostgres()) : null;
try {
  const database =
    postgres === null
      ? {}
      : {
          VATSIDE_TEST_DATABASE_URL: postgres.url,
          VATSIDE_TEST_POSTGRES_DATA: postgres.data,
          VATSIDE_TEST_POSTGRES_PROGRAMS: postgres.programs,
          VATSIDE_TEST_POSTGRES_OPTIONS: postgres.settings,
        };
  const env = { ...process.env, ...database };
  process.exitCode = run(process.execPath, ['--import', 'tsx', 'tests/faults/run.ts', ...asked], { env });
} finally {
  postgres?.stop();
}
