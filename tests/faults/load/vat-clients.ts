/** A process of devices at vats: its message in is `ClientsInput`, its message out `ClientsFound`. Started by `vats.ts`. */
import { Agent, request } from 'node:http';
import { newEvent, type DeviceState } from '../../../src/record/new-event.ts';

export interface ClientsInput {
  readonly url: string;
  readonly vats: number;
  readonly devicesAVat: number;
  readonly everyMs: number;
  readonly lastsMs: number;
}

export interface ClientsFound {
  /** Milliseconds from sending a reading to its answer, and from noting it until another device of its vat has it. */
  readonly acknowledgedMs: readonly number[];
  readonly seenMs: readonly number[];
  /** Ids that the server acknowledged, by stream. */
  readonly acknowledged: Readonly<Record<string, readonly string[]>>;
  /** Acknowledged readings that a device of their vat has not got in the end; readings that one got twice. */
  readonly unseen: number;
  readonly seenTwice: number;
  readonly pulls: number;
  readonly failures: readonly string[];
  readonly cpuS: number;
  readonly seconds: number;
}

/** Devices pull this long after the last reading at most; then what is missing is missing. */
const SETTLE_MS = 20_000;
const agent = new Agent({ keepAlive: true, maxSockets: 64 });
const lines = new Agent({ keepAlive: true, maxSockets: Infinity });

/** Asks, and once more where the server had just closed a resting connection: nothing of the request was read then. */
function ask(input: {
  readonly url: string;
  readonly path: string;
  readonly body?: string;
  readonly isAgain?: boolean;
}): Promise<string> {
  const { url, path, body, isAgain = false } = input;
  const headers = body === undefined ? {} : { 'content-type': 'application/json', 'content-length': Buffer.byteLength(body) }; // prettier-ignore
  return new Promise((resolve, reject) => {
    const asked = request(
      `${url}${path}`,
      { agent, method: body === undefined ? 'GET' : 'POST', headers },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8').on('data', (part: string) => (text += part));
        answer.once('end', () => (answer.statusCode === 200 ? resolve(text) : reject(new Error(`${path}: ${answer.statusCode ?? 0} ${text.slice(0, 200)}`)))); // prettier-ignore
        answer.once('error', reject);
      },
    );
    asked.once('error', (error) => {
      if (!asked.reusedSocket || isAgain) reject(error);
      else ask({ ...input, isAgain: true }).then(resolve, reject);
    });
    asked.end(body);
  });
}

interface Placed {
  readonly n: number;
  readonly event: { readonly id: string; readonly kind: string; readonly loggedAt: number };
}

/** All that the devices of this process found. */
class Tally {
  readonly acknowledgedMs: number[] = [];
  readonly seenMs: number[] = [];
  readonly failures: string[] = [];
  pulls = 0;

  fail(error: unknown): void {
    if (this.failures.length < 20) this.failures.push(error instanceof Error ? error.message : String(error));
  }
}

class Device {
  readonly seen = new Map<string, number>();
  readonly acknowledged: string[] = [];
  readonly streamId: string;
  readonly #url: string;
  readonly #tally: Tally;
  #state: DeviceState;
  #cursor = 0;
  #told = 0;
  #isPulling = false;

  constructor(input: {
    readonly url: string;
    readonly streamId: string;
    readonly name: string;
    readonly tally: Tally;
  }) {
    this.#url = input.url;
    this.streamId = input.streamId;
    this.#tally = input.tally;
    this.#state = { deviceId: input.name, deviceSeq: 0, clock: undefined };
  }

  /** Opens its line, of its own vat alone, and then reads what is there, as the app does. */
  async listen(): Promise<void> {
    await new Promise<void>((resolve, reject) => {
      const asked = request(`${this.#url}/api/live?streams=${encodeURIComponent(this.streamId)}`, { agent: lines }, (line) => {
        let text = '';
        line.setEncoding('utf8').on('data', (part: string) => {
          text += part;
          const end = text.lastIndexOf('\n\n');
          for (const [, last] of text.slice(0, end + 1).matchAll(/"last":(\d+)/g)) this.#told = Math.max(this.#told, Number(last)); // prettier-ignore
          text = text.slice(end + 2);
          void this.pull();
        });
        resolve();
      }); // prettier-ignore
      asked.once('error', reject);
      asked.end();
    });
    await this.pull(true);
  }

