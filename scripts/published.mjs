// npm run published: every published value beside the model's, with source and tolerance; exit 1 on an unlisted miss.
import { ensureInstalled, run } from './install.mjs';

ensureInstalled();
process.exitCode = run(process.execPath, ['--import', 'tsx', 'scripts/published.ts', ...process.argv.slice(2)]);
