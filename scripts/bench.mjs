// npm run bench [-- --json]: how long a forecast takes, beside a general ODE library.
import { ensureInstalled, run } from './install.mjs';

ensureInstalled();
process.exitCode = run(process.execPath, ['--import', 'tsx', 'bench/forecast.ts', ...process.argv.slice(2)]);
