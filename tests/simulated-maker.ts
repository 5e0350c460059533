import { historyOf } from '../src/exchange/history.ts';
import type { Forecast } from '../src/forecast/forecast.ts';
import { simulate } from '../src/forecast/simulate.ts';
import { NO_HISTORY } from '../src/make/history.ts';
import { JUDGEMENT_GRADES } from '../src/make/judgement.ts';
import { seededRandom, type Random } from '../src/numbers/random.ts';
import type { Event } from '../src/record/event.ts';
import { foldBatch } from '../src/record/fold.ts';
import { newEvent, type DeviceState } from '../src/record/new-event.ts';
import { EMPTY_BOOK, heldBook, shownCalls, type Book } from '../src/doors/web/bell/book.ts';
import { callsOf, laterTimerId } from '../src/doors/web/bell/calls.ts';
import { ring, type Sound } from '../src/doors/web/bell/ring.ts';
import type { Entry } from '../src/doors/web/vat/actions.ts';
import { judgementAwaited } from '../src/doors/web/vat/readiness.ts';
import { makeNamed, planFor, type MAKE_IDS } from './makes.ts';
import { NINE, telling } from './walked-make.ts';

const MINUTE = 60_000;
const TICK_MS = 5_000;
const FORECAST_EVERY_MIN = 10;
const MEMBERS = 20;
const ASLEEP_MIN = 60;

/** A first sounding of the bell in a simulated make. */
export interface Rang {
  readonly at: number;
  readonly sound: Sound;
}

/** A maker who goes through a whole make, now and then late, with a noisy thermometer, and the bell beside them. */
export class SimulatedMaker {
  readonly plan;
  readonly rang: Rang[] = [];
  /** Every call that came, by its id, with its class. */
  readonly came = new Map<string, string>();
  nowAt = NINE;
  #events: Event[] = [];
  #device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  #random: Random;
  #book: Book = EMPTY_BOOK;
  #planned: Forecast;
  #forecast: Forecast;
  #forecastAt = NINE;
  #seed: number;
  #isAsleep = false;
  #answerAt = new Map<string, number>();

  constructor(input: { readonly id: (typeof MAKE_IDS)[number]; readonly pHMeter: boolean; readonly seed: number }) {
    const answers = { milk: { volumeL: 12 }, instruments: { pHMeter: input.pHMeter } };
    this.plan = planFor({ id: input.id, answers });
    this.#seed = input.seed;
    this.#random = seededRandom(input.seed);
    this.#planned = simulate({ plan: this.plan, history: NO_HISTORY, members: 40, seed: input.seed });
    this.#forecast = this.#planned;
    const make = JSON.parse(JSON.stringify(makeNamed(input.id))) as never;
    this.note([{ kind: 'batchOpened', body: { make, answers, name: 'Ash', lotCode: 'ASH-7K3', zeroAt: NINE } }]);
  }

  #folded: { readonly count: number; readonly record: ReturnType<typeof foldBatch> } | null = null;

  get record() {
    if (this.#folded?.count !== this.#events.length) this.#folded = { count: this.#events.length, record: foldBatch(this.#events) }; // prettier-ignore
    return this.#folded.record;
  }

  get #u(): number {
    return this.#random.uniform();
  }

  note(entries: readonly Entry[]): void {
    for (const { kind, body } of entries) {
      const made = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: this.nowAt, loggedAt: this.nowAt, person: '', device: this.#device, randomBytes: new Uint8Array(10).fill(this.#events.length % 256) }); // prettier-ignore
      this.#events.push(made.event);
      this.#device = made.device;
    }
    if (entries.some(({ kind }) => kind !== 'alarmAnswered' && kind !== 'timerSet')) this.#foresee();
  }

