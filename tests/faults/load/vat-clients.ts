/** A process of devices at vats: its message in is `ClientsInput`, its message out `ClientsFound`. Started by `vats.ts`. */
import { newEvent, type DeviceState } from '../../../src/record/new-event.ts';
import { ask, hear, pageOf, Tally, type Placed } from './asking.ts';
import { App } from './whole-app.ts';

export interface ClientsInput {
  readonly url: string;
  readonly vats: number;
  readonly devicesAVat: number;
  readonly everyMs: number;
  readonly lastsMs: number;
  /** Besides: apps that follow every vat. */
  readonly apps: number;
}

export interface ClientsFound {
  /** Milliseconds from sending a reading to its answer, and from noting it until another device of its vat has it. */
  readonly acknowledgedMs: readonly number[];
  readonly seenMs: readonly number[];
  /** Until an app that follows every vat has it. */
  readonly everywhereMs: readonly number[];
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
    await hear(`${this.#url}/api/live?streams=${encodeURIComponent(this.streamId)}`, ({ last }) => {
      this.#told = Math.max(this.#told, last);
      void this.pull();
    });
    await this.pull(true);
  }

  async pull(isWanted = false): Promise<void> {
    if (this.#isPulling) return;
    this.#isPulling = true;
    try {
      for (let isFirst = isWanted; isFirst || this.#told > this.#cursor; isFirst = false) {
        const { events, last } = await pageOf({ url: this.#url, streamId: this.streamId, after: this.#cursor, tally: this.#tally }); // prettier-ignore
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
  const apps = Array.from({ length: input.apps }, () => new App({ url, tally }));
  await Promise.all(apps.map((app) => app.open()));
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
  const unreadBy = (app: App): number =>
    Object.values(acknowledged)
      .flat()
      .filter((id) => !app.seen.has(id)).length;
  const missing = (): number => apps.reduce((sum, app) => sum + unreadBy(app), 0) + devices.reduce((sum, { seen, streamId }) => sum + (acknowledged[streamId] ?? []).filter((id) => !seen.has(id)).length, 0); // prettier-ignore
  for (let waited = 0; waited < SETTLE_MS && missing() > 0; waited += 100) await wait(100);
  const seenTwice = devices.reduce((sum, { seen }) => sum + [...seen.values()].filter((times) => times > 1).length, 0);
  return { acknowledgedMs: tally.acknowledgedMs, seenMs: tally.seenMs, everywhereMs: tally.everywhereMs, acknowledged, unseen: missing(), seenTwice, pulls: tally.pulls, failures: tally.failures, cpuS: (user + system) / 1e6, seconds }; // prettier-ignore
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
