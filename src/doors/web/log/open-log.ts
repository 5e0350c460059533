import { copyText } from '../../../exchange/copy/copy-text.ts';
import { isDemoStream, type Event } from '../../../record/event.ts';
import { closerOffset, type ClockOffset } from '../../../record/clock-offset.ts';
import { clockAfter } from '../../../record/clock.ts';
import { newEvent, uuidV7 } from '../../../record/new-event.ts';
import { openBrowserStore, type BrowserStore } from '../../../store/browser.ts';
import type { Access, EventLog, LogSnapshot, Note } from './event-log.ts';
import { NotForRoleError, whyNotHere } from './for-role.ts';
import { messageOf, notKeptOf, problemOf } from './not-kept.ts';
import { PullMark } from './pull-mark.ts';
import { ServerUnreachableError, serverLink } from './server-link.ts';
import { accessOf, browserSurroundings, type Surroundings } from './surroundings.ts';
import { pullStreams } from './pull-streams.ts';
import { synchronise } from './synchronise.ts';

const PAGE = 1000;
/** In every answer of the API, the refused ones too. */
const ACCESS_HEADER = 'vatside-role';
const SHOW_MS = 1000;

/**
 * Opens this device's log. It shows what the device holds, takes notes at once and exchanges them with the server
 * whenever there is one, in one tab at a time.
 *
 * @param input.name  of the database; the app's own unless given
 * @param input.around  the browser, unless a test gives another
 */
export async function openLog(
  input: { readonly name?: string; readonly around?: Surroundings } = {},
): Promise<EventLog> {
  const { name = 'vatside', around = browserSurroundings() } = input;
  const store = await openBrowserStore({ name, newDeviceId: uuidV7(around.now(), around.randomBytes(10)) });
  const log = new DeviceLog(store, around);
  await log.start();
  return log;
}

class DeviceLog implements EventLog {
  readonly #store: BrowserStore;
  readonly #around: Surroundings;
  readonly #listeners = new Set<() => void>();
  readonly #ending = new AbortController();
  readonly #hangUps: (() => void)[] = [];
  #snapshot: LogSnapshot = { isReady: false, streams: new Map(), waiting: 0, setAside: [], problems: [], deviceId: '', isInTouch: true, isServerFull: false, notKept: null, clockOffset: null, access: 'maker' }; // prettier-ignore
  #position = 0;
  /** Reading the store and exchanging go one after the other, each in its own line. */
  #reading: Promise<void> = Promise.resolve();
  #exchanging: Promise<void> | undefined;
  #isWanted = false;
  #mark = new PullMark(null);

  constructor(store: BrowserStore, around: Surroundings) {
    this.#store = store;
    this.#around = around;
  }

