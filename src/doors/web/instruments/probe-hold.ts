import { z } from 'zod';
import { heardNow, NOTHING_HEARD, type LiveState } from '../../../exchange/probe/live-value.ts';
import type { Heard } from '../../../exchange/probe/probe-line.ts';
import { vatSampleAt } from '../../../exchange/probe/vat-sample.ts';
import type { Event } from '../../../record/event.ts';
import type { Note } from '../log/event-log.ts';
import { foldOnce } from '../log/fold-once.ts';
import type { Found, Instrument } from './instrument.ts';

/** A live probe as the screens see it. */
export interface ProbeState {
  /** `lost`: it was there and has gone; `waiting`: it was in use before the page was opened anew. */
  readonly status: 'none' | 'connecting' | 'on' | 'lost' | 'waiting';
  /** The batch it is in. */
  readonly streamId: string | null;
  readonly found: Found | null;
  readonly live: LiveState;
  /** The last line that was no value, until a value comes. */
  readonly unread: string | null;
  readonly lostAt: number | null;
  /** Why it could not be opened, or a value not be kept. */
  readonly failed: 'open' | 'keep' | null;
}

/** What the hold needs of the log. */
export interface ProbeLog {
  readonly record: (note: Note) => Promise<unknown>;
  readonly snapshot: () => { readonly streams: ReadonlyMap<string, readonly Event[]> };
}

const KEY = 'vatside.probe';
const NONE: ProbeState = { status: 'none', streamId: null, found: null, live: NOTHING_HEARD, unread: null, lostAt: null, failed: null }; // prettier-ignore
const keptSchema = z.object({
  streamId: z.string(),
  found: z.union([
    z.object({ kind: z.literal('serial'), baudRate: z.number(), bareUnit: z.enum(['C', 'F']) }),
    z.object({ kind: z.literal('bluetooth') }),
  ]),
});

/** The one probe of this page: it stays connected and goes on noting whichever screen is open. */
export class ProbeHold {
  #state: ProbeState = keptState();
  #end: (() => Promise<void>) | null = null;
  readonly #listeners = new Set<() => void>();
  readonly #now: () => number;

  constructor(now: () => number = Date.now) {
    this.#now = now;
  }

  subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  snapshot = (): ProbeState => this.#state;

  /** Listens to an instrument for one batch; one that was listened to before is let go. */
  async connect(input: {
    readonly instrument: Instrument;
    readonly found: Found;
    readonly streamId: string;
    readonly log: ProbeLog;
  }): Promise<void> {
    // prettier-ignore
    const { instrument, found, streamId, log } = input;
    await this.#hangUp();
    this.#show({ ...NONE, status: 'connecting', streamId, found });
    try {
      this.#end = await instrument.listen({
        heard: (heard) => this.#heard({ heard, instrument, streamId, log }),
        unread: (text) => this.#show({ unread: text.trim().slice(0, 60) }),
        lost: () => this.#lost(),
      });
      if (this.#state.status === 'connecting') this.#show({ status: 'on' });
      localStorage.setItem(KEY, JSON.stringify({ streamId, found }));
    } catch {
      this.#show({ ...NONE, failed: 'open' });
    }
  }

  /** Lets the probe go, for good. */
  async leave(): Promise<void> {
    localStorage.removeItem(KEY);
    await this.#hangUp();
    this.#show(NONE);
  }

  #heard({
    heard,
    instrument,
    streamId,
    log,
  }: {
    heard: Heard;
    instrument: Instrument;
    streamId: string;
    log: ProbeLog;
  }): void {
    // prettier-ignore
    const at = this.#now();
    const record = foldOnce(log.snapshot().streams.get(streamId) ?? []);
    const sample = vatSampleAt({ record, at });
    const next = heardNow(this.#state.live, { ...heard, at }, sample);
    const isRunning = record.steps.length > 0 && record.finishedAt === null;
    // Before the first step and after the last the value is shown, and nothing is noted of it.
    const live = isRunning ? next.state : { ...next.state, noted: this.#state.live.noted };
    this.#show({ status: 'on', unread: null, lostAt: null, live });
    if (next.note === null || !isRunning) return;
    const { quantity, value } = next.note;
    log
      .record({
        kind: 'reading',
        streamId,
        happenedAt: at,
        body: { quantity, value, sample, instrumentId: instrument.id },
      })
      .then(
        // prettier-ignore
        () => this.#show({ failed: null }),
        () => this.#show({ failed: 'keep' }),
      );
  }

  #lost(): void {
    const end = this.#end;
    this.#end = null;
    this.#show({ status: 'lost', lostAt: this.#now() });
    if (end !== null) void end();
  }

  async #hangUp(): Promise<void> {
    const end = this.#end;
    this.#end = null;
    if (end !== null) await end();
  }

  #show(change: Partial<ProbeState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }
}

function keptState(): ProbeState {
  try {
    const kept = keptSchema.safeParse(JSON.parse(localStorage.getItem(KEY) ?? 'null'));
    return kept.success ? { ...NONE, status: 'waiting', ...kept.data } : NONE;
  } catch {
    return NONE;
  }
}
