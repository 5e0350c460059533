import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import { seededRandom } from '../../src/numbers/random.ts';
import { Ledger } from './ledger.ts';
import { serve, type Served } from './served.ts';
import { Writer } from './writer.ts';

/** A PostgreSQL cluster of the run's own, which may be restarted. */
export interface Cluster {
  readonly url: string;
  readonly data: string;
  readonly programs: string;
  /** What it is started with: its port and addresses. */
  readonly options: string;
}

/** What restarts of the database came to. */
export interface RestartsFound {
  readonly restarts: number;
  readonly serverKills: number;
  readonly acknowledged: number;
  readonly kept: number;
  /** Pushes answered with "the database is away, come again". */
  readonly putOff: number;
  readonly lost: number;
  readonly duplicated: number;
  readonly failures: readonly string[];
}

/** The cluster that `scripts/faults.mjs` started, where it could. */
export function clusterFrom(environment: Readonly<Record<string, string | undefined>>): Cluster | null {
  const { VATSIDE_TEST_DATABASE_URL: url, VATSIDE_TEST_POSTGRES_DATA: data, VATSIDE_TEST_POSTGRES_PROGRAMS: programs, VATSIDE_TEST_POSTGRES_OPTIONS: options } = environment; // prettier-ignore
  if (url === undefined || data === undefined || programs === undefined || options === undefined) return null;
  return { url, data, programs, options };
}

/** Every so many restarts one of the two servers is killed as well. */
const SERVER_KILL_EVERY = 5;
/** Every so many it stays away for longer than a server waits for it. */
const AWAY_EVERY = 8;
const AWAY_MS = 8000;
const LONGEST_BEFORE_MS = 500;
const AFTER_MS = 300;
const PATIENCE_MS = 30_000;

/** Stops the database as if its machine had lost power, and starts it again, while two servers write to it. */
export async function restartRounds(input: {
  readonly cluster: Cluster;
  readonly rounds: number;
  readonly seed: number;
  readonly tell: (line: string) => void;
}): Promise<RestartsFound> {
  const { cluster, rounds, seed, tell } = input;
  const random = seededRandom(seed);
  const ledger = new Ledger();
  const failures: string[] = [];
  const start = (): Served => serve({ dataDir: '', environment: { VATSIDE_DATABASE_URL: cluster.url } });
  const servers = [start(), start()];
  const writers = ['tablet-1', 'tablet-2', 'phone', 'probe'].map((deviceId, nth) => new Writer({ deviceId, streamId: () => (nth === 0 ? 'batch:make' : 'batch:ash'), random: seededRandom(seed + nth + 1), pauseMs: 5 })); // prettier-ignore
  const held = writers.map(() => 0);
  let serverKills = 0;
  try {
    for (let round = 1; round <= rounds; round++) {
      const urls = await Promise.all(servers.map(({ url }) => url));
      let isOver = false;
      const busy = Promise.all(writers.map((writer, nth) => writer.writeUntil(urls[nth % 2] ?? '', () => isOver)));
      await rest(20 + random.uniform() * LONGEST_BEFORE_MS);
      const restarted = await restart(cluster, round % AWAY_EVERY === 0 ? AWAY_MS : 0);
      if (restarted !== null) failures.push(restarted);
      if (round % SERVER_KILL_EVERY === 0) {
        serverKills++;
        await servers[0]?.kill();
        servers[0] = start();
      }
      await rest(AFTER_MS);
      isOver = true;
      await busy;
      const url = await (servers[round % 2]?.url ?? '');
      await patiently(() => ledger.readOn(url));
      for (const [nth, writer] of writers.entries()) {
        ledger.hold([...writer.acknowledged.values()].slice(held[nth]));
        held[nth] = writer.acknowledged.size;
      }
      if (round % 10 === 0)
        tell(`${round} of ${rounds} restarts, ${held.reduce((sum, count) => sum + count, 0)} acknowledged`);
    }
    const url = await (servers[1]?.url ?? '');
    for (const writer of writers) for (let tries = 0; writer.waiting > 0 && tries < 20; tries++) await writer.send(url);
    await patiently(() => ledger.readOn(url));
    await ledger.readAgain(url);
    await ledger.readAgain(url, 'batch:make');
    for (const writer of writers) ledger.hold(writer.made.values());
  } finally {
    for (const server of servers) await server.kill();
  }
  return {
    restarts: rounds,
    serverKills,
    acknowledged: writers.reduce((sum, { acknowledged }) => sum + acknowledged.size, 0),
    kept: ledger.size,
    putOff: writers.reduce((sum, { statuses }) => sum + (statuses.get(503) ?? 0), 0),
    lost: ledger.lost,
    duplicated: ledger.duplicated,
    failures: [...failures, ...ledger.wrong, ...writers.flatMap(({ wrong }) => wrong)],
  };
}

/** Stops the cluster without letting it finish anything, and starts it again after a while; gives what went wrong. */
async function restart(cluster: Cluster, awayMs: number): Promise<string | null> {
  const stopped = await pgCtl(cluster, ['stop', '-m', 'immediate']);
  if (awayMs > 0) await rest(awayMs);
  const started = await pgCtl(cluster, ['start', '-l', join(cluster.data, '..', 'log')]);
  return stopped === 0 && started === 0 ? null : `the database did not come back (${stopped}, ${started})`;
}

/** Runs PostgreSQL's own control program while everybody goes on writing; gives its exit code. */
function pgCtl({ data, programs, options }: Cluster, args: readonly string[]): Promise<number> {
  const settings = args[0] === 'start' ? ['-o', options] : [];
  const command = [join(programs, 'pg_ctl'), ...args, ...settings, '-D', data, '-w', '-s'];
  const [first = '', ...others] = process.getuid?.() === 0 ? ['runuser', '-u', 'postgres', '--', ...command] : command;
  return new Promise((resolve) => {
    const child = spawn(first, others, { cwd: data, stdio: ['ignore', 'ignore', 'inherit'] });
    child.once('error', () => resolve(-1));
    child.once('exit', (code) => resolve(code ?? -1));
  });
}

/** Tries again while the database comes back. */
async function patiently(work: () => Promise<void>): Promise<void> {
  const until = performance.now() + PATIENCE_MS;
  for (;;) {
    try {
      return await work();
    } catch (error) {
      if (performance.now() > until) throw error;
      await rest(200);
    }
  }
}
