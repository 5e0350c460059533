// npm run calibration: are the bands honest? Synthetic makes, other models, published curves; writes docs/calibration.
import { ensureInstalled, run } from './install.mjs';

ensureInstalled();
process.exitCode = run(process.execPath, ['--import', 'tsx', 'scripts/calibration.ts', ...process.argv.slice(2)]);
