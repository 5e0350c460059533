import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseMake, type Make } from '../../../src/make/make.ts';
import { nextClock } from '../../../src/record/clock.ts';
import { canonicalText } from '../../../src/record/merge.ts';
import { uuidV7 } from '../../../src/record/new-event.ts';
import { openNodeSqlite } from '../../../src/store/node-sqlite.ts';

/** Events that every batch has. */
export const EVENTS_A_BATCH = 50;
const MAKES = fileURLToPath(new URL('../../../makes/', import.meta.url));
/** Pots of Larkenshaw, the invented teaching dairy; its people are tables. */
const POTS = ['Ash', 'Birch', 'Cedar', 'Dogwood', 'Elm', 'Fir', 'Gorse', 'Hazel', 'Ivy', 'Juniper', 'Larch', 'Maple', 'Oak', 'Pine', 'Rowan', 'Sorrel', 'Thorn', 'Willow', 'Yew', 'Alder'] as const; // prettier-ignore
const NOTES = ['slow to set', 'foam on the milk', 'a clean break at last', 'the whey ran clear', 'curd soft to the hand', 'draughty by the door', 'thermometer lent to the next table', 'smelled of yoghurt', 'drained overnight', 'milk of the second day'] as const; // prettier-ignore
/** One note in a thousand has one of these, so that a search must look through everything. */
export const RARE = 'quince';
const FIRST_DAY = Date.UTC(2021, 0, 4, 7);
const APART_MS = 25 * 60_000;
const MINUTE_MS = 60_000;
const ROWS = 25;
const BATCHES_IN_ONE = 1000;

const MAKES_READ = (): readonly { readonly make: Make; readonly text: string }[] =>
  readdirSync(MAKES)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => parseMake(JSON.parse(readFileSync(`${MAKES}${name}`, 'utf8'))))
    .map((make) => ({ make, text: canonicalText(make) }));
let shelf: ReturnType<typeof MAKES_READ> | undefined;

/** 32 random bits from a count: the same store for the same seed, however it is grown. */
function chanceOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** One row of the log, its event as the store writes it. */
export interface LogRow {
  readonly id: string;
  readonly streamId: string;
  readonly n: number;
  readonly text: string;
}

