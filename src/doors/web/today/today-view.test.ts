import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { demoEvents, parseDemo } from '../../../exchange/demo.ts';
import { openWriter } from '../../../exchange/written.ts';
import { parseMake } from '../../../make/make.ts';
import type { Event } from '../../../record/event.ts';
import { onlyRunning, todayView } from './today-view.ts';

const read = (path: string): unknown => JSON.parse(readFileSync(fileURLToPath(new URL(`../../../../${path}`, import.meta.url)), 'utf8')); // prettier-ignore
const makes = ['ball', 'string'].map((name) => parseMake(read(`makes/stretched-${name}.json`)));
const nowAt = Date.UTC(2026, 10, 25, 11, 0);
const events = demoEvents({ demo: parseDemo(read('demo/larkenshaw.json')), makes, nowAt });
const streamsOf = (all: readonly Event[]): Map<string, Event[]> => {
  const streams = new Map<string, Event[]>();
  for (const event of all) streams.set(event.streamId, [...(streams.get(event.streamId) ?? []), event]);
  return streams;
};
const view = (all: readonly Event[], now = nowAt) =>
  todayView({
    streams: streamsOf(all),
    makeNames: new Map(makes.map((make) => [make.id, make.name])),
    now,
    say: (key) => key,
    write: openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' }),
  });
/** The same events as if they were the maker's own. */
const own = (all: readonly Event[]): Event[] =>
  all.map((event) => {
    const { demo: _demo, ...body } = event.body;
    return { ...event, streamId: event.streamId.replace(':demo-', ':'), body };
  });

describe('Today', () => {
  it('is empty on a first visit', () => {
    expect(view([])).toMatchObject({ isEmpty: true, running: [], planned: [], finished: [] });
  });

  it('tells what runs, what is planned and what is finished', () => {
    const { running, planned, finished, isEmpty } = view(events);
    expect([running.length, planned.length, finished.length, isEmpty]).toEqual([1, 1, 3, false]);
    expect(running[0]?.isDemo).toBe(true);
    expect(makes.map((make) => make.name)).toContain(planned[0]?.makeName);
  });

  it('says of each finished make what came of it, and nothing of one that nobody weighed', () => {
    const weighedNot = events.filter(({ kind }) => kind !== 'weighed');
    expect(view(events).finished.map(({ came }) => came)).toEqual(Array(3).fill('today:finished.came'));
    expect(view(events).running[0]?.came).toBe(null);
    expect(view(weighedNot).finished.map(({ came }) => came)).toEqual([null, null, null]);
  });

  it('lets a plan go that was not made', () => {
    expect(view(events, nowAt + 3 * 86_400_000).planned).toEqual([]);
  });

  it('leads straight to the vat when one make of the maker’s own runs, never to the example', () => {
    expect(onlyRunning(streamsOf(events))).toBeNull();
    expect(onlyRunning(streamsOf(own(events)))).toMatch(/.+/);
  });
});