  #foresee(): void {
    const history = this.record.steps.length === 0 ? NO_HISTORY : historyOf({ record: this.record, nowAt: this.nowAt });
    this.#forecast = simulate({ plan: this.plan, history, members: MEMBERS, seed: this.#seed });
    this.#forecastAt = this.nowAt;
  }

  /** The whole make; steps of more than `longestMin` end there (a night in the fridge wants no bell). Asleep, nobody answers. */
  run(input: { readonly longestMin?: number; readonly asleepIn?: string; readonly until?: string } = {}): void {
    const { longestMin = 200, asleepIn, until } = input;
    for (const [index, step] of this.plan.steps.entries()) {
      this.#isAsleep = step.id === asleepIn;
      this.note([{ kind: 'stepStarted', body: { stepId: step.id } }]);
      const endMin = this.#forecast.steps[index]?.endDots[Math.floor(this.#u * 20)] ?? 5;
      const startMin = (this.nowAt - NINE) / MINUTE;
      const planned = Number.isFinite(endMin) ? Math.min(endMin - startMin, longestMin) : longestMin;
      // Nobody ends a step to the second: mostly a minute or two after it is ready.
      const untilAt =
        this.nowAt + Math.max(1, planned) * MINUTE + this.#u * 2 * MINUTE + (this.#isAsleep ? ASLEEP_MIN * MINUTE : 0);
      this.#through(index, untilAt);
      if (step.set.ingredient !== undefined) this.note([{ kind: 'added', body: { ingredient: String(step.set.ingredient), amount: 1, unit: 'g', fractionOfPlan: 1 } }]); // prettier-ignore
      const awaited = judgementAwaited(step);
      this.note([...(awaited === null ? [] : [{ kind: 'judged', body: awaited } as const]), { kind: 'stepEnded', body: { stepId: step.id } }]); // prettier-ignore
      if (step.id === until) return;
    }
  }

  #through(index: number, untilAt: number): void {
    const step = this.plan.steps[index];
    const startAt = this.nowAt;
    const readAt = this.#u < 0.6 ? startAt + this.#u * (untilAt - startAt) : Number.POSITIVE_INFINITY;
    const flecksAt = startAt + (untilAt - (this.#isAsleep ? ASLEEP_MIN * MINUTE : 0) - startAt) / 3;
    let wasRead = false;
    while (this.nowAt < untilAt) {
      this.nowAt += TICK_MS;
      if (this.nowAt - this.#forecastAt >= FORECAST_EVERY_MIN * MINUTE) this.#foresee();
      if (!wasRead && this.nowAt >= readAt) {
        wasRead = true;
        this.#read(step?.set.atC);
      }
      if (
        step?.verb === 'set' &&
        this.nowAt >= flecksAt &&
        !this.record.readings.some((one) => one.quantity === 'flocculationMin')
      ) {
        // prettier-ignore
        this.note([{ kind: 'reading', body: { quantity: 'flocculationMin', value: (flecksAt - startAt) / MINUTE, sample: 'milk' } }]); // prettier-ignore
      }
      this.#listen(untilAt);
    }
  }

  /** The thermometer, good to half a degree, in a vat that strays by one. */
  #read(atC: unknown): void {
    if (typeof atC !== 'number' || atC < 25) return;
    const value = Math.round((atC + this.#random.normal() * Math.hypot(0.5, 1)) * 10) / 10;
    this.note([{ kind: 'reading', body: { quantity: 'temperatureC', value, sample: 'curd' } }]);
  }

  #listen(untilAt: number): void {
    const { record, plan, nowAt } = this;
    const calls = callsOf({ record, plan, forecast: this.#forecast, planned: this.#planned, before: null, telling });
    const book = heldBook({ book: this.#book, calls, record, plan, isComplete: true, nowAt });
    const shown = shownCalls({ book, record, nowAt });
    for (const { call } of shown) this.came.set(call.id, call.class);
    const now = ring({ book, shown, nowAt });
    this.#book = now.book;
    if (now.sound !== null && now.sound.isFirst) this.rang.push({ at: nowAt, sound: now.sound });
    if (this.#isAsleep) return;
    for (const { call } of shown) {
      const due = this.#answerAt.get(call.id) ?? nowAt + (0.2 + 2.5 * this.#u) * MINUTE;
      this.#answerAt.set(call.id, due);
      if (call.class !== 'note' && nowAt >= due) this.#answer(call, untilAt);
    }
  }

  #answer(
    call: Parameters<typeof laterTimerId>[0] & { readonly look?: string; readonly class: string },
    untilAt: number,
  ): void {
    // prettier-ignore
    const { nowAt } = this;
    const answered: Entry = { kind: 'alarmAnswered', body: { alarmId: call.id, answer: 'heard' } };
    const step = this.plan.steps.find((one) => call.id.includes(one.id));
    const awaited = step === undefined ? null : judgementAwaited(step);
    if (call.look !== undefined && awaited !== null && nowAt < untilAt) {
      const [grade = ''] = JUDGEMENT_GRADES[awaited.judgement];
      const look = { timerId: `look.${step?.id ?? ''}`, label: '', startedAt: nowAt, lastsMs: awaited.judgement === 'cleanBreak' ? 5 * MINUTE : 15 * MINUTE }; // prettier-ignore
      this.note([answered, { kind: 'judged', body: { judgement: awaited.judgement, grade } }, { kind: 'timerSet', body: look }]); // prettier-ignore
    } else if (call.class === 'due' && this.#u < 0.15) {
      this.note([answered, { kind: 'timerSet', body: { timerId: laterTimerId(call), label: '', startedAt: nowAt, lastsMs: 5 * MINUTE } }]); // prettier-ignore
    } else this.note([answered]);
  }
}
