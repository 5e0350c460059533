import { fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { newEvent } from '../../../src/record/new-event.ts';
import { timesOf, type Times } from './percentile.ts';
import { processCost, type ProcessCost } from './process-cost.ts';
import type { ClientsFound, ClientsInput } from './vat-clients.ts';

const CLIENTS = fileURLToPath(new URL('./vat-clients.ts', import.meta.url));
const MAKE = fileURLToPath(new URL('../../../makes/tomme.json', import.meta.url));
const pageSchema = z.object({ events: z.array(z.object({ n: z.int(), event: z.object({ id: z.string() }) })), last: z.int() }); // prettier-ignore

export interface VatsFound {
  readonly vats: number;
  readonly devices: number;
  readonly seconds: number;
  readonly acknowledged: number;
  readonly readingsASecond: number;
  readonly acknowledgedMs: Times;
  readonly seenMs: Times;
  /** By apps that follow every vat; their number. */
  readonly everywhereMs: Times;
  readonly apps: number;
  /** Of the server: null where the system does not tell. */
  readonly highestMb: number | null;
  /** Processor time per second of the run, 100 for one whole core. */
  readonly serverPercent: number | null;
  readonly clientsPercent: number;
  readonly pulls: number;
  /** Acknowledged readings that the server does not have, or that a device of their vat never saw. */
  readonly lost: number;
  readonly duplicated: number;
  readonly wrong: readonly string[];
}

/** Holds many vats with several devices each on one server, and counts what became of every reading. */
export async function holdVats(input: {
  readonly url: string;
  readonly vats: number;
  readonly devicesAVat: number;
  readonly everyMs: number;
  readonly lastsMs: number;
  /** Apps that follow every vat, besides the devices; none where left out. */
  readonly apps?: number;
  /** Of the server's process; left out where it is this one. */
  readonly pid?: number | undefined;
}): Promise<VatsFound> {
  const { url, vats, devicesAVat, everyMs, lastsMs, pid, apps = 0 } = input;
  await openVats(url, vats);
  const costs: ProcessCost[] = [];
  const look = (): void => {
    const cost = pid === undefined ? null : processCost(pid);
    if (cost !== null) costs.push(cost);
  };
  const watching = setInterval(look, 1000);
  look();
  const began = performance.now();
  const found = await clients({ url, vats, devicesAVat, everyMs, lastsMs, apps });
  look();
  clearInterval(watching);
  const wallS = (performance.now() - began) / 1000;
  const [first] = costs;
  const last = costs.at(-1);
  const kept = await keptOf({ url, acknowledged: found.acknowledged });
  const count = Object.values(found.acknowledged).reduce((sum, ids) => sum + ids.length, 0);
  return {
    vats,
    devices: vats * devicesAVat,
    seconds: Math.round(found.seconds),
    acknowledged: count,
    readingsASecond: Math.round((count / found.seconds) * 10) / 10,
    acknowledgedMs: timesOf(found.acknowledgedMs),
    seenMs: timesOf(found.seenMs),
    everywhereMs: timesOf(found.everywhereMs),
    apps,
    highestMb: last === undefined ? null : Math.round(Math.max(...costs.map(({ highestMb }) => highestMb))),
    serverPercent: first === undefined || last === undefined ? null : Math.round(((last.cpuS - first.cpuS) / wallS) * 100), // prettier-ignore
    clientsPercent: Math.round((found.cpuS / found.seconds) * 100),
    pulls: found.pulls,
    lost: kept.lost + found.unseen,
    duplicated: kept.duplicated + found.seenTwice,
    wrong: [...found.failures, ...kept.wrong],
  };
}

/** Opens a make at each vat, as a maker does, with the whole make in its first event. */
async function openVats(url: string, vats: number): Promise<void> {
  const make: unknown = JSON.parse(readFileSync(MAKE, 'utf8'));
  const at = Date.now();
  for (let vat = 0; vat < vats; vat++) {
    const body = { make, answers: { milk: { volumeL: 200 } }, name: `Vat ${vat + 1}`, lotCode: `LK-${vat + 1}`, zeroAt: at }; // prettier-ignore
    const device = { deviceId: `office-${vat}`, deviceSeq: 0, clock: undefined };
    const randomBytes = Uint8Array.from({ length: 10 }, (_, index) => (index < 8 ? 0 : vat >> ((9 - index) * 8)) & 255);
    const { event } = newEvent({ kind: 'batchOpened', body, streamId: `batch:vat-${vat}`, happenedAt: at, loggedAt: at, person: 'M', device, randomBytes }); // prettier-ignore
    const answer = await fetch(`${url}/api/events`, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events: [event] }) }); // prettier-ignore
    const text = await answer.text();
    if (!text.includes('"added"')) throw new Error(`a vat was not opened: ${text.slice(0, 300)}`);
  }
}

function clients(input: ClientsInput): Promise<ClientsFound> {
  const child = fork(CLIENTS, { execArgv: ['--import', 'tsx'], serialization: 'advanced' });
  const ended = (): void => void child.kill('SIGKILL');
  process.once('exit', ended);
  return new Promise<ClientsFound>((resolve, reject) => {
    child.once('message', (found) => resolve(found as ClientsFound));
    child.once('error', reject);
    child.once('exit', (code) => reject(new Error(`the devices' process ended with ${code ?? 'a signal'}`)));
    child.send(input);
  }).finally(() => process.off('exit', ended));
}

/** Reads every vat's stream whole: each acknowledged id must be there, once, in places without a hole. */
async function keptOf(input: { readonly url: string; readonly acknowledged: ClientsFound['acknowledged'] }): Promise<{ readonly lost: number; readonly duplicated: number; readonly wrong: readonly string[] }> {
  let lost = 0;
  let duplicated = 0;
  const wrong: string[] = [];
  for (const [streamId, ids] of Object.entries(input.acknowledged)) {
    const kept: string[] = [];
    for (let last = 1; kept.length < last;) {
      const answer = await fetch(`${input.url}/api/streams/${encodeURIComponent(streamId)}/events?after=${kept.length}`);
      const page = pageSchema.parse(await answer.json());
      for (const { n, event } of page.events) {
        kept.push(event.id);
        if (n !== kept.length) wrong.push(`${streamId} has place ${n} where ${kept.length} should be`);
      }
      last = page.events.length === 0 ? 0 : page.last;
    }
    const there = new Set(kept);
    duplicated += kept.length - there.size;
    lost += ids.filter((id) => !there.has(id)).length;
  }
  return { lost, duplicated, wrong };
} // prettier-ignore
