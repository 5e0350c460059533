import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { foldBatch } from '../record/fold.ts';
import type { Event, JsonObject } from '../record/event.ts';
import { newEvent, type DeviceState } from '../record/new-event.ts';
import { explainAsked, faultsSaid, faultTicked } from './explain-record.ts';
import { openWords, sayFrom } from './words.ts';

const read = (path: string): JsonObject => JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')) as JsonObject; // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { explain: read('words/en-GB/explain.json') } } })); // prettier-ignore
const NINE = Date.UTC(2026, 2, 4, 9);
const MINUTE = 60_000;

type Entry = readonly [minute: number, kind: string, body: JsonObject];

/** The record of a batch with these entries, each at its minute. */
function recordOf(...entries: Entry[]): ReturnType<typeof foldBatch> {
  let device: DeviceState = { deviceId: 'tablet', deviceSeq: 0, clock: undefined };
  const opened = { make: read('makes/stretched-ball.json'), answers: { milk: { volumeL: 12 } }, name: 'Ash', lotCode: 'ASH-7K3', zeroAt: NINE }; // prettier-ignore
  const all: Entry[] = [[0, 'batchOpened', opened], ...entries];
  const events = all.map(([minute, kind, body], index): Event => {
    const at = NINE + minute * MINUTE;
    const made = newEvent({ kind, body, streamId: 'batch:ash', happenedAt: at, loggedAt: at, person: '', device, randomBytes: new Uint8Array(10).fill(index) }); // prettier-ignore
    ({ device } = made);
    return made.event;
  });
  return foldBatch(events);
}

const said = (...entries: Entry[]): readonly string[] | null =>
  faultsSaid({ record: recordOf(...entries), say })?.map(({ fault, isThere }) => `${isThere ? '' : 'not '}${fault}`) ??
  null;

describe('what was said of a cheese', () => {
  it('is nothing at all where nobody said anything, and no fault where it was only praised', () => {
    expect(said()).toBeNull();
    expect(said([400, 'tasted', { words: 'Milky and clean.' }])).toEqual([]);
  });

  it('is heard in the words of a tasting, turned round by "not", and not in notes about cloths', () => {
    expect(said([400, 'tasted', { words: 'Far too salty, and it was bitter.' }])).toEqual(['too-salty', 'bitter']);
    expect(said([400, 'tasted', { words: 'It is not bitter.' }])).toEqual([]);
    expect(said([100, 'noted', { text: 'The cloth was dry.' }])).toBeNull();
    expect(said([300, 'noted', { text: 'It tore in the water.' }])).toEqual(['tears']);
  });

  it('is ticked and unticked by taps, and a tap counts for more than words', () => {
    const tick = (fault: 'bitter' | 'sour', isThere: boolean): Entry => [500, 'answered', faultTicked(fault, isThere)];
    expect(said(tick('bitter', true))).toEqual(['bitter']);
    expect(said(tick('bitter', true), tick('bitter', false))).toEqual(['not bitter']);
    expect(said([400, 'tasted', { words: 'Sour.' }], tick('sour', false))).toEqual(['not sour']);
  });

  it('is a mishap noted at the vat too', () => {
    expect(said([100, 'mishap', { what: 'noSet' }])).toEqual(['never-set']);
  });
});

describe('the record that is weighed', () => {
  const steps: Entry[] = [
    [0, 'stepStarted', { stepId: 'warm' }],
    [30, 'stepEnded', { stepId: 'warm' }],
    [30, 'stepStarted', { stepId: 'add-culture' }],
  ];
  const nowMin = (record: ReturnType<typeof foldBatch>, nowAt?: number): number =>
    explainAsked({ record, say, ...(nowAt === undefined ? {} : { nowAt }) }).history.nowMin;

  it('ends with the last thing done, whenever it was tasted or answered', () => {
    expect(nowMin(recordOf(...steps, [3000, 'tasted', { words: 'Good.' }]))).toBe(30);
    expect(nowMin(recordOf(...steps, [3000, 'answered', { question: 'rennet-age', answer: 'yes' }]))).toBe(30);
  });

  it('goes on to now while a make is still waited for, and not the day after or once it is closed', () => {
    expect(nowMin(recordOf(...steps), NINE + 200 * MINUTE)).toBe(200);
    expect(nowMin(recordOf(...steps), NINE + 2000 * MINUTE)).toBe(30);
    expect(nowMin(recordOf(...steps, [31, 'batchFinished', {}]), NINE + 200 * MINUTE)).toBe(30);
  });

  it('takes the last answer to each question, and leaves faults out of the answers', () => {
    const record = recordOf(
      ...steps,
      [500, 'answered', { question: 'rennet-age', answer: 'yes' }],
      [501, 'answered', { question: 'rennet-age', answer: 'not-sure' }],
      [502, 'answered', faultTicked('sour', true)],
    );
    expect(explainAsked({ record, say }).answers).toEqual([{ question: 'rennet-age', answer: 'not-sure' }]);
  });
});
