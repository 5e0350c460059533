import { spawn, spawnSync, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The command as `scripts/build-server.mjs` bundles it. */
export const SERVER = fileURLToPath(new URL('../../.build/faults/server/main.mjs', import.meta.url));
const BUILD = fileURLToPath(new URL('../../scripts/build-server.mjs', import.meta.url));

/** Bundles the server anew, where no script has done it just before. */
export function bundleServer(): void {
  const built = spawnSync(process.execPath, [BUILD], { encoding: 'utf8' });
  if (built.status !== 0) throw new Error(built.stderr);
}

const LONGEST_START_S = 60;

/** A server in a process of its own, as a maker would start it. */
export interface Served {
  /** Its address, without a slash at the end. @throws where the process ends or stays silent instead */
  readonly url: Promise<string>;
  /** Of its process; 0 where it did not start. */
  readonly pid: number;
  /** Ends it as a power cut would, and waits until the process is gone. */
  readonly kill: () => Promise<void>;
  /** What it said until now, for a report. */
  readonly said: () => string;
  /** Null while it runs; what it ended with, where it ended by itself or by a signal. */
  readonly ended: () => string | null;
}

const running = new Set<ChildProcess>();
// Whatever happens to the run, no server outlives it.
process.on('exit', () => running.forEach((child) => child.kill('SIGKILL')));

/** Starts `vatside serve` on any free port; `dataDir` is its folder, unless the environment names a database. */
export function serve(input: {
  readonly dataDir: string;
  readonly environment?: Readonly<Record<string, string>>;
  /** A program that watches it, with its arguments. */
  readonly under?: readonly string[];
}): Served {
  const { dataDir, environment = {}, under = [] } = input;
  const where = 'VATSIDE_DATABASE_URL' in environment ? [] : ['--data', dataDir];
  const command = [...under, process.execPath, SERVER, 'serve', '--port', '0', '--no-open', ...where];
  const [first = '', ...others] = command;
  const child = spawn(first, others, {
    stdio: ['ignore', 'pipe', 'pipe'],
    // What is watched outlives its watcher, unless both go together.
    detached: under.length > 0,
    env: { ...process.env, LANG: 'en_GB.UTF-8', ...environment },
  });
  running.add(child);
  let said = '';
  let end: string | null = null;
  const gone = new Promise<void>((resolve) => {
    child.once('close', (code, signal) => {
      end = signal ?? `code ${code ?? '?'}`;
      running.delete(child);
      resolve();
    });
  });
  const url = new Promise<string>((resolve, reject) => {
    const hear = (text: string): void => {
      said += text;
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(said);
      if (found !== null) resolve(found[0]);
    };
    child.stdout.setEncoding('utf8').on('data', hear);
    child.stderr.setEncoding('utf8').on('data', hear);
    child.once('error', reject);
    void gone.then(() => reject(new Error(`The server ended by itself (${end ?? ''}): ${said}`)));
    // Counted second by second: a machine that was made to stand still for minutes is no fault of the server's.
    let seconds = 0;
    const clock = setInterval(() => {
      seconds++;
      if (seconds < LONGEST_START_S && end === null) return;
      clearInterval(clock);
      reject(new Error(`The server did not say where it is: ${said}`));
    }, 1000);
    clock.unref();
  });
  // A server that is killed while it opens has nobody waiting for its address.
  url.catch(() => undefined);
  return {
    url,
    pid: child.pid ?? 0,
    async kill() {
      if (end === null && under.length > 0 && child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
      else if (end === null) child.kill('SIGKILL');
      await gone;
    },
    said: () => said,
    ended: () => end,
  };
}
