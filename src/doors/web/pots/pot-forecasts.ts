import type { Forecast } from '../../../forecast/forecast.ts';
import type { JointBeliefs } from '../../../forecast/uncertain.ts';
import type { History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import type { ForecastQuestion, ForecastAnswer } from '../forecasting/forecast-messages.ts';

/** A forecast wanted, and what it follows from; two pots of a class that stand alike want the same one. */
export interface Wanted {
  readonly key: string;
  readonly plan: Plan;
  readonly history: History;
  readonly seed: number;
  readonly beliefs: JointBeliefs | null;
  readonly members: number;
}

/** What a forecast came to, under its key. */
export type Found = { readonly forecast: Forecast } | { readonly failed: string };

/** Forecasts kept: some of each of eight pots. */
const MOST_KEPT = 96;

/** A key that says all that a forecast follows from. */
export function keyOf(wanted: Omit<Wanted, 'key'>): string {
  const { plan, history, seed, beliefs, members } = wanted;
  return `${idOf(plan)} ${seed} ${members} ${beliefs === null ? '' : textOf(beliefs)} ${textOf(history)}`;
}

const texts = new WeakMap<object, string>();
function textOf(value: object): string {
  const known = texts.get(value) ?? JSON.stringify(value);
  texts.set(value, known);
  return known;
}
const ids = new Map<string, number>();
/** A short number for a plan, the same for plans that say the same. */
function idOf(plan: Plan): number {
  const text = textOf(plan);
  const known = ids.get(text) ?? ids.size;
  ids.set(text, known);
  return known;
}

/** Asked one after the other: a worker that takes a question and says when it is answered. */
export interface Asker {
  readonly ask: (question: ForecastQuestion) => void;
  readonly close: () => void;
}

/**
 * Forecasts of several pots, one after the other in one worker, the most wanted first. What was worked out once is kept
 * for as long as the page lives: a pot whose record did not change is never run again.
 */
export class PotForecasts {
  readonly #found = new Map<string, Found>();
  readonly #listeners = new Set<() => void>();
  #wanted: readonly Wanted[] = [];
  #running: { readonly number: number; readonly wanted: Wanted } | null = null;
  #asker: Asker | null = null;
  #number = 0;
  #snapshot: ReadonlyMap<string, Found> = new Map();

  readonly #start: (onReply: (reply: ForecastAnswer) => void) => Asker;

  constructor(start: (onReply: (reply: ForecastAnswer) => void) => Asker) {
    this.#start = start;
  }

  subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => {
      this.#listeners.delete(listener);
      if (this.#listeners.size === 0) this.#rest();
    };
  };

  snapshot = (): ReadonlyMap<string, Found> => this.#snapshot;

  /** What is wanted now, the most wanted first; what was wanted before and is not any more is left. */
  want(wanted: readonly Wanted[]): void {
    this.#wanted = wanted;
    this.#next();
  }

  #next(): void {
    if (this.#running !== null) return;
    const next = this.#wanted.find(({ key }) => !this.#found.has(key));
    if (next === undefined) return;
    this.#number += 1;
    this.#running = { number: this.#number, wanted: next };
    this.#asker ??= this.#start((reply) => this.#take(reply));
    const { plan, history, seed, beliefs, members } = next;
    this.#asker.ask({ number: this.#number, plan, history, seed, members: [members], ...(beliefs === null ? {} : { beliefs }) }); // prettier-ignore
  }

  #take(reply: ForecastAnswer): void {
    const running = this.#running;
    if (running === null || reply.number !== running.number) return;
    this.#running = null;
    this.#found.set(running.wanted.key, 'failed' in reply ? { failed: reply.failed } : { forecast: reply.forecast });
    const [oldest] = this.#found.keys();
    if (this.#found.size > MOST_KEPT && oldest !== undefined) this.#found.delete(oldest);
    this.#snapshot = new Map(this.#found);
    for (const listener of this.#listeners) listener();
    this.#next();
  }

  /** Nobody looks: the worker goes, what it found stays. */
  #rest(): void {
    this.#asker?.close();
    this.#asker = null;
    this.#running = null;
    this.#wanted = [];
  }
}
