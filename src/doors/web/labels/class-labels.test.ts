import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import type { Event } from '../../../record/event.ts';
import { newEvent, type DeviceState } from '../../../record/new-event.ts';
import { classLabels, classNotes, classOf, classProblems, firstClassChoices, netsOf } from './class-labels.ts';

const read = (path: string): object => JSON.parse(readFileSync(path, 'utf8')) as object;
const catalogue = Object.fromEntries(readdirSync('words/en-GB').map((file) => [file.replace('.json', ''), read(`words/en-GB/${file}`)])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': catalogue } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });

const NINE = Date.UTC(2026, 2, 4, 9);
const make = read('makes/quick-stretched.json');
let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
let count = 0;
const event = (streamId: string, kind: string, body: object, minutes: number): Event => {
  const happenedAt = NINE + minutes * 60_000;
  const made = newEvent({ kind, body, streamId, happenedAt, loggedAt: happenedAt, person: '', device, randomBytes: new Uint8Array(10).fill((count += 1)) }); // prettier-ignore
  device = made.device;
  return made.event;
};

/** A class of pots, each with what was put on the scale after it was packed [kg]. */
function klass(weights: readonly (readonly [name: string, what: 'cheese' | 'piece', kg: readonly number[]])[], id = 'k'): ReadonlyMap<string, readonly Event[]> {
  return new Map(
    weights.map(([name, what, kg], index) => {
      const pot = `batch:${name.toLowerCase()}`;
      const together = { id, of: weights.length, nth: index + 1 };
      const opened = { make, answers: { milk: { volumeL: 2 } }, name, lotCode: `260304-${index + 1}`, zeroAt: NINE, together };
      return [pot, [event(pot, 'batchOpened', opened, 0), event(pot, 'stepStarted', { stepId: 'pack' }, 90), event(pot, 'stepEnded', { stepId: 'pack', said: 'Packed' }, 100), ...kg.map((massKg) => event(pot, 'weighed', { what, massKg }, 105))]];
    }),
  );
} // prettier-ignore

const streams = klass([
  ['Birch', 'piece', [0.121, 0.164]],
  ['Ash', 'cheese', [0.287]],
  ['Cedar', 'cheese', []],
]);
const alone = klass([['Oak', 'cheese', [0.3]]], 'another day');
const pots = classOf({ batchId: 'batch:ash', streams: new Map([...streams, ...alone]), isReady: true });

describe('the labels of a class', () => {
  it('are of the pots that were opened together, in that order, and of no other', () => {
    expect(pots.map(({ record }) => record.name)).toEqual(['Birch', 'Ash', 'Cedar']);
  });

  it('carry each pot’s own name, lot and weight: one for each piece that was weighed, a blank where none was', () => {
    const labels = classLabels({ pots, choices: firstClassChoices(pots), telling: { say, write } });
    expect(labels.map(({ pot, lot, netWeight }) => [pot, lot, netWeight])).toEqual([
      ['Birch', '260304-1', '121\u202Fg'],
      ['Birch', '260304-1', '164\u202Fg'],
      ['Ash', '260304-2', '287\u202Fg'],
      ['Cedar', '260304-3', null],
    ]);
    expect(pots.map(({ record }) => netsOf(record))).toEqual([['121', '164'], ['287'], ['']]);
  });

  it('have one last day, not before any of the pots was packed, and are noted once in each record', () => {
    const choices = firstClassChoices(pots);
    // Five days after it was packed, by the make's own keeping time.
    expect(choices).toMatchObject({ dating: 'useBy', day: '2026-03-09' });
    expect(classProblems({ pots, choices, say, write })).toEqual({});
    expect(classProblems({ pots, choices: { ...choices, day: '2026-03-03' }, say, write }).day).toBeDefined();
    const notes = classNotes(pots, choices);
    expect(notes.map(({ streamId }) => streamId)).toEqual(['batch:birch', 'batch:ash', 'batch:cedar']);
    const noted = new Map([...streams].map(([id, events]) => [id, [...events, ...notes.filter(({ streamId }) => streamId === id).map(({ kind, body }) => event(id, kind, body, 120))]])); // prettier-ignore
    expect(classNotes(classOf({ batchId: 'batch:ash', streams: noted, isReady: true }), choices)).toEqual([]);
  });
});
