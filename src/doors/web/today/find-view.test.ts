import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { demoEvents, parseDemo } from '../../../exchange/demo.ts';
import { openWriter } from '../../../exchange/written.ts';
import { parseMake } from '../../../make/make.ts';
import type { Event } from '../../../record/event.ts';
import { findView, foundWords, MOST_FOUND } from './find-view.ts';

const read = (path: string): unknown => JSON.parse(readFileSync(fileURLToPath(new URL(`../../../../${path}`, import.meta.url)), 'utf8')); // prettier-ignore
const makes = ['ball', 'string'].map((name) => parseMake(read(`makes/stretched-${name}.json`)));
const streams = new Map<string, Event[]>();
for (const event of demoEvents({ demo: parseDemo(read('demo/larkenshaw.json')), makes, nowAt: Date.UTC(2026, 10, 25, 11) })) {
  // As the maker's own: the example itself is not searched.
  const { demo: _demo, ...body } = event.body;
  const streamId = event.streamId.replace(':demo-', ':');
  streams.set(streamId, [...(streams.get(streamId) ?? []), { ...event, streamId, body }]);
} // prettier-ignore
const old = {
  batchId: 'batch:old',
  name: 'Old',
  lotCode: 'LK-0',
  zeroAt: 0,
  finishedAt: 3_600_000,
  milkL: 10,
  cheeseKg: 1.1,
};
const found = (search: string, onServer = [old]) =>
  findView({ streams, search, onServer, say: (key) => key, write: openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' }) }); // prettier-ignore

describe('finding a make', () => {
  it('shows nothing before anything is asked', () => expect(found('  ')).toEqual([]));

  it('finds what is on the device by its name or lot, and then what only the server has', () => {
    const lines = found('lk-1112');
    expect(lines.map(({ name }) => name)).toEqual(['Ash', 'Old']);
    expect(lines[1]).toMatchObject({ batchId: 'old', lotCode: 'LK-0', came: 'today:finished.came' });
    expect(found('ASH', []).map(({ lotCode }) => lotCode)).toContain('LK-1112-ASH');
  });

  it('shows a batch that is on the device as it stands here, and once', () => {
    const [here] = found('lk-1112', []);
    const twice = found('lk-1112', [{ ...old, batchId: `batch:${here?.batchId ?? ''}` }]);
    expect(twice).toEqual([here]);
  });

  it('tells the day with its year: of all that were ever made, a day alone is none', () =>
    expect(found('old')[0]?.day).toBe('1 January 1970'));

  it('says how many have the words, when there are more, when there are none, and when only this device was asked', () => {
    const told = (count: number, isHereOnly: boolean | null): string =>
      foundWords({ count, isHereOnly, say: (key) => key });
    expect(told(3, false)).toBe('today:find.found');
    expect(told(MOST_FOUND, false)).toBe('today:find.most');
    expect(told(0, false)).toBe('today:find.none');
    expect(told(0, true)).toBe('today:find.none today:find.hereOnly');
    // Nothing here is nothing at all only once the server has been asked.
    expect(told(0, null)).toBe('');
    expect(told(2, null)).toBe('today:find.found');
  });

  it('asks for all the words', () => expect(found('ash nobody-wrote-this', [])).toEqual([]));
});
