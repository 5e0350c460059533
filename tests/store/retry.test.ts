import type { PostgresPool, PostgresPoolClient } from 'kysely';
import { describe, expect, it } from 'vitest';
import { StoreUnreachableError } from '../../src/store/port.ts';
import { openPostgresStore } from '../../src/store/postgres.ts';
import type { Patience } from '../../src/store/retry.ts';
import { STORE_FORMAT } from '../../src/store/sql-schema.ts';
import { notingDevice } from './sample-events.ts';

/** A database that keeps what it is told in so many words, and fails the statements it is told to. */
class Told {
  readonly said: string[] = [];
  /** What the next statements of a kind fail with, in turn. */
  faults: { readonly at: RegExp; readonly error: Error }[] = [];

  pool = (): PostgresPool => ({
    connect: () => Promise.resolve(this.#client),
    end: () => Promise.resolve(),
  });

  readonly #client: PostgresPoolClient = {
    query: ((statement: string) => this.#answer(statement)) as unknown as PostgresPoolClient['query'],
    release: () => undefined,
  };

  #answer(text: string): Promise<{ command: string; rowCount: number; rows: object[] }> {
    const fault = this.faults.findIndex(({ at }) => at.test(text));
    if (fault >= 0) return Promise.reject(this.faults.splice(fault, 1)[0]!.error);
    this.said.push(text);
    const rows = /max\(format\)/.test(text) ? [{ format: STORE_FORMAT }] : /returning/.test(text) ? [{ last: 1 }] : [];
    const command = /^(commit|rollback)$/.test(text) ? text.toUpperCase() : 'SELECT';
    return Promise.resolve({ command, rowCount: rows.length, rows });
  }
}

const failing = (code: string): Error => Object.assign(new Error(`fails with ${code}`), { code });

function patienceOf(pauses: number[]): Patience {
  return { tries: 6, firstPauseMs: 10, longestPauseMs: 50, chance: () => 1, wait: (ms) => Promise.resolve(void pauses.push(ms)) }; // prettier-ignore
}

async function openTold(): Promise<{
  told: Told;
  store: Awaited<ReturnType<typeof openPostgresStore>>;
  pauses: number[];
}> {
  const told = new Told();
  const pauses: number[] = [];
  const store = await openPostgresStore({ url: 'postgres://told/', nowMs: 0, openPool: told.pool, patience: patienceOf(pauses) }); // prettier-ignore
  told.said.length = 0;
  return { told, store, pauses };
}

const note = notingDevice('tablet');

describe('a note that meets another one in the database', () => {
  it.each([
    ['40001', /^commit$/],
    ['40001', /update "streams"/],
    ['40P01', /insert into "streams"/],
    ['23505', /insert into "log"/],
    ['57P01', /from "log"/],
    ['ECONNRESET', /^commit$/],
  ])('is written again from the start after %s at %s', async (code, at) => {
    const { told, store, pauses } = await openTold();
    told.faults = [1, 2, 3].map(() => ({ at, error: failing(code) }));
    const event = note('foam');
    expect(await store.append([event])).toEqual([{ id: event.id, state: 'added' }]);
    expect(pauses).toEqual([10, 20, 40]);
    expect(told.said.filter((text) => text.startsWith('start transaction'))).toHaveLength(4);
    expect(told.said.filter((text) => text === 'commit')).toHaveLength(1);
    expect(told.said.at(-1)).toBe('commit');
  });

  it('is given up after so many runs, with what the database said', async () => {
    const { told, store, pauses } = await openTold();
    told.faults = Array.from({ length: 20 }, () => ({ at: /^commit$/, error: failing('40001') }));
    await expect(store.append([note('foam')])).rejects.toThrow('fails with 40001');
    expect(pauses).toEqual([10, 20, 40, 50, 50]);
    expect(told.faults).toHaveLength(14);
  });

  it('is said to be out of reach, not at fault, where the database stays away', async () => {
    const { told, store } = await openTold();
    const refused = new AggregateError([failing('ECONNREFUSED'), failing('ECONNREFUSED')]);
    told.faults = Array.from({ length: 20 }, () => ({ at: /start transaction/, error: refused }));
    await expect(store.append([note('foam')])).rejects.toThrow(StoreUnreachableError);
    await expect(store.append([note('foam')])).rejects.toMatchObject({ cause: refused });
  });

  it.each(['53100', '22021', '42501'])('fails at once with %s, which does not pass by waiting', async (code) => {
    const { told, store, pauses } = await openTold();
    told.faults = [{ at: /insert into "log"/, error: failing(code) }];
    await expect(store.append([note('foam')])).rejects.toMatchObject({ code });
    expect(pauses).toEqual([]);
    expect(told.said.at(-1)).toBe('rollback');
  });

  it('rests between half and all of its pause, as chance has it', async () => {
    const told = new Told();
    const pauses: number[] = [];
    const chances = [0, 0.5, 1];
    const patience = { ...patienceOf(pauses), chance: () => chances.shift() ?? 0 };
    const store = await openPostgresStore({ url: 'postgres://told/', nowMs: 0, openPool: told.pool, patience });
    told.faults = [1, 2, 3].map(() => ({ at: /^commit$/, error: failing('40001') }));
    await store.append([note('foam')]);
    expect(pauses).toEqual([5, 15, 40]);
  });
});
