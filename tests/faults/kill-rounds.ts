import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { seededRandom, type Random } from '../../src/numbers/random.ts';
import { openNodeSqlite } from '../../src/store/node-sqlite.ts';
import { Ledger } from './ledger.ts';
import { Poster } from './poster.ts';
import { serve, type Served } from './served.ts';
import { Writer } from './writer.ts';

/** What rounds of killing came to. */
export interface KillsFound {
  readonly kills: number;
  readonly killsInOpening: number;
  readonly killsOfNewStores: number;
  readonly acknowledged: number;
  readonly readings: number;
  readonly kept: number;
  readonly unanswered: number;
  readonly lost: number;
  readonly duplicated: number;
  readonly corrupt: number;
  readonly openingMs: readonly number[];
  readonly failures: readonly string[];
}

/** A kill every so many rounds comes while the server opens, and every so many while it makes a new store. */
const OPENING_EVERY = 5;
const NEW_STORE_EVERY = 15;
/** A kill comes within so long after everybody began to write. */
const LONGEST_WRITING_MS = 400;
/** A new batch every so many rounds: a make is some hundred steps and timers, not ten thousand. */
const ROUNDS_A_BATCH = 25;
const LOOK_MS = 40;

/** Kills the server outright, again and again, while three devices and a probe write and one device reads. */
export async function killRounds(input: {
  readonly rounds: number;
  readonly seed: number;
  readonly folder: string;
  readonly tell: (line: string) => void;
}): Promise<KillsFound> {
  return new Rounds(input).all();
}

class Rounds {
  readonly #input: Parameters<typeof killRounds>[0];
  readonly #random: Random;
  readonly #ledger = new Ledger();
  readonly #writers: readonly Writer[];
  #posters: Poster[] = [];
  readonly #failures: string[] = [];
  readonly #openingMs: number[] = [];
  readonly #openers: Writer[] = [];
  /** How many of a writer's acknowledged events have been looked for after a kill; the rest of its life they are held by place. */
  readonly #held = new Map<object, number>();
  #round = 0;
  #corrupt = 0;
  #killsInOpening = 0;
  #killsOfNewStores = 0;

