import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { batchSummary, summaryOf } from './batch-summary.ts';
import type { Event } from './event.ts';
import { foldBatch } from './fold.ts';
import { newEvent, type DeviceState } from './new-event.ts';
import { foldedText, searchText, searchWords } from './search-text.ts';

const make: unknown = JSON.parse(
  readFileSync(fileURLToPath(new URL('../../makes/tomme.json', import.meta.url)), 'utf8'),
);

let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
const note = (kind: string, body: unknown): Event => {
  const at = 1_790_000_000_000 + device.deviceSeq * 60_000;
  const randomBytes = new Uint8Array(10).fill(device.deviceSeq);
  const made = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: 'M', device, randomBytes }); // prettier-ignore
  device = made.device;
  return made.event;
};

const opened = note('batchOpened', { make, answers: { milk: { volumeL: 40 } }, name: 'Ash', lotCode: 'LK-1', zeroAt: 1_790_000_000_000 }); // prettier-ignore
const reading = note('reading', { quantity: 'temperatureC', value: 32, sample: 'milk' });
const piece = note('weighed', { what: 'piece', massKg: 2 });
const events = [
  opened, reading, note('stepStarted', { stepId: 'warm' }), piece, note('noted', { text: 'Foam' }), note('weighed', { what: 'piece', massKg: 2.2 }),
  // A reading that turned out to be a note, and a weight that was set right twice.
  note('corrected', { replaces: reading.id, kind: 'noted', body: { text: 'Thermometer is broken' } }),
  note('corrected', { replaces: piece.id, kind: 'weighed', body: { what: 'piece', massKg: 2.1 } }),
  note('tasted', { words: 'Hazelnuts' }), note('batchFinished', { note: 'Late' }),
]; // prettier-ignore

describe('the summary of a batch', () => {
  it('says the same as its whole record, in whatever order and however often its events came', () => {
    const summary = batchSummary(events);
    expect(summary).toEqual(summaryOf(foldBatch(events)));
    expect(batchSummary([...events, ...events].reverse())).toEqual(summary);
    expect(summary).toMatchObject({ batchId: 'batch:ash', makeId: 'tomme', makeName: 'Tomme', state: 'over', milkL: 40, cheeseKg: 2.1 + 2.2, finishedAt: events.at(-1)?.happenedAt }); // prettier-ignore
    expect(summary?.search.split('\n')).toEqual(['ash', 'lk-1', 'tomme', 'tomme', 'thermometer is broken', 'foam', 'hazelnuts', 'late']); // prettier-ignore
  });

  it('is ready until a step begins, and nothing at all until the batch is opened', () => {
    expect(batchSummary([opened, reading])?.state).toBe('ready');
    expect(batchSummary(events.slice(0, 3))?.state).toBe('running');
    expect(batchSummary(events.slice(1))).toBe(null);
    expect(batchSummary([])).toBe(null);
  });
});

describe('searched text', () => {
  it('has no accents, no capitals and one blank where several were', () => {
    expect(foldedText('  Crème   FRAÎCHE\nÅre, Straße, Čeština, ½ ')).toBe('creme fraiche are, strasse, cestina, 1⁄2');
    expect(searchWords(' Señor  nuts ')).toEqual(['senor', 'nuts']);
    expect(searchWords('  ')).toEqual([]);
  });

  it('keeps texts apart and ends somewhere', () => {
    expect(searchText(['Ash', '', 'B'])).toBe('ash\nb');
    expect(searchText(['x'.repeat(30_000)])).toHaveLength(20_000);
  });
});
