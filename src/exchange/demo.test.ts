import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { simulate } from '../forecast/simulate.ts';
import { parseMake } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import type { BatchRecord } from '../record/batch-record.ts';
import type { Event } from '../record/event.ts';
import { foldBatch } from '../record/fold.ts';
import { dayOf } from '../record/day-number.ts';
import { keptThings } from '../record/kept-things.ts';
import { mergeEvents } from '../record/merge.ts';
import { jobsOfAll } from './ageing/care-feed.ts';
import { demoEvents, parseDemo } from './demo.ts';
import { historyOf } from './history.ts';

const read = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));
const makes = readdirSync('makes').filter((file) => file.endsWith('.json')).map((file) => parseMake(read(`makes/${file}`))); // prettier-ignore
const demo = parseDemo(read('demo/larkenshaw.json'));
const NOW = Date.parse('2026-11-25T10:30:00Z');
const opened = (nowAt: number): Event[] => demoEvents({ demo, makes, nowAt });
const recordOf = (events: readonly Event[], id: string): BatchRecord =>
  foldBatch(events.filter(({ streamId }) => streamId.startsWith(`batch:${id}`)));
const ash = recordOf(opened(NOW), 'demo-ash');
const birch = recordOf(opened(NOW), 'demo-birch');
/** Two earlier makes, for the later one to be held against. */
const earlier = ['demo-fifth-ash', 'demo-october-birch'].map((id) => recordOf(opened(NOW), id));

describe('Larkenshaw', () => {
  it('has a finished batch and two before it, one under way now, and the plan of the next', () => {
    expect(ash.finishedAt).not.toBeNull();
    expect(ash.unknown).toEqual([]);
    expect(new Date(ash.zeroAt).toISOString()).toBe('2026-11-12T08:40:00.000Z');
    expect(earlier.map(({ finishedAt, unknown }) => [finishedAt !== null, unknown])).toEqual([[true, []], [true, []]]); // prettier-ignore
    expect(earlier.every(({ zeroAt }) => zeroAt < ash.zeroAt)).toBe(true);
    expect(birch.finishedAt).toBeNull();
    expect(birch.unknown).toEqual([]);
    expect(NOW - birch.zeroAt).toBe(264 * 60_000);
    expect(Math.max(...birch.entries.map(({ at }) => at))).toBeLessThanOrEqual(NOW);
    const [plan, ...others] = opened(NOW).filter(({ kind }) => kind === 'dayPlanned');
    expect(others).toEqual([]);
    expect(plan?.body).toMatchObject({ makeId: 'stretched-string', startAt: Date.parse('2026-11-26T08:30:00Z') });
  });

  it('says of everything that it is an example, in streams that never leave the device', () => {
    for (const { streamId } of opened(NOW)) expect(streamId).toMatch(/:demo-/);
    expect([ash.demo, birch.demo]).toEqual([true, true]);
  });

  it('follows the steps of its make, each begun and each ended', () => {
    for (const record of [ash, birch, ...earlier]) {
      const plan = planMake({ make: parseMake(record.make), answers: record.answers! });
      expect(record.steps.map(({ stepId }) => stepId)).toEqual(
        plan.steps.slice(0, record.steps.length).map(({ id }) => id),
      );
      const open = record.steps.filter(({ endedAt }) => endedAt === null);
      expect(open).toHaveLength(record === birch ? 1 : 0);
    }
  });

  it('shows one reading set right and one note taken back', () => {
    expect(ash.readings.filter(({ was }) => was.length > 0).map(({ value, was }) => [was[0]?.body['value'], value])).toEqual([[6.26, 6.62]]); // prettier-ignore
    expect(ash.entries.filter(({ retracted }) => retracted !== null)).toHaveLength(1);
  });

  it('can be opened again at any time without a contradiction', () => {
    const first = opened(NOW);
    const later = opened(NOW + 3_600_000);
    const merged = mergeEvents(first, later);
    expect(recordOf(merged, 'demo-ash')).toEqual(ash);
    expect(merged.filter(({ kind }) => kind === 'dayPlanned')).toHaveLength(1);
    expect(mergeEvents(first, opened(NOW))).toHaveLength(first.length);
  });

  it('has cheeses that age, one of them halved, in three places, and a brine; the round has work whenever it is opened', () => {
    for (const nowAt of [NOW, Date.parse('2027-06-02T06:10:00Z')]) {
      const streams = new Map<string, Event[]>();
      for (const event of opened(nowAt)) streams.set(event.streamId, [...(streams.get(event.streamId) ?? []), event]);
      const { pieces, places, brines } = keptThings(streams);
      expect([places.size, brines.length]).toEqual([3, 1]);
      expect([...pieces.values()].filter(({ goneAt }) => goneAt === null)).toHaveLength(5);
      expect([...pieces.values()].filter(({ split }) => split !== null)).toHaveLength(1);
      const dayAt = (at: number): number => dayOf({ at, utcOffsetMin: 0 });
      const jobs = jobsOfAll({ kept: keptThings(streams), dayAt, today: dayAt(nowAt), until: dayAt(nowAt) });
      expect(jobs.map(({ job }) => job)).toContain('turn');
      expect(jobs.some(({ missed }) => missed > 0)).toBe(true);
    }
  });

  it('starts tomorrow by the local clock', () => {
    const plan = demoEvents({ demo, makes, nowAt: Date.parse('2026-11-25T23:30:00Z'), utcOffsetMin: 60 }).at(-1);
    expect(plan?.body).toMatchObject({ startAt: Date.parse('2026-11-27T07:30:00Z') });
  });

  it('lies inside the bands that its steps alone foresee, nine times in ten, give or take the instrument', () => {
    let inside = 0;
    let seen = 0;
    for (const record of [ash, birch, ...earlier]) {
      const plan = planMake({ make: parseMake(record.make), answers: record.answers! });
      const history = historyOf({ record, nowAt: record.finishedAt ?? NOW });
      const { thermometerErrorC } = plan.setup;
      const { bands, gridMin } = simulate({ plan, history: { ...history, readings: [], judgements: [] }, seed: 7, members: 300 }); // prettier-ignore
      for (const { quantity, value, sample, elapsedMin } of history.readings) {
        if (sample === 'water' || sample === 'brine' || sample === 'cheese') continue;
        const band =
          quantity === 'massKg' ? bands.curdKg
          : quantity === 'temperatureC' ? bands.temperatureC
          : quantity !== 'pH' ? null
          : sample === 'whey' ? bands.wheyPH
          : bands.pH; // prettier-ignore
        if (band === null) continue;
        const index = gridMin.findLastIndex((minute) => minute <= elapsedMin);
        const error = quantity === 'temperatureC' ? thermometerErrorC : quantity === 'pH' ? 0.05 : 0.02;
        seen++;
        if (value >= (band.p5[index] ?? NaN) - error && value <= (band.p95[index] ?? NaN) + error) inside++;
      }
    }
    expect(seen).toBeGreaterThan(15);
    expect(inside / seen).toBeGreaterThanOrEqual(0.9);
  });

  it('names the field of a broken example, and the make it lacks', () => {
    expect(() => parseDemo({ about: '', batches: [{}], plans: [], kept: [] })).toThrow(/batches\[0\]\.id/);
    expect(() => demoEvents({ demo, makes: [], nowAt: NOW })).toThrow(/makeId/);
  });
});
