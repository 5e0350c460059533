import { readFileSync } from 'node:fs';
import { historyOf } from '../src/exchange/history.ts';
import { openWords, sayFrom } from '../src/exchange/words.ts';
import { openWriter } from '../src/exchange/written.ts';
import type { Forecast } from '../src/forecast/forecast.ts';
import { simulate } from '../src/forecast/simulate.ts';
import { NO_HISTORY } from '../src/make/history.ts';
import { parseMake } from '../src/make/make.ts';
import { planMake } from '../src/make/planning.ts';
import type { Event } from '../src/record/event.ts';
import { foldBatch } from '../src/record/fold.ts';
import { newEvent, type DeviceState } from '../src/record/new-event.ts';
import type { Entry } from '../src/doors/web/vat/actions.ts';
import { vatView, type VatView } from '../src/doors/web/vat/vat-view.ts';

const ROOT = new URL('../', import.meta.url);
const read = (path: string): unknown => JSON.parse(readFileSync(new URL(path, ROOT), 'utf8'));
export const words = openWords({
  language: 'en-GB',
  catalogues: {
    'en-GB': {
      vat: read('words/en-GB/vat.json') as object,
      bell: read('words/en-GB/bell.json') as object,
      record: read('words/en-GB/record.json') as object,
      advice: read('words/en-GB/advice.json') as object,
    },
  },
});
export const say = sayFrom(words);
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
export const NINE = Date.UTC(2026, 2, 4, 9, 0);
export const telling = { say, write, zeroAt: NINE };
export const MINUTE = 60_000;
const MEMBERS = 30;

export const ball = read('makes/stretched-ball.json');
export const makes = [ball, read('makes/stretched-string.json')];

/** A batch that is walked on as a maker would: each main action noted at its minute. */
export class Walk {
  readonly plan;
  readonly #events: Event[] = [];
  #device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  nowMin = 0;

  readonly streamId;

  constructor(input: { readonly pHMeter: boolean; readonly name?: string }) {
    const { name = 'Ash' } = input;
    this.streamId = `batch:${name.toLowerCase()}`;
    const answers = { milk: { volumeL: 12 }, instruments: { pHMeter: input.pHMeter } };
    this.plan = planMake({ make: parseMake(ball), answers });
    this.note([
      {
        kind: 'batchOpened',
        body: { make: ball as never, answers, name, lotCode: `${name.toUpperCase()}-7K3`, zeroAt: NINE },
      },
    ]);
  }

  note(entries: readonly Entry[]): void {
    for (const { kind, body, happenedAt } of entries) {
      const at = NINE + this.nowMin * MINUTE;
      const made = newEvent({ kind, body, streamId: this.streamId, happenedAt: happenedAt ?? at, loggedAt: at, person: '', device: this.#device, randomBytes: this.#bytes() }); // prettier-ignore
      this.#events.push(made.event);
      this.#device = made.device;
    }
  }

  /** What stands for chance: in the order of the events, and another for each pot. */
  #bytes(): Uint8Array {
    const name = new TextEncoder().encode(this.streamId.slice('batch:'.length));
    return Uint8Array.from({ length: 10 }, (_, at) => (at < 2 ? at * this.#events.length : (name[at - 2] ?? 0)));
  }

  /** Everything noted so far, as it would be sent to a server. */
  get events(): readonly Event[] {
    return this.#events;
  }

  get record() {
    return foldBatch(this.#events);
  }

  #seen: { readonly of: string; readonly view: VatView } | null = null;
  #planned: Forecast | null = null;

  get view(): VatView {
    const of = `${this.#events.length} ${this.nowMin}`;
    if (this.#seen?.of !== of) this.#seen = { of, view: this.#look() };
    return this.#seen.view;
  }

  #look(): VatView {
    const { record, plan } = this;
    const nowAt = NINE + this.nowMin * MINUTE;
    const history = record.steps.length === 0 ? NO_HISTORY : historyOf({ record, nowAt });
    const forecast = simulate({ plan, history, members: MEMBERS, seed: 1 });
    this.#planned ??= simulate({ plan, history: NO_HISTORY, members: MEMBERS, seed: 1 });
    this.#endMin = forecast.steps.find((step) => step.state === 'running')?.endMin.p50 ?? this.nowMin;
    const last = record.readings.at(-1);
    const before = last === undefined ? null : simulate({ plan, history: historyOf({ record, nowAt: last.at - 1 }), members: MEMBERS, seed: 1 }); // prettier-ignore
    return vatView({ record, plan, forecast, planned: this.#planned, before, nowAt, telling });
  }

  ready(): void {
    const { pause } = this.view;
    for (const item of pause?.items ?? []) this.note([{ kind: 'prepared', body: { item: item.id } }]);
  }

  /** Presses the main action, getting ready first where a pause asks for it. */
  press(afterMin: number): string {
    this.nowMin += afterMin;
    const { main } = this.view;
    if (main === null) throw new Error('nothing to press');
    this.note(main.entries);
    return main.label;
  }

  /** Walks on until a step of this id runs, by the minutes the forecast expects. */
  to(stepId: string): void {
    for (let guard = 0; guard < 80 && this.view.standing.step?.id !== stepId; guard++) {
      if (this.view.pause !== null) this.ready();
      this.press(this.view.standing.stage === 'running' ? this.#expectedMin() : 0);
    }
    if (this.view.standing.stage !== 'running') this.press(0);
  }

  #endMin = 0;

  #expectedMin(): number {
    // Flecks come first and only then the cut: a third of the way to it.
    const flecks = this.view.main?.label === 'Flecks';
    return Math.max(1, (this.#endMin - this.nowMin) / (flecks ? 3 : 1));
  }
}
