import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { foldBatch } from '../../../record/fold.ts';
import { newEvent } from '../../../record/new-event.ts';
import type { Event } from '../../../record/event.ts';
import type { Note } from '../log/event-log.ts';
import { answersFor, clockAheadMs } from './file-answers.ts';
import { fateLines, faultText, fileView, rowRanges } from './file-view.ts';
import type { Ears, Instrument } from './instrument.ts';
import { keepFor, keptFor } from './kept-mappings.ts';
import { liveView, postedView } from './live-view.ts';
import { ProbeHold } from './probe-hold.ts';
import { rowsOf, textOf } from './read-rows.ts';

const WORDS = fileURLToPath(new URL('../../../../words/en-GB/', import.meta.url));
const catalogue = Object.fromEntries(readdirSync(WORDS).map((file) => [file.replace('.json', ''), JSON.parse(readFileSync(WORDS + file, 'utf8')) as object])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': catalogue } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });

/** Eight in the morning on the clock of whoever runs this. */
const MORNING = new Date(2026, 2, 4, 8).getTime();
const STREAM = 'batch:ash';

beforeEach(() => {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value), removeItem: (key: string) => void kept.delete(key) }); // prettier-ignore
});

/** Events of one batch whose first step has begun, and what was noted since. */
function eventsOf(notes: readonly { kind: string; body: object; minute: number }[], deviceId = 'tablet'): Event[] {
  const make = { steps: [{ id: 'warm', verb: 'warm' }] };
  const opened = { make, answers: { milk: { volumeL: 10 } }, name: 'Ash', lotCode: 'A1', zeroAt: MORNING };
  const all = [{ kind: 'batchOpened', body: opened, minute: 0 }, { kind: 'stepStarted', body: { stepId: 'warm' }, minute: 0 }, ...notes]; // prettier-ignore
  return all.map(({ kind, body, minute }, deviceSeq) => newEvent({ kind, body, streamId: STREAM, happenedAt: MORNING + minute * 60_000, loggedAt: MORNING + deviceSeq, person: '', device: { deviceId, deviceSeq, clock: undefined }, randomBytes: new Uint8Array(10).fill(deviceSeq + 1) }).event); // prettier-ignore
}
const recordOf = (...given: Parameters<typeof eventsOf>): BatchRecord => foldBatch(eventsOf(...given));

describe("a logger's file on the screen", () => {
  const text = 'Time;Temp\r\n08:00;32,5\r\n08:10;33,1\r\n';

  it('is cut at semicolons before commas, and read in the writing it was saved in', () => {
    expect(rowsOf(text)).toEqual([
      ['Time', 'Temp'],
      ['08:00', '32,5'],
      ['08:10', '33,1'],
    ]);
    expect(rowsOf('Time,"Temp, °C"\n08:00,32.5')).toEqual([
      ['Time', 'Temp, °C'],
      ['08:00', '32.5'],
    ]);
    const western = new Uint8Array([0x54, 0x20, 0xb0, 0x43]).buffer;
    expect([textOf(new TextEncoder().encode('T °C').buffer), textOf(western)]).toEqual(['T °C', 'T °C']);
    expect(textOf(new Uint8Array([0xff, 0xfe, 0x54, 0, 0xb0, 0]).buffer).replace('\uFEFF', '')).toBe('T°');
  });

  it('asks for the unit once, and takes the next file with this heading as the first', () => {
    const first = answersFor({ name: 'a.csv', rows: rowsOf(text), keptFor });
    expect(fileView({ answers: first, record: recordOf([]), nowAt: MORNING + 3_600_000 }).questions).toEqual(['unit']);
    const mapping = { ...first.mapping, temperature: { column: 1, unit: 'C' as const } };
    keepFor(first.signature, mapping, 'curd');
    const next = answersFor({ name: 'b.csv', rows: rowsOf(text), keptFor });
    expect([next.isRemembered, next.sample]).toEqual([true, 'curd']);
    const { outcome } = fileView({ answers: next, record: recordOf([]), nowAt: MORNING + 3_600_000 });
    expect(outcome?.readings.map(({ value, at }) => [value, (at - MORNING) / 60_000])).toEqual([
      [32.5, 0],
      [33.1, 10],
    ]);
    expect(answersFor({ name: 'c.csv', rows: rowsOf('Zeit;Temp\n08:00;1\n08:01;2'), keptFor }).isRemembered).toBe(false); // prettier-ignore
  });

  it('is moved by what the clock was out, which has to be a number', () => {
    expect(clockAheadMs({ clock: 'behind', clockBy: '2,5' })).toBe(-150_000);
    expect([clockAheadMs({ clock: 'ahead', clockBy: '' }), clockAheadMs({ clock: 'ahead', clockBy: 'x' })]).toEqual([null, null]); // prettier-ignore
  });

  it('tells what became of every row, and names the cell that is wrong', () => {
    const rows = rowsOf('Time,Temp °C\n08:00,32\n08:01,32.1\n08:02,=A1\n\n08:10,34\n23:59,33');
    const { outcome } = fileView({ answers: answersFor({ name: 'a.csv', rows, keptFor }), record: recordOf([]), nowAt: MORNING + 3_600_000 }); // prettier-ignore
    if (outcome === null) throw new Error('nothing was to be asked');
    const lines = fateLines(outcome, { say, write });
    expect(lines.map((line) => line.split(/ (?:row|rows) /)[0])).toEqual(['2', 'One', 'One', 'One', 'One', 'One']);
    expect(lines[1]).toContain('One temperature is kept each 2');
    expect(outcome.faults.map((fault) => faultText(fault, say))).toEqual(['Row 4, “Temp °C”: “=A1” is no number. 36.4 or 36,4 would do.']); // prettier-ignore
    expect([rowRanges(outcome.fates, 'thinned'), rowRanges(['fault', 'fault', 'blank', 'fault'], 'fault')]).toEqual(['3', '1–2, 4']); // prettier-ignore
  });
});

