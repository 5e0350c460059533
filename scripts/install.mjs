// Installs what is missing, so that `npm start` and `npm test` are each one command on a fresh clone.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** Runs a command in the checkout, output shown; gives its exit code. */
export function run(command, args, options = {}) {
  const done = spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options });
  if (done.error !== undefined) console.error(`${command}: ${done.error.message}`);
  return done.status ?? 1;
}

/** True when node_modules holds what the lock file asks for. */
function isInstalled() {
  const installed = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installed)) return false;
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const have = JSON.parse(readFileSync(installed, 'utf8')).packages;
  return Object.entries(wanted).every(
    ([path, entry]) => path === '' || entry.optional === true || have[path]?.version === entry.version,
  );
}

/** Installs the locked dependencies when any is missing. */
export function ensureInstalled() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Vatside needs Node 20.19 or newer; this is ${process.versions.node}.`);
    process.exit(1);
  }
  if (isInstalled()) return;
  console.log('Installing what Vatside needs (once) ...');
  const code = run('npm', ['ci', '--no-audit', '--no-fund']);
  if (code !== 0) {
    console.error('npm ci failed: see the lines above. Is the network there?');
    process.exit(code);
  }
}
