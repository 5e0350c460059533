// npm start: install if missing, build if stale, create the store, serve on loopback, print the address.
import { ensureInstalled, root, run } from './install.mjs';
import { buildIfStale } from './build.mjs';

ensureInstalled();
await buildIfStale();
process.exitCode = run(
  process.execPath,
  ['--import', 'tsx', 'src/doors/cli/main.ts', 'serve', ...process.argv.slice(2)],
  { cwd: root },
);