  constructor(input: Parameters<typeof killRounds>[0]) {
    this.#input = input;
    this.#random = seededRandom(input.seed);
    this.#writers = ['tablet-1', 'tablet-2', 'phone'].map(
      (deviceId, nth) => new Writer({ deviceId, streamId: () => (nth === 0 ? this.#make : `batch:ash-${this.#batch}`), random: seededRandom(input.seed + nth + 1) }), // prettier-ignore
    );
  }

  get #batch(): number {
    return Math.floor(this.#round / ROUNDS_A_BATCH);
  }

  get #make(): string {
    return `batch:make-${this.#batch}`;
  }

  async all(): Promise<KillsFound> {
    const { rounds, tell } = this.#input;
    for (this.#round = 0; this.#round < rounds; this.#round++) {
      const nth = this.#round + 1;
      if (nth % NEW_STORE_EVERY === 0) await this.#killNewStore();
      else if (nth % OPENING_EVERY === 0) await this.#killInOpening();
      else await this.#killWriting();
      if (nth % 25 === 0) tell(`${nth} of ${rounds} kills, ${this.#acknowledged()} acknowledged`);
    }
    await this.#last();
    const posted = this.#posters.reduce((sum, { acknowledged }) => sum + acknowledged.size, 0);
    const { lost, duplicated, size, wrong } = this.#ledger;
    const told = [...this.#writers, ...this.#posters].flatMap((one) => one.wrong);
    return {
      kills: rounds,
      killsInOpening: this.#killsInOpening,
      killsOfNewStores: this.#killsOfNewStores,
      acknowledged: this.#acknowledged(),
      readings: posted,
      kept: size,
      unanswered: this.#writers.reduce((sum, { waiting }) => sum + waiting, 0),
      lost,
      duplicated,
      corrupt: this.#corrupt,
      openingMs: this.#openingMs,
      failures: [...this.#failures, ...told, ...wrong],
    };
  }

  #acknowledged(): number {
    return this.#writers.reduce((sum, { acknowledged }) => sum + acknowledged.size, 0);
  }

  get #folder(): string {
    return join(this.#input.folder, 'data');
  }

  async #open(dataDir: string): Promise<{ readonly served: Served; readonly url: string } | null> {
    const began = performance.now();
    const served = serve({ dataDir });
    try {
      const url = await served.url;
      this.#openingMs.push(performance.now() - began);
      return { served, url };
    } catch (error) {
      this.#corrupt++;
      this.#failures.push(error instanceof Error ? error.message : String(error));
      await served.kill();
      return null;
    }
  }

  async #killWriting(): Promise<void> {
    const opened = await this.#open(this.#folder);
    if (opened === null) return;
    const { served, url } = opened;
    await this.#checkKept(url);
    if (this.#round % ROUNDS_A_BATCH === 0) await this.#openBatch(url);
    let isOver = false;
    const isOverNow = (): boolean => isOver;
    const poster = this.#posters.at(-1);
    const busy = Promise.all([
      ...this.#writers.map((writer) => writer.writeUntil(url, isOverNow)),
      poster?.postUntil(url, isOverNow),
      this.#readUntil(url, isOverNow),
    ]);
    await new Promise((resolve) => setTimeout(resolve, 2 + this.#random.uniform() * LONGEST_WRITING_MS));
    await served.kill();
    isOver = true;
    await busy;
  }

  /** A second kill before the server has said where it is: the store was last left in the middle of something. */
  async #killInOpening(): Promise<void> {
    await this.#killAfterPartOfOpening(this.#folder);
    this.#killsInOpening++;
  }

  /** Killed while it makes a new store; that must then open, and keep what it is given. */
  async #killNewStore(): Promise<void> {
    const folder = join(this.#input.folder, `new-${this.#round}`);
    await this.#killAfterPartOfOpening(folder);
    this.#killsOfNewStores++;
    const opened = await this.#open(folder);
    if (opened === null) return;
    const writer = new Writer({ deviceId: 'first', streamId: () => 'batch:first', random: this.#random });
    writer.open();
    await writer.send(opened.url);
    const ledger = new Ledger();
    await ledger.readOn(opened.url);
    ledger.hold(writer.acknowledged.values());
    if (writer.acknowledged.size === 0) this.#failures.push('a store that was killed while it was made takes nothing');
    this.#failures.push(...ledger.wrong, ...writer.wrong);
    await opened.served.kill();
  }

  async #killAfterPartOfOpening(folder: string): Promise<void> {
    const usual = this.#openingMs.toSorted((a, b) => a - b)[Math.floor(this.#openingMs.length / 2)] ?? 500;
    const served = serve({ dataDir: folder });
    // Most of opening is the program being read; the store is touched in the last half.
    await new Promise((resolve) => setTimeout(resolve, usual * (0.3 + 0.75 * this.#random.uniform())));
    await served.kill();
  }

  async #openBatch(url: string): Promise<void> {
    const batchId = `probe-${this.#batch}`;
    const opening = new Writer({ deviceId: `opener-${this.#batch}`, streamId: () => `batch:${batchId}`, random: this.#random }); // prettier-ignore
    opening.open();
    await opening.send(url);
    if (opening.waiting > 0) this.#failures.push('the opening of a batch was not taken');
    this.#openers.push(opening);
    this.#posters = [...this.#posters, new Poster(batchId)];
  }

  async #readUntil(url: string, isOver: () => boolean): Promise<void> {
    while (!isOver()) {
      await this.#ledger.readOn(url).catch(() => undefined);
      await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    }
  }

  /** What was acknowledged or seen before the kill is there; the file is whole; the make stands as it did. */
  async #checkKept(url: string): Promise<void> {
    await this.#ledger.readAgain(url, this.#make);
    await this.#ledger.readOn(url);
    for (const writer of [...this.#writers, ...this.#openers]) this.#ledger.hold(this.#newOf(writer));
    for (const poster of this.#posters) this.#ledger.holdIds(this.#newOf(poster));
    await this.#checkFile();
  }

  #newOf<T>(one: { readonly acknowledged: ReadonlyMap<string, T> }): readonly T[] {
    const fresh = [...one.acknowledged.values()].slice(this.#held.get(one) ?? 0);
    this.#held.set(one, one.acknowledged.size);
    return fresh;
  }

  async #checkFile(): Promise<void> {
    mkdirSync(this.#folder, { recursive: true });
    const database = await openNodeSqlite(join(this.#folder, 'vatside.sqlite'));
    try {
      const [found] = database.prepare('PRAGMA integrity_check').all([]);
      if (JSON.stringify(found) === '{"integrity_check":"ok"}') return;
      this.#corrupt++;
      this.#failures.push(`the store's file is damaged: ${JSON.stringify(found)}`);
    } finally {
      database.close();
    }
  }

  /** Everything again from the start, once all that waits has been sent. */
  async #last(): Promise<void> {
    const opened = await this.#open(this.#folder);
    if (opened === null) return;
    for (const writer of this.#writers) for (let tries = 0; writer.waiting > 0 && tries < 10; tries++) await writer.send(opened.url); // prettier-ignore
    await this.#checkKept(opened.url);
    await this.#ledger.readAgain(opened.url);
    for (const writer of this.#openers) this.#ledger.hold(writer.acknowledged.values());
    for (const poster of this.#posters) this.#ledger.holdIds(poster.acknowledged.values());
    for (const writer of this.#writers) this.#ledger.hold(writer.made.values());
    await opened.served.kill();
  }
}
