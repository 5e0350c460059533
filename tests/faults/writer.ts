import { z } from 'zod';
import type { Random } from '../../src/numbers/random.ts';
import type { Event } from '../../src/record/event.ts';
import { newEvent, type DeviceState } from '../../src/record/new-event.ts';

const answersSchema = z.object({ answers: z.array(z.object({ id: z.string(), state: z.string(), reason: z.string().optional() })) }); // prettier-ignore
/** Answers that promise nothing and may be asked for again: no network, no room, no database. */
const PASSING: readonly number[] = [503, 507];
const MOST_WAITING = 60;
const MOST_SENT = 200;

/** What a writer has had for answers beside the good ones. */
export interface Refusals {
  /** How often each status was answered. */
  readonly statuses: ReadonlyMap<number, number>;
  /** The words of each passing problem. */
  readonly words: ReadonlySet<string>;
}

/**
 * A device that notes without pause, sends what waits and takes for kept only what was answered for by its id. What has no
 * answer is sent again, as the app does.
 */
export class Writer {
  readonly acknowledged = new Map<string, Event>();
  /** Everything it has made, acknowledged or not. */
  readonly made = new Map<string, Event>();
  /** Sentences about answers that should never come. */
  readonly wrong: string[] = [];
  readonly statuses = new Map<number, number>();
  readonly words = new Set<string>();
  readonly #waiting: Event[] = [];
  readonly #streamId: () => string;
  readonly #random: Random;
  readonly #pauseMs: number;
  #device: DeviceState;

  constructor(input: {
    readonly deviceId: string;
    readonly streamId: () => string;
    readonly random: Random;
    /** Between two requests; a maker rests, a probe does not. */
    readonly pauseMs?: number;
  }) {
    this.#device = { deviceId: input.deviceId, deviceSeq: 0, clock: undefined };
    this.#streamId = input.streamId;
    this.#random = input.random;
    this.#pauseMs = input.pauseMs ?? 0;
  }

  get waiting(): number {
    return this.#waiting.length;
  }

  /** Notes and sends until `isOver` says so; a request under way is waited for. */
  async writeUntil(url: string, isOver: () => boolean): Promise<void> {
    while (!isOver()) {
      if (this.#waiting.length < MOST_WAITING) this.#note(1 + Math.floor(this.#random.uniform() * 3));
      await this.send(url);
      if (this.#pauseMs > 0) await new Promise((resolve) => setTimeout(resolve, this.#pauseMs));
    }
  }

  /** Notes the opening of a batch, to be sent before anything else. */
  open(): void {
    const at = Date.now();
    this.#keep('batchOpened', { make: { id: 'x' }, answers: { milk: { volumeL: 10 } }, name: 'Ash', lotCode: 'A1', zeroAt: at }); // prettier-ignore
  }

  /** Sends what waits, once; gives the status, or null where there was no answer. */
  async send(url: string): Promise<number | null> {
    const events = this.#waiting.slice(0, MOST_SENT);
    let answer: { readonly status: number; readonly text: string };
    try {
      const headers = { 'content-type': 'application/json' };
      const response = await fetch(`${url}/api/events`, { method: 'POST', headers, body: JSON.stringify({ events }) });
      answer = { status: response.status, text: await response.text() };
    } catch {
      // Refused or cut off: nothing was promised. A moment, so that a dead server is not asked a thousand times.
      await new Promise((resolve) => setTimeout(resolve, 5));
      return null;
    }
    const { status, text } = answer;
    this.statuses.set(status, (this.statuses.get(status) ?? 0) + 1);
    if (status === 200) this.#hear(text);
    else if (PASSING.includes(status)) {
      this.words.add(text);
      await new Promise((resolve) => setTimeout(resolve, 20));
    } else this.wrong.push(`a push was answered with ${status}: ${text.slice(0, 200)}`);
    return status;
  }

  #note(count: number): void {
    for (let nth = 0; nth < count; nth++) {
      const { kind, body } = this.#something(Date.now());
      this.#keep(kind, body);
    }
  }

  #keep(kind: string, body: object): void {
    const at = Date.now();
    const randomBytes = Uint8Array.from({ length: 10 }, () => Math.floor(this.#random.uniform() * 256));
    const made = newEvent({ kind, body, streamId: this.#streamId(), happenedAt: at, loggedAt: at, person: 'M', device: this.#device, randomBytes }); // prettier-ignore
    this.#device = made.device;
    this.made.set(made.event.id, made.event);
    this.#waiting.push(made.event);
  }

  #something(at: number): { readonly kind: string; readonly body: object } {
    const nth = this.#device.deviceSeq;
    const stepId = `step-${Math.floor(nth / 6)}`;
    const kinds = [
      { kind: 'stepStarted', body: { stepId } },
      { kind: 'timerSet', body: { timerId: `hand.${nth}`, label: 'Turn', startedAt: at, lastsMs: 600_000 } },
      { kind: 'reading', body: { quantity: 'temperatureC', value: 30 + (nth % 10) / 10, sample: 'milk' } },
      { kind: 'alarmAnswered', body: { alarmId: `hand.${nth - (nth % 12) + 1}`, answer: 'done' } },
      { kind: 'noted', body: { text: `look ${nth}`.padEnd(20 + Math.floor(this.#random.uniform() * 200), '.') } },
      { kind: 'stepEnded', body: { stepId } },
    ];
    return kinds[nth % kinds.length] ?? { kind: 'noted', body: { text: '' } };
  }

  #hear(text: string): void {
    for (const { id, state, reason } of answersSchema.parse(JSON.parse(text)).answers) {
      const event = this.made.get(id);
      if (event === undefined || (state !== 'added' && state !== 'known')) {
        this.wrong.push(`an event of its own was answered with ${state}: ${reason ?? ''}`);
        continue;
      }
      this.acknowledged.set(id, event);
    }
    const kept = this.#waiting.filter(({ id }) => !this.acknowledged.has(id));
    this.#waiting.splice(0, this.#waiting.length, ...kept);
  }
}
