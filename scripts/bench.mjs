// npm run bench [-- --json]: how long a forecast takes, beside a general ODE library. The bench is bundled first, as the web
// app is: what is timed is the code as it ships, not the loader that runs the checkout.
import { join } from 'node:path';
import { ensureInstalled, root, run } from './install.mjs';

ensureInstalled();
const { build } = await import('vite');
await build({
  root,
  configFile: false,
  logLevel: 'error',
  build: {
    ssr: 'bench/forecast.ts',
    outDir: '.build/bench',
    emptyOutDir: true,
    target: 'node20',
    rollupOptions: { output: { entryFileNames: 'forecast.mjs' } },
  },
});
process.exitCode = run(process.execPath, [join(root, '.build', 'bench', 'forecast.mjs'), ...process.argv.slice(2)]);