/** The events of one batch of Larkenshaw, the `nth` since the dairy began: a make from its milk to the scale, invented. */
export function batchRows(input: { readonly nth: number; readonly seed: number }): readonly LogRow[] {
  const { nth, seed } = input;
  const chance = chanceOf(seed + nth * 2_654_435_761);
  const one = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)] ?? list[0]!;
  shelf ??= MAKES_READ();
  const { make, text: makeText } = one(shelf);
  const pot = POTS[nth % POTS.length] ?? '';
  const zeroAt = FIRST_DAY + nth * APART_MS;
  const random = (): Uint8Array => Uint8Array.from({ length: 10 }, () => Math.floor(chance() * 256));
  const streamId = `batch:${uuidV7(zeroAt, random())}`;
  const deviceId = `tablet-${nth % 40}`;
  const person = `table ${(nth % 8) + 1}`;
  const rows: LogRow[] = [];
  const note = (minute: number, kind: string, bodyText: string): void => {
    const at = zeroAt + Math.round(minute * MINUTE_MS);
    const id = uuidV7(at, random());
    const n = rows.length + 1;
    // Keys in the order of `canonicalText`, so that what is written here is what an append of the same event writes.
    const text = `{"body":${bodyText},"clock":"${nextClock({ last: undefined, nowMs: at })}","deviceId":"${deviceId}","deviceSeq":${nth * EVENTS_A_BATCH + n},"happenedAt":${at},"id":"${id}","kind":"${kind}","loggedAt":${at},"person":"${person}","streamId":"${streamId}","version":1}`;
    rows.push({ id, streamId, n, text });
  };
  const litres = 10 + Math.floor(chance() * 190);
  const day = new Date(zeroAt).toISOString().slice(2, 10).replaceAll('-', '');
  note(-30, 'batchOpened', `{"answers":{"milk":{"volumeL":${litres}}},"lotCode":"LK-${day}-${nth}","make":${makeText},"name":"${pot}","zeroAt":${zeroAt}}`); // prettier-ignore
  note(-29, 'planFrozen', '{"members":500,"modelVersion":"1","seed":7,"summary":{"endMin":{"p5":300,"p50":340,"p95":420}}}'); // prettier-ignore
  for (const [index, item] of ['milk.hands', 'milk.surfaces', 'milk.thermometer', 'milk.pot', 'warm.milk-out', 'culture.packet'].entries()) note(-20 + index, 'prepared', `{"item":"${item}"}`); // prettier-ignore
  const steps = make.steps.slice(0, 6).map(({ id }) => id);
  for (const [index, stepId] of steps.entries()) {
    const from = index * 40;
    note(from, 'stepStarted', `{"stepId":"${stepId}"}`);
    for (const later of [8, 20, 32]) {
      const isAcidity = later === 20 && index > 0;
      const value = isAcidity ? (6.7 - index * 0.2 - chance() * 0.1).toFixed(2) : (32 + chance() * 3).toFixed(1);
      note(from + later, 'reading', `{"quantity":"${isAcidity ? 'pH' : 'temperatureC'}","sample":"${index < 3 ? 'milk' : 'curd'}","value":${Number(value)}}`); // prettier-ignore
    }
    note(from + 39, 'stepEnded', `{"said":"Done","stepId":"${stepId}"}`);
  }
  note(41, 'added', '{"amount":1,"fractionOfPlan":1,"ingredient":"culture","lot":"TC-11","unit":"packets"}');
  note(90, 'added', `{"amount":${(litres * 0.2).toFixed(1)},"fractionOfPlan":1,"ingredient":"rennet","lot":"R-7","unit":"mL"}`.replace('.0,', ',')); // prettier-ignore
  for (const timerId of ['set', 'stir']) {
    note(92, 'timerSet', `{"label":"${timerId}","lastsMs":1800000,"startedAt":${zeroAt + 92 * MINUTE_MS},"timerId":"${timerId}"}`); // prettier-ignore
    note(123, 'alarmAnswered', `{"alarmId":"${timerId}","answer":"done"}`);
  }
  note(130, 'noted', `{"text":"${one(NOTES)}${chance() < 0.001 ? `, ${RARE} leaves` : ''}; ${one(NOTES)}"}`);
  if (nth % 2 === 0) note(900, 'tasted', `{"words":"Mild, ${one(NOTES)}"}`);
  note(260, 'weighed', `{"massKg":${Number((litres * (0.09 + chance() * 0.03)).toFixed(2))},"what":"cheese"}`);
  note(270, 'batchFinished', '{}');
  // What is left to fifty: readings of an instrument while it drains.
  for (let minute = 240; rows.length < EVENTS_A_BATCH; minute++) note(minute, 'reading', `{"instrumentId":"probe-1","quantity":"temperatureC","sample":"curd","value":${Number((22 + chance() * 4).toFixed(1))}}`); // prettier-ignore
  return rows;
}

/**
 * Writes batches straight into the file of a store that exists, many rows at a time and without waiting for the disk:
 * nothing is promised to anybody here. The list of batches is made afterwards, by the store itself.
 */
export async function growStore(input: {
  readonly file: string;
  readonly from: number;
  readonly to: number;
  readonly seed: number;
}): Promise<void> {
  const { file, from, to, seed } = input;
  const database = await openNodeSqlite(file);
  const run = (sql: string, parameters: readonly unknown[] = []): void => void database.prepare(sql).run(parameters);
  const places = (rows: number, columns: number): string => Array.from({ length: rows }, () => `(${'?,'.repeat(columns).slice(0, -1)})`).join(','); // prettier-ignore
  database.prepare('PRAGMA synchronous = OFF').run([]);
  database.prepare('PRAGMA cache_size = -200000').all([]);
  for (let first = from; first < to; first += BATCHES_IN_ONE) {
    run('begin');
    for (let nth = first; nth < Math.min(first + BATCHES_IN_ONE, to); nth++) {
      const rows = batchRows({ nth, seed });
      for (let at = 0; at < rows.length; at += ROWS) {
        const part = rows.slice(at, at + ROWS);
        run(`insert into log (stream_id, n, id, event) values ${places(part.length, 4)}`, part.flatMap(({ streamId, n, id, text }) => [streamId, n, id, text])); // prettier-ignore
      }
      run('insert into streams (stream_id, last, changed_at) values (?, ?, ?)', [rows[0]?.streamId, rows.length, FIRST_DAY]); // prettier-ignore
    }
    run('commit');
  }
  database.prepare('PRAGMA wal_checkpoint(TRUNCATE)').all([]);
  database.close();
}
