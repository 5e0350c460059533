import 'fake-indexeddb/auto';
import { createApp } from '../../src/doors/server/app.ts';
import type { EventLog } from '../../src/doors/web/log/event-log.ts';
import { parseLogFile } from '../../src/exchange/log-file.ts';
import type { Event } from '../../src/record/event.ts';
import { foldBatch } from '../../src/record/fold.ts';
import { canonicalText } from '../../src/record/merge.ts';
import { compareEvents } from '../../src/record/order.ts';
import type { ServedStore } from '../../src/store/kept-store.ts';
import { openSqliteStore } from '../../src/store/sqlite.ts';
import { Network, openDevice, Tabs } from './devices.ts';
import { DEVICES, isDeed, noteOf, type Deed, type Hour, type Turn } from './three-devices.ts';

/** What one hour came to. */
export interface HourFound {
  /** Exchanges and files after which a device or the server knew more than before. */
  readonly merges: number;
  readonly events: number;
  /** Pairs of events whose true order the device knew: the earlier one must stand first. */
  readonly ordered: number;
  readonly lost: number;
  readonly duplicated: number;
  /** Whatever was not as promised, one sentence each. */
  readonly wrong: readonly string[];
}

const BATCH = 'batch:ash';
const START = 1_790_000_000_000;
const MINUTE = 60_000;
let hours = 0;

/** Lives through an hour: three browsers' stores, the real log of the app, the real server. */
export async function liveHour(hour: Hour): Promise<HourFound> {
  const store = await openSqliteStore({ file: ':memory:', nowMs: 0 });
  try {
    return await new Kitchen(store, hour).live();
  } finally {
    await store.close();
  }
}

class Kitchen {
  readonly #store: ServedStore;
  readonly #hour: Hour;
  readonly #network: Network;
  readonly #names: readonly string[];
  readonly #offsets: number[];
  readonly #logs: EventLog[] = [];
  readonly #made = new Map<string, Event>();
  readonly #wrong: string[] = [];
  #trueMs = START;
  #merges = 0;
  #ordered = 0;

