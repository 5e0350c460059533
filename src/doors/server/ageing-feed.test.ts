import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Hono } from 'hono';
import ICAL from 'ical.js';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { keptStream } from '../../../tests/kept-streams.ts';
import type { ServedStore } from '../../store/kept-store.ts';
import { openSqliteStore } from '../../store/sqlite.ts';
import { createApp } from './app.ts';
import { readShelf } from './make-routes.ts';

/** The ageing room as a phone's calendar takes it in: fetched, and read by a parser that knows nothing of Vatside. */

let folder: string;
let store: ServedStore;
let app: Hono;
let now: number;
const at = (text: string): number => Date.parse(text);

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'vatside-feed-'));
  store = await openSqliteStore({ file: join(folder, 'log.sqlite'), nowMs: 0 });
  now = at('2026-03-02T12:00:00Z');
  app = createApp({ store, shelf: readShelf('makes'), sums: new Map(), now: () => now });
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true });
});

const post = async (...streams: (readonly unknown[])[]): Promise<void> => {
  for (const events of streams) {
    const answer = await app.request('/api/events', { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ events }) }); // prettier-ignore
    expect(await answer.text()).not.toContain('refused');
  }
};

interface Read {
  readonly text: string;
  readonly events: readonly ICAL.Event[];
  /** Days with something to do, `2026-03-03`. */
  readonly days: readonly string[];
  readonly on: (day: string) => ICAL.Event | undefined;
}

async function fetched(): Promise<Read> {
  const text = await (await app.request('/api/ageing.ics')).text();
  const calendar = ICAL.Component.fromString(text);
  const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one, { strictExceptions: true }));
  return {
    text,
    events,
    days: events.map(({ startDate }) => startDate.toString()).toSorted(),
    on: (day) => events.find(({ startDate }) => startDate.toString() === day),
  };
}

const TURNED_TWICE_A_WEEK = { stays: [{ every: { turn: 3.5, brush: 7 } }], tasteDays: [20], source: 'common practice (no source)' }; // prettier-ignore
const CAVE = 'Cave, north; behind the door\\stairs';
const cave = keptStream('place:cave', [['2026-01-01', 'placeTold', { name: CAVE, kind: 'cave' }]]);
/** A wheel of the first of March; each was noted at a moment of its own. */
const wheel = (id: string, name: string, since: readonly (readonly [string, string, object])[] = []) =>
  keptStream(`piece:${id}`, [[at('2026-03-01T09:00:00Z') + id.charCodeAt(0), 'pieceMade', { name, cheese: 'Tomme', madeOn: '2026-03-01', rind: 'bare', place: 'place:cave', care: TURNED_TWICE_A_WEEK }], ...since]); // prettier-ignore