describe('a probe that is held', () => {
  /** A probe whose ears the test has, in a batch with these events. */
  async function held(events: readonly Event[]) {
    let ears: Ears | null = null;
    let nowAt = MORNING + 60_000;
    const notes: Note[] = [];
    const ended: string[] = [];
    const instrument: Instrument = {
      id: 'serial probe, 9600 baud',
      listen: (given) => {
        ears = given;
        return Promise.resolve(() => Promise.resolve(void ended.push('ended')));
      },
    };
    const log = { record: (note: Note) => Promise.resolve(void notes.push(note)), snapshot: () => ({ streams: new Map([[STREAM, events]]) }) }; // prettier-ignore
    const hold = new ProbeHold(() => nowAt);
    await hold.connect({ instrument, found: { kind: 'bluetooth' }, streamId: STREAM, log });
    const at = (minute: number): void => void (nowAt = MORNING + minute * 60_000);
    const seen = (): ReturnType<typeof liveView> => liveView({ state: hold.snapshot(), streamId: STREAM, nowAt, say, write }); // prettier-ignore
    return { hold, notes, ended, at, seen, ears: () => ears ?? expect.fail('nobody listens') };
  }

  it('notes what is due with its instrument and sample, and shows the rest', async () => {
    const { notes, ears, at, seen } = await held(eventsOf([]));
    ears().heard({ quantity: 'temperatureC', value: 31.2 });
    at(2);
    ears().heard({ quantity: 'temperatureC', value: 31.3 });
    expect(notes.map(({ body }) => body)).toEqual([{ quantity: 'temperatureC', value: 31.2, sample: 'milk', instrumentId: 'serial probe, 9600 baud' }]); // prettier-ignore
    expect(seen()).toMatchObject({ value: '31.3\u202F°C', isStale: false });
    at(3.1);
    expect(seen()).toMatchObject({ isStale: true, notes: [expect.stringContaining('Nothing heard since')] });
  });

  it('notes nothing before the make has begun', async () => {
    const { notes, ears, seen } = await held(eventsOf([]).slice(0, 1));
    ears().heard({ quantity: 'temperatureC', value: 21 });
    expect([notes.length, seen()?.value, seen()?.noted]).toEqual([0, '21.0\u202F°C', null]);
  });

  it('that goes is let go and told as a note; left out, it is forgotten', async () => {
    const { hold, ears, ended, seen } = await held(eventsOf([]));
    ears().lost();
    expect([ended, seen()?.isGone, hold.snapshot().failed]).toEqual([['ended'], true, null]);
    expect(new ProbeHold().snapshot().status).toBe('waiting');
    await hold.leave();
    expect([seen(), new ProbeHold().snapshot().status]).toEqual([null, 'none']);
  });

  it('is of one vat: another one shows nothing of it', async () => {
    const { hold } = await held(eventsOf([]));
    expect(liveView({ state: hold.snapshot(), streamId: 'batch:oak', nowAt: MORNING, say, write })).toBeNull();
  });
});

describe('what a script sent', () => {
  const sent = { kind: 'reading', body: { quantity: 'temperatureC', value: 33.3, sample: 'milk', instrumentId: 'vat probe' }, minute: 5 }; // prettier-ignore
  const seenAt = (minute: number, deviceId?: string) => postedView({ record: recordOf([sent], deviceId), nowAt: MORNING + minute * 60_000, say, write }); // prettier-ignore

  it('stands on the card with its name, grows old after five minutes and leaves after half an hour', () => {
    expect(seenAt(6, 'server-1')).toMatchObject({ name: 'vat probe', value: '33.3\u202F°C', isStale: false });
    expect(seenAt(11, 'server-1')?.isStale).toBe(true);
    expect([seenAt(36, 'server-1'), seenAt(6)]).toEqual([null, null]);
  });
});
