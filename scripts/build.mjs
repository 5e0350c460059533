// npm run build: the web app into dist/web. `buildIfStale` builds only when a source is newer than the last build.
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { ensureInstalled, root, run } from './install.mjs';

const SOURCES = ['src', 'makes', 'words', 'demo', 'vite.config.ts', 'package-lock.json'];

function newest(path) {
  if (!existsSync(path)) return 0;
  const entry = statSync(path);
  if (!entry.isDirectory()) return entry.mtimeMs;
  return readdirSync(path).reduce((latest, name) => Math.max(latest, newest(join(path, name))), 0);
}

export async function buildIfStale() {
  const built = join(root, 'dist', 'web', 'index.html');
  const builtAt = existsSync(built) ? statSync(built).mtimeMs : 0;
  const changedAt = Math.max(...SOURCES.map((source) => newest(join(root, source))));
  if (builtAt > changedAt) return;
  console.log('Building the web app ...');
  const code = run(process.execPath, [
    join(root, 'node_modules', 'vite', 'bin', 'vite.js'),
    'build',
    '--logLevel',
    'warn',
  ]);
  if (code !== 0) process.exit(code);
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  ensureInstalled();
  await buildIfStale();
}