  async start(): Promise<void> {
    const { deviceId } = await this.#store.device();
    this.#show({ deviceId, clockOffset: await this.#store.clockOffset() });
    this.#readAccess();
    this.#mark = new PullMark(await this.#store.pulledMark());
    await this.#refresh();
    this.#show({ isReady: true });
    this.#hangUps.push(
      this.#around.tabs.hear(() => {
        this.#readAccess();
        void this.#refresh().then(() => this.#wantExchange());
      }),
    );
    this.#around.asLeader((term) => this.#lead(term), this.#ending.signal);
  }

  subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  snapshot = (): LogSnapshot => this.#snapshot;

  async record(note: Note): Promise<Event> {
    const [event] = await this.recordAll([note]);
    if (event === undefined) throw new Error('The store gave no event back.');
    return event;
  }

  async recordAll(notes: readonly Note[]): Promise<Event[]> {
    const [because] = notes.flatMap((note) => whyNotHere(this.#snapshot, note) ?? []);
    if (because !== undefined) throw new NotForRoleError(because);
    const events = await this.#keep(() =>
      this.#store.writeOwn((device) => {
        let state = device;
        const events = notes.map(({ kind, body, streamId, happenedAt, person = '', kinds }) => {
          const loggedAt = this.#around.now();
          const made = newEvent({ kind, body, streamId, happenedAt: happenedAt ?? loggedAt, loggedAt, person, device: state, randomBytes: this.#around.randomBytes(10), kinds }); // prettier-ignore
          state = made.device;
          return made.event;
        });
        return { events, device: state };
      }),
    );
    if (events.some((event) => event.kind === 'batchOpened' && !isDemoStream(event.streamId)))
      this.#around.keepStorage();
    await this.#changed();
    return events;
  }

  async takeIn(events: readonly Event[]): Promise<void> {
    // The clock goes past what came in, so that a correction of it stands after it.
    const nowMs = this.#around.now();
    await this.#keep(() =>
      this.#store.writeOwn((device) => ({
        events,
        device: { ...device, clock: clockAfter({ own: device.clock, seen: events, nowMs }) },
      })),
    );
    await this.#changed();
  }

  savedWhere(streamId?: string): 'here' | 'here and server' {
    if (streamId !== undefined && isDemoStream(streamId)) return 'here';
    const { waiting, setAside, streams } = this.#snapshot;
    // Only a server's answer takes an event out of the waiting ones.
    const isAllSent = waiting === 0 && setAside.length === 0 && ![...streams.keys()].every(isDemoStream);
    return isAllSent ? 'here and server' : 'here';
  }

  newStreamId(type: string): string {
    return `${type}:${uuidV7(this.#around.now(), this.#around.randomBytes(10))}`;
  }

  fileText(): string {
    return copyText(this.#snapshot.streams);
  }

  async synchroniseNow(): Promise<void> {
    this.#wantExchange();
    await this.#exchanging;
  }

  async sendAgain(): Promise<void> {
    await this.#keep(() => this.#store.sendAgain());
    await this.#changed();
    await this.#exchanging;
  }

  async fetchStream(streamId: string): Promise<boolean> {
    const server = serverLink(this.#around.ask);
    const after = (await this.#store.cursors()).get(streamId) ?? 0;
    const wanted = [{ streamId, after, last: Infinity }];
    const problems = await pullStreams({ store: this.#store, server, wanted, now: this.#around.now, onTaken: () => undefined }).catch(() => null); // prettier-ignore
    await this.#refresh();
    for (const problem of problems ?? []) this.#problem(problem);
    return this.#snapshot.streams.has(streamId);
  }

  async close(): Promise<void> {
    this.#ending.abort();
    for (const hangUp of this.#hangUps) hangUp();
    await this.#exchanging;
    await this.#reading;
    await this.#store.close();
  }

  async #keep<T>(write: () => Promise<T>): Promise<T> {
    try {
      const kept = await write();
      if (this.#snapshot.notKept !== null) this.#show({ notKept: null });
      return kept;
    } catch (error) {
      if (error instanceof DOMException) this.#show({ notKept: notKeptOf(error) });
      throw error;
    }
  }

  async #changed(): Promise<void> {
    await this.#refresh();
    this.#around.tabs.tell();
    this.#wantExchange();
  }

  /** Reads what the store has beyond what is shown; the only way events come into the snapshot. */
  #refresh(): Promise<void> {
    this.#reading = this.#reading.then(async () => {
      let streams = this.#snapshot.streams;
      for (;;) {
        const page = await this.#store.readWritten({ after: this.#position, limit: PAGE });
        if (page.length === 0) break;
        const grown = new Map(streams);
        for (const { position, event } of page) {
          grown.set(event.streamId, [...(grown.get(event.streamId) ?? []), event]);
          this.#position = position;
        }
        streams = grown;
      }
      const [waiting, setAside] = await Promise.all([this.#store.outboxSize(), this.#store.listSetAside()]);
      this.#show({ streams, waiting, setAside });
    });
    this.#reading = this.#reading.catch((error: unknown) => this.#problem(`Not read: ${messageOf(error)}`));
    return this.#reading;
  }

  /** The leading tab keeps the line to the server open and exchanges, for as long as its term lasts. */
  async #lead(term: AbortSignal): Promise<void> {
    if (term.aborted) return;
    this.#isLeading = true;
    const hangUps = [
      this.#around.listen(() => this.#wantExchange()),
      this.#around.whenWorthTrying(() => this.#wantExchange()),
    ];
    this.#wantExchange();
    await new Promise<void>((resolve) =>
      term.addEventListener('abort', () => {
        this.#isLeading = false;
        for (const hangUp of hangUps) hangUp();
        resolve();
      }),
    );
  }
  #isLeading = false;

  /** Starts an exchange, or has the running one go round again. */
  #wantExchange(): void {
    if (!this.#isLeading || this.#ending.signal.aborted) return;
    this.#isWanted = true;
    this.#exchanging ??= this.#exchange().finally(() => {
      this.#exchanging = undefined;
    });
  }

  async #exchange(): Promise<void> {
    const server = serverLink(async (path, init) => {
      const answer = await this.#around.ask(path, init);
      this.#hearAccess(accessOf(answer.headers.get(ACCESS_HEADER)));
      return answer;
    });
    while (this.#isWanted) {
      this.#isWanted = false;
      const before = this.#snapshot;
      const at = this.#around.now();
      try {
        const { problems, mark, isServerFull } = await synchronise({ store: this.#store, server, now: this.#around.now, onClock: this.#heardClock, onTaken: this.#tookIn, ...this.#mark.asking }); // prettier-ignore
        this.#show({ problems, isServerFull, isInTouch: true });
        const { isMissing, toKeep } = this.#mark.came({ mark, at });
        this.#isWanted ||= isMissing;
        if (toKeep !== null) await this.#store.keepPulledMark(toKeep);
        const { clockOffset } = this.#snapshot;
        if (clockOffset !== null && clockOffset !== before.clockOffset) await this.#store.keepClockOffset(clockOffset);
      } catch (error) {
        // No server is no problem: what waits, waits.
        if (!(error instanceof ServerUnreachableError)) this.#problem(problemOf(error));
        else if (this.#snapshot.isInTouch) this.#show({ isInTouch: false });
      }
      await this.#refresh();
      // Only news is told: where every tab leads for want of locks, tabs would else keep each other awake.
      const after = this.#snapshot;
      if (after.streams !== before.streams || after.waiting !== before.waiting) this.#around.tabs.tell();
    }
  }

  /** Keeps the offset of the server's clock, with its doubt, where the new measurement tells more than the one before. */
  #heardClock = (measured: ClockOffset): void => {
    const clockOffset = closerOffset(this.#snapshot.clockOffset, measured);
    if (clockOffset !== this.#snapshot.clockOffset) this.#show({ clockOffset });
  };
  #readAccess(): void {
    const access = this.#around.access?.read();
    if (access != null && access !== this.#snapshot.access) this.#show({ access });
  }

  #hearAccess(access: Access | null): void {
    if (access === null || access === this.#snapshot.access) return;
    this.#around.access?.write(access);
    this.#show({ access });
    this.#around.tabs.tell();
  }

  /** A device that comes to a full store sees what has come, and does not wait for the last of it. */
  #tookIn = (): void => {
    const at = this.#around.now();
    if (Math.abs(at - this.#shownAt) < SHOW_MS) return;
    this.#shownAt = at;
    void this.#refresh();
  };
  #shownAt = 0;

  #problem(words: string): void {
    if (!this.#snapshot.problems.includes(words)) this.#show({ problems: [...this.#snapshot.problems, words] });
  }

  #show(change: Partial<LogSnapshot>): void {
    this.#snapshot = { ...this.#snapshot, ...change };
    for (const listener of this.#listeners) listener();
  }
}