  constructor(store: ServedStore, hour: Hour) {
    this.#store = store;
    this.#hour = hour;
    const nth = hours++;
    this.#names = Array.from({ length: DEVICES }, (_, device) => `hour-${nth}-${device}`);
    this.#offsets = [...hour.offsets];
    const app = createApp({ store, shelf: { makes: [], broken: [] }, sums: new Map(), now: () => this.#trueMs });
    this.#network = new Network((path, init) => Promise.resolve(app.request(path, init)));
  }

  async live(): Promise<HourFound> {
    for (let device = 0; device < DEVICES; device++) this.#logs.push(await this.#open(device));
    await this.#do({ device: 0, what: 'noted', value: 0, names: 0 });
    for (let device = 0; device < DEVICES; device++) await this.#exchange(device);
    for (const happening of this.#hour.happenings) {
      this.#trueMs += 2 * MINUTE;
      if (isDeed(happening)) await this.#do(happening);
      else await this.#turn(happening);
    }
    this.#network.answersToLose = 0;
    // Twice over, so that the last one's news reaches the first; the second round of the last must find nothing new.
    for (const device of [0, 1, 2, 2, 1, 0, 0]) await this.#exchange(device);
    const found = await this.#compare();
    for (const log of this.#logs) await log.close();
    for (const name of this.#names) indexedDB.deleteDatabase(name);
    return found;
  }

  #open(device: number): Promise<EventLog> {
    const tabs = new Tabs();
    tabs.now = () => this.#trueMs + (this.#offsets[device] ?? 0);
    return openDevice(this.#network, tabs, this.#names[device]);
  }

  #log(device: number): EventLog {
    const log = this.#logs[device];
    if (log === undefined) throw new Error(`no device ${device}`);
    return log;
  }

  #known(device: number): readonly Event[] {
    return this.#log(device).snapshot().streams.get(BATCH) ?? [];
  }

  async #do(deed: Deed): Promise<void> {
    const known = this.#known(deed.device);
    const at = this.#trueMs + (this.#offsets[deed.device] ?? 0);
    const note = noteOf({ deed, knownIds: known.map(({ id }) => id), at });
    if (note === null) return;
    // Between exchanges no network: the exchange that follows a note by itself must fail.
    this.#network.isUp = false;
    const event = await this.#log(deed.device).record({ ...note, streamId: BATCH, person: 'M' });
    await this.#log(deed.device).synchroniseNow();
    this.#made.set(event.id, event);
    for (const before of known) {
      this.#ordered++;
      if (compareEvents(before, event) >= 0) this.#wrong.push(`${event.kind} stands before ${before.kind}, which its device knew`); // prettier-ignore
    }
    if (event.happenedAt !== at) this.#wrong.push('the time that the device said was changed');
  }

  async #turn({ device, what, value }: Turn): Promise<void> {
    if (what === 'exchange') return this.#exchange(device);
    if (what === 'clock set') {
      this.#offsets[device] = (value - 500) * 30_000;
      return undefined;
    }
    if (what === 'lose answers') {
      this.#network.answersToLose = 1 + (value % 3);
      await this.#exchange(device);
      this.#network.answersToLose = 0;
      return undefined;
    }
    if (what === 'close browser') {
      await this.#log(device).close();
      this.#logs[device] = await this.#open(device);
      return undefined;
    }
    const before = this.#known(device).length;
    const events = parseLogFile(this.#log((device + 1 + (value % 2)) % DEVICES).fileText());
    const turned = value % 3 === 0 ? [...events].reverse() : [...events, ...events];
    await this.#log(device).takeIn(turned);
    if (this.#known(device).length > before) this.#merges++;
    return undefined;
  }

  async #exchange(device: number): Promise<void> {
    const before = this.#known(device).length + (await this.#onServer()).length;
    this.#network.isUp = true;
    await this.#log(device).synchroniseNow();
    this.#network.isUp = false;
    if (this.#known(device).length + (await this.#onServer()).length > before) this.#merges++;
  }

  async #onServer(): Promise<readonly Event[]> {
    return (await this.#store.readStream({ streamId: BATCH, after: 0 })).map(({ event }) => event);
  }

  async #compare(): Promise<HourFound> {
    const server = await this.#store.readStream({ streamId: BATCH, after: 0 });
    const everywhere = [server.map(({ event }) => event), ...this.#logs.map((_, device) => this.#known(device))];
    const made = [...this.#made.values()];
    const whole = canonicalText(foldBatch(made));
    let lost = 0;
    let duplicated = 0;
    for (const [place, events] of everywhere.entries()) {
      const ids = new Set(events.map(({ id }) => id));
      lost += made.filter(({ id }) => !ids.has(id)).length;
      duplicated += events.length - ids.size;
      const where = place === 0 ? 'the server' : `device ${place}`;
      if (canonicalText(foldBatch(events)) !== whole) this.#wrong.push(`${where} tells another story`);
    }
    if (server.some(({ n }, index) => n !== index + 1)) this.#wrong.push('the server’s places have a hole');
    for (const [device, log] of this.#logs.entries()) {
      const { waiting, setAside, problems, clockOffset } = log.snapshot();
      if (waiting > 0 || setAside.length > 0) this.#wrong.push(`device ${device} still holds back events`);
      this.#wrong.push(...problems);
      const off = Math.abs((clockOffset?.offsetMs ?? Infinity) + (this.#offsets[device] ?? 0));
      if (off > (clockOffset?.plusMinusMs ?? 0) + 2) this.#wrong.push(`device ${device} is wrong about its clock by ${off} ms`); // prettier-ignore
    }
    return { merges: this.#merges, events: made.length, ordered: this.#ordered, lost, duplicated, wrong: this.#wrong };
  }
}
