// npm run makes: every make simulated with typical milk; how its aims come out, at a stranger's and in a learned kitchen.
import { ensureInstalled, run } from './install.mjs';

ensureInstalled();
process.exitCode = run(process.execPath, ['--import', 'tsx', 'scripts/makes.ts', ...process.argv.slice(2)]);
