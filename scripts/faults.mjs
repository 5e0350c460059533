// npm run faults: breaks things on purpose (kills, full disks, lost networks) and counts what is lost; docs/reliability.md.
import { buildServer } from './build-server.mjs';
import { ensureInstalled, run } from './install.mjs';

ensureInstalled();
await buildServer();
process.exitCode = run(process.execPath, ['--import', 'tsx', 'tests/faults/run.ts', ...process.argv.slice(2)]);
