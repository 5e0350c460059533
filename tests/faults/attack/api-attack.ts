import fc from 'fast-check';
import { z } from 'zod';
import { attacks, type Attack, type Described } from './requests.ts';
import { left } from './left-behind.ts';
import { openTarget, type Target } from './target.ts';
import { opened } from './opened-make.ts';
import { wrongWith } from './wrong-answer.ts';

/** What an attack on the API found. */
export interface Attacked {
  readonly cases: number;
  /** Requests that were taken, and those that were refused. */
  readonly taken: number;
  readonly refused: number;
  readonly eventsKept: number;
  readonly slowestMs: number;
  /** Routes that were asked; one that never was is wrong. */
  readonly routes: number;
  readonly wrong: readonly string[];
}

/** Longer than any answer may take, on a slow machine with others beside it; a sum that seeks takes longest. */
const SLOWEST_MS = 5000;
const MOST_TOLD = 20;

const exampleSchema = z.object({ example: z.unknown() });

/** Sends every route of the API what its description allows with something wrong in it, then looks at what is left. */
export async function attackApi(input: {
  readonly folder: string;
  readonly databaseUrl?: string | undefined;
  readonly seed: number;
  readonly runs: number;
  readonly tell?: (line: string) => void;
}): Promise<Attacked> {
  const { folder, databaseUrl, seed, runs, tell = () => undefined } = input;
  const target = await openTarget({ folder, databaseUrl });
  const wrong: string[] = [];
  const unhandled = (reason: unknown): void => void wrong.push(`nobody caught: ${String(reason)}`);
  process.on('unhandledRejection', unhandled);
  const found = { cases: 0, taken: 0, refused: 0, slowestMs: 0 };
  try {
    await target.store.append(opened());
    const described = (await (await target.ask('/api/openapi.json', {})).json()) as Described;
    const every = attacks({ described, target, examples: await examplesOf(described, target) });
    const asked = new Set<string>();
    const routes = Object.entries(described.paths).flatMap(([path, methods]) => Object.keys(methods).map((method) => `${method} ${path}`)); // prettier-ignore
    const sample = fc.sample(every, { seed, numRuns: runs });
    // Of the routes that chance left out, the first that more of it would ask.
    const later = fc.sample(every, { seed: seed + 1, numRuns: runs });
    const rest = routes.flatMap((route) => (sample.some((one) => one.route === route) ? [] : (later.find((one) => one.route === route) ?? []))); // prettier-ignore
    // One after the other and without making a failure smaller: what was sent before may be why.
    for (const attack of [...sample, ...rest]) {
      const { status, ms, wrong: here } = await sent(target, attack);
      found.cases++;
      asked.add(attack.route);
      if (status < 400) found.taken++;
      else found.refused++;
      found.slowestMs = Math.max(found.slowestMs, ms);
      if (here.length > 0 && wrong.length < MOST_TOLD) wrong.push(`${here.join('; ')}: ${shown(attack)}`);
      if (found.cases % 2000 === 0) tell(`${found.cases} of ${runs} requests`);
    }
    const { events, wrong: behind } = await left({ target, folder });
    wrong.push(...behind);
    wrong.push(...routes.filter((route) => !asked.has(route)).map((route) => `${route} was never asked`));
    return { ...found, slowestMs: Math.round(found.slowestMs), eventsKept: events, routes: routes.length, wrong };
  } finally {
    await new Promise((resolve) => setImmediate(resolve));
    process.off('unhandledRejection', unhandled);
    await target.close();
  }
}

async function sent(target: Target, attack: Attack): Promise<{ status: number; ms: number; wrong: string[] }> {
  const { method, path, headers, body, asker } = attack;
  const from = performance.now();
  const answer = await target.ask(path, { method, headers, asker, ...(body === undefined ? {} : { body }) });
  // A live line has no end; whoever asked hangs up.
  const isLive = answer.headers.get('content-type')?.startsWith('text/event-stream') === true;
  const text = isLive ? '' : await answer.text();
  if (isLive) await answer.body?.cancel();
  const ms = performance.now() - from;
  const wrong = wrongWith({ answer, text, method, isPlain: asker !== 'owner' });
  if (ms > SLOWEST_MS) wrong.push(`took ${Math.round(ms)} ms`);
  return { status: answer.status, ms, wrong };
}

/** Each sum tells its own example: the best there is to begin from. */
async function examplesOf({ paths }: Described, target: Target): Promise<ReadonlyMap<string, unknown>> {
  const sums = Object.keys(paths).filter((path) => path.startsWith('/api/calc/'));
  const read = sums.map(async (path) => [path, exampleSchema.parse(await (await target.ask(path, {})).json()).example] as const); // prettier-ignore
  return new Map([...(await Promise.all(read)), ['/api/solve', { makeId: 'stretched-ball', answers: { milk: { volumeL: 12 } }, question: { aims: [], free: [] } }]]); // prettier-ignore
}

const shown = ({ asker, method, path, body = '' }: Attack): string =>
  `${asker} ${method} ${path.slice(0, 200)} ${body.length > 600 ? `${body.slice(0, 600)}… (${body.length})` : body}`;