  async pull(isWanted = false): Promise<void> {
    if (this.#isPulling) return;
    this.#isPulling = true;
    try {
      for (let isFirst = isWanted; isFirst || this.#told > this.#cursor; isFirst = false) {
        this.#tally.pulls++;
        const text = await ask({ url: this.#url, path: `/api/streams/${encodeURIComponent(this.streamId)}/events?after=${this.#cursor}` }); // prettier-ignore
        const { events, last } = JSON.parse(text) as { readonly events: readonly Placed[]; readonly last: number };
        this.#told = Math.max(this.#told, last);
        for (const { n, event } of events) this.#take(n, event);
      }
    } catch (error) {
      this.#tally.fail(error);
    } finally {
      this.#isPulling = false;
    }
  }

  #take(n: number, event: Placed['event']): void {
    if (n !== this.#cursor + 1) this.#tally.fail(new Error(`${this.streamId} gave place ${n} after ${this.#cursor}`));
    this.#cursor = n;
    if (event.kind !== 'reading') return;
    const times = (this.seen.get(event.id) ?? 0) + 1;
    this.seen.set(event.id, times);
    if (!event.id.startsWith(`${this.#state.deviceId}.`)) this.#tally.seenMs.push(Date.now() - event.loggedAt);
  }

  /** Notes one reading and sends it until it is answered for, as an outbox does. */
  async note(): Promise<void> {
    const at = Date.now();
    const body = { quantity: 'temperatureC', value: 30 + (this.#state.deviceSeq % 50) / 10, sample: 'milk' };
    const made = newEvent({ kind: 'reading', body, streamId: this.streamId, happenedAt: at, loggedAt: at, person: 'M', device: this.#state, randomBytes: new Uint8Array(10) }); // prettier-ignore
    this.#state = made.device;
    const id = `${this.#state.deviceId}.${made.event.deviceSeq}`;
    const text = JSON.stringify({ events: [{ ...made.event, id }] });
    for (let tries = 0; tries < 5; tries++) {
      const started = performance.now();
      try {
        const answer = await ask({ url: this.#url, path: '/api/events', body: text });
        if (!answer.includes(`"${id}"`) || answer.includes('"refused"'))
          throw new Error(`answered with ${answer.slice(0, 200)}`);
        this.#tally.acknowledgedMs.push(performance.now() - started);
        this.acknowledged.push(id);
        return;
      } catch (error) {
        this.#tally.fail(error);
      }
    }
  }
}

const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

async function run(input: ClientsInput): Promise<ClientsFound> {
  const { url, vats, devicesAVat, everyMs, lastsMs } = input;
  const tally = new Tally();
  const devices = Array.from({ length: vats * devicesAVat }, (_, index) => new Device({ url, tally, streamId: `batch:vat-${index % vats}`, name: `device-${index}` })); // prettier-ignore
  for (let from = 0; from < devices.length; from += 50) await Promise.all(devices.slice(from, from + 50).map((one) => one.listen())); // prettier-ignore
  const before = process.cpuUsage();
  const started = performance.now();
  // Each in its own moment of the ten seconds, so that they come evenly.
  await Promise.all(devices.map(async (device, index) => {
    for (let next = (index / devices.length) * everyMs; next < lastsMs; next += everyMs) {
      await wait(started + next - performance.now());
      await device.note();
    }
  })); // prettier-ignore
  const { user, system } = process.cpuUsage(before);
  const seconds = (performance.now() - started) / 1000;
  const acknowledged: Record<string, string[]> = {};
  for (const device of devices) (acknowledged[device.streamId] ??= []).push(...device.acknowledged);
  const missing = (): number => devices.reduce((sum, { seen, streamId }) => sum + (acknowledged[streamId] ?? []).filter((id) => !seen.has(id)).length, 0); // prettier-ignore
  for (let waited = 0; waited < SETTLE_MS && missing() > 0; waited += 100) await wait(100);
  const seenTwice = devices.reduce((sum, { seen }) => sum + [...seen.values()].filter((times) => times > 1).length, 0);
  return { acknowledgedMs: tally.acknowledgedMs, seenMs: tally.seenMs, acknowledged, unseen: missing(), seenTwice, pulls: tally.pulls, failures: tally.failures, cpuS: (user + system) / 1e6, seconds }; // prettier-ignore
}

process.once('message', (input: ClientsInput) => {
  run(input).then(
    (found) => process.send?.(found, () => process.exit(0)),
    (error: unknown) => {
      console.error(error);
      process.exit(1);
    },
  );
});