describe('the ageing feed, read by another program', () => {
  it('gives every entry an id of its own, a stamp, a whole day and what is to be done', async () => {
    await post(cave, wheel('a', 'Wheel A'), wheel('b', 'Wheel B'));
    const { events, days } = await fetched();
    expect(events.length).toBeGreaterThan(20);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    expect(new Set(days).size).toBe(days.length);
    for (const { uid, component, startDate, summary } of events) {
      expect(uid).toMatch(/^ageing\.\d{4}-\d\d-\d\d@vatside$/);
      expect(String(component.getFirstPropertyValue('dtstamp'))).toBe('2026-03-02T12:00:00Z');
      expect(startDate.isDate).toBe(true);
      expect(summary).toMatch(/^Ageing: (turn|brush|taste) \d/);
      expect(component.getAllSubcomponents('valarm')).toHaveLength(1);
    }
  });

  it('is worked out once for many who ask at once, and anew when something was noted or time has gone by', async () => {
    await post(cave, wheel('a', 'Wheel A'));
    const read = vi.spyOn(store, 'readStream');
    const first = await Promise.all([fetched(), fetched(), fetched()]);
    expect(new Set(first.map(({ text }) => text)).size).toBe(1);
    const once = read.mock.calls.length;
    expect(once).toBeLessThanOrEqual(2);
    expect((await fetched()).text).toBe(first[0]?.text);
    expect(read).toHaveBeenCalledTimes(once);
    await post(wheel('b', 'Wheel B'));
    expect((await fetched()).text).toContain('Wheel B');
    now += 3_600_000;
    expect((await fetched()).text).toContain('DTSTAMP:20260302T130000Z');
  });

  it('gives back names as they were typed, whatever signs are in them and however long the line', async () => {
    await post(
      cave,
      wheel('a', 'Wheel A, “the big one”; 8 kg'),
      wheel('b', 'Rueda número dos, con su cáscara — mirar'),
    );
    const { text, events } = await fetched();
    expect(events.some(({ description }) => description.includes(`turn: Wheel A, “the big one”; 8 kg (${CAVE})\n`))).toBe(true); // prettier-ignore
    expect(events.some(({ description }) => description.includes('Rueda número dos, con su cáscara — mirar'))).toBe(true); // prettier-ignore
    const lines = text.split('\r\n');
    expect(lines.some((line) => line.startsWith(' '))).toBe(true);
    for (const line of lines) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('keeps its ids from one fetch to the next, so that a phone has no day twice', async () => {
    await post(cave, wheel('a', 'Wheel A'));
    const first = await fetched();
    now = at('2026-03-02T18:00:00Z');
    const again = await fetched();
    expect(again.events.map(({ uid }) => uid)).toEqual(first.events.map(({ uid }) => uid));
    expect(String(again.events[0]?.component.getFirstPropertyValue('dtstamp'))).toBe('2026-03-02T18:00:00Z');
    await post(wheel('b', 'Wheel B'));
    const more = await fetched();
    expect(more.events.map(({ uid }) => uid)).toEqual(first.events.map(({ uid }) => uid));
    expect(more.on(first.days[0] ?? '')?.description).toContain('Wheel B');
  });

  it('counts on from the day on which a missed turn was done, and asks for no turn twice', async () => {
    await post(cave, wheel('a', 'Wheel A', [['2026-03-04', 'pieceTurned', {}]]));
    now = at('2026-03-20T12:00:00Z');
    const late = await fetched();
    // Two weeks and more without a hand: it is to be done today, once, and then by its rhythm.
    expect(late.days[0]).toBe('2026-03-20');
    expect(late.on('2026-03-20')?.summary).toContain('turn 1');
    expect(late.on('2026-03-20')?.description.match(/turn: Wheel A/g)).toHaveLength(1);
    await post(
      wheel('c', 'Wheel C', [
        ['2026-03-20', 'pieceTurned', {}],
        ['2026-03-20', 'pieceBrushed', {}],
      ]),
    );
    const turned = (await fetched()).events.filter(({ description }) => description.includes('turn: Wheel C'));
    expect(turned[0]?.startDate.toString()).toMatch(/^2026-03-2[34]$/);
  });

  it('lays nothing into the days on which nobody is there, and what falls there round them', async () => {
    await post(cave, wheel('a', 'Wheel A'));
    const before = await fetched();
    const inTheWeek = (day: string): boolean => day >= '2026-03-09' && day <= '2026-03-15';
    expect(before.days.some(inTheWeek)).toBe(true);
    await post(keptStream('day:away', [['2026-03-02', 'awayPlanned', { from: '2026-03-09', to: '2026-03-15' }]]));
    const during = await fetched();
    const left = during.events.filter(({ startDate }) => inTheWeek(startDate.toString()));
    // What cannot wait a week stays, and says that somebody else must do it.
    for (const { description } of left) for (const line of description.split('\n')) expect(line).toMatch(/: Wheel A .*\) \p{L}/u); // prettier-ignore
    expect(during.days.some((day) => day === '2026-03-08' || day === '2026-03-16')).toBe(true);
  });
});
