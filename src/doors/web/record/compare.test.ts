import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { demoEvents, parseDemo } from '../../../exchange/demo.ts';
import { historyOf } from '../../../exchange/history.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { parseMake } from '../../../make/make.ts';
import type { Event } from '../../../record/event.ts';
import { openBatch } from '../vat/batch.ts';
import { othersOf, type OpenBatch } from './compare-batches.ts';
import { courseOf, plannedCourse, type Course } from './compare-course.ts';
import { axisTicks, labelPlaces } from './compare-layout.ts';
import { reachesMin } from './compare-told.ts';
import { alignmentsOf, batchLabels, compareView } from './compare-view.ts';

const read = (path: string): object => JSON.parse(readFileSync(path, 'utf8')) as object;
const files = readdirSync('words/en-GB').map((file) => [file.replace('.json', ''), read(`words/en-GB/${file}`)]);
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': Object.fromEntries(files) as Record<string, object> } })); // prettier-ignore
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const words = { say, write };
const makes = ['ball', 'string'].map((name) => parseMake(read(`makes/stretched-${name}.json`)));
const events = demoEvents({ demo: parseDemo(read('demo/larkenshaw.json')), makes, nowAt: Date.UTC(2026, 10, 25, 11) });
const streams = new Map<string, Event[]>();
for (const event of events) streams.set(event.streamId, [...(streams.get(event.streamId) ?? []), event]);

function opened(streamId: string, without: (event: Event) => boolean = () => false): OpenBatch {
  const batch = openBatch({ streamId, events: (streams.get(streamId) ?? []).filter((event) => !without(event)), isReady: true }); // prettier-ignore
  if (batch.state !== 'open') throw new Error(`${streamId} is not in the example`);
  return batch;
}
const ash = opened('batch:demo-ash');
const others = othersOf({ mine: ash, streams });
const course = (batch: OpenBatch, label: string, forecast: Parameters<typeof courseOf>[0]['forecast'] = null): Course => {
  const made = courseOf({ ...batch, forecast, alignment: 'rennet', label });
  if (made === null) throw new Error('no rennet was noted');
  return made;
}; // prettier-ignore
const labels = batchLabels([ash, ...others].map(({ record }) => record), words); // prettier-ignore
const mine = course(ash, labels[0] ?? '');
const beside = others.map((batch, index) => course(batch, labels[index + 1] ?? ''));
const view = (input: Partial<Parameters<typeof compareView>[0]> = {}) => compareView({ mine, others: beside, plan: ash.plan, alignment: 'rennet', words, ...input }); // prettier-ignore
const moist = (of: Course, value: number): Course => ({ ...of, figures: { ...of.figures, moisturePercent: { value, low: value - 3, high: value + 3, isWorkedOut: true } } }); // prettier-ignore

describe('a batch beside others of its make', () => {
  it('is held against the finished ones, newest first, and called by its day', () => {
    expect(labels).toEqual(['12 Nov', '5 Nov', '29 Oct']);
    expect(alignmentsOf([ash, ...others])).toEqual(['rennet', 'firstReading', 'clock']);
  });

  it('says in one sentence how much slower it was, to what, and in which step', () => {
    // By hand: 5.4 between 5.46 at 274 and 5.33 at 286 min, rennet at 79: 200.5 min; the others 175 and 183.6.
    expect(reachesMin(mine.points, 5.4)).toBeCloseTo(200.54, 1);
    expect(view().sentence).toBe('12 Nov was 21\u202Fmin slower to pH 5.4 than your other 2. Most of it came in “Rest in the whey”, which took 12\u202Fmin longer.'); // prettier-ignore
  });

  it('says how much moister it came, and that this is worked out', () => {
    const sentence = view({ mine: moist(mine, 58), others: beside.map((one) => moist(one, 55)) }).sentence;
    expect(sentence).toContain('than your other 2, and 3 points moister (worked out).');
    expect(view({ mine: moist(mine, 55.4), others: beside.map((one) => moist(one, 55)) }).sentence).toContain('about as moist'); // prettier-ignore
  });

  it('is quicker the other way round', () => {
    const [fifth, ...rest] = beside;
    expect(view({ mine: fifth ?? mine, others: [mine, ...rest] }).sentence).toMatch(/^5 Nov was \d+\u202Fmin quicker to pH 5\.3/); // prettier-ignore
  });

  it('shows as numbers exactly what it plots', () => {
    const { lines, numbers } = view();
    expect(numbers).toHaveLength(lines.flatMap(({ points }) => points).length);
    expect(numbers.map(([label, , value]) => [label, Number(value)])).toEqual(
      lines.flatMap(({ label, points }) => points.map(({ value }) => [label, value])),
    );
    expect(new Set(numbers.map(([, , , basis]) => basis))).toEqual(new Set(['read']));
  });

  it('lists the largest difference first, with units and the span of the others', () => {
    const { rows } = view();
    expect(rows.map(({ size }) => size)).toEqual(rows.map(({ size }) => size).sort((a, b) => b - a));
    expect(rows[0]).toMatchObject({ id: 'rest-in-whey', mine: '2\u202Fh 41\u202Fmin', others: '2\u202Fh 24\u202Fmin to 2\u202Fh 29\u202Fmin' }); // prettier-ignore
    expect(rows.find(({ id }) => id === 'pHAtStretch')).toMatchObject({ mine: '5.33', others: '5.23 to 5.24', difference: '+0.09' }); // prettier-ignore
  });

  it('draws the forecast run again where there are too few readings, says so, and names two readings that would help', () => {
    const unread = opened('batch:demo-ash', ({ kind, body }) => kind === 'reading' && body['quantity'] === 'pH');
    const forecast = simulate({ plan: unread.plan, history: historyOf({ record: unread.record, nowAt: Infinity }), seed: 7, members: 40 }); // prettier-ignore
    const told = view({ mine: course(unread, '12 Nov', forecast) });
    expect(told.lines.map(({ isWorkedOut }) => isWorkedOut)).toEqual([true, false, false]);
    expect(told.lines[0]?.points.length).toBeGreaterThan(10);
    expect(told.numbers[0]?.[3]).toBe('worked out');
    expect(told.help).toBe('Two readings would say more next time: pH at “Drain and weigh”, and pH at “Keep warm and turn”.'); // prettier-ignore
  });

  it('compares the ends of the steps where nobody has a meter', () => {
    const unread = (batch: OpenBatch): Course => course(opened(batch.streamId, ({ kind, body }) => kind === 'reading' && body['quantity'] === 'pH'), batch.record.name); // prettier-ignore
    const plan = { ...ash.plan, setup: { ...ash.plan.setup, pHMeter: false } };
    const told = view({ mine: unread(ash), others: others.map(unread), plan });
    expect(told.plotted).toBe('steps');
    expect(told.lines[0]?.points.at(-1)?.value).toBe(22);
    expect(told.sentence).toMatch(/slower to “It stretches” than your other 2/);
    expect(told.help).toContain('Stretch at “Keep warm and turn”');
  });

  it('is held against its own plan where it is the only one', () => {
    const forecast = simulate({ plan: ash.plan, history: NO_HISTORY, seed: 7, members: 40 });
    const plan = plannedCourse({ plan: ash.plan, forecast, zeroAt: ash.record.zeroAt, alignment: 'rennet', label: 'the plan' }); // prettier-ignore
    if (plan === null) throw new Error('the plan has its rennet');
    const told = view({ others: [plan] });
    expect(told.sentence).toMatch(/^12 Nov was .* its plan/);
    expect(told.lines.map(({ label, isWorkedOut }) => [label, isWorkedOut])).toEqual([['12 Nov', false], ['the plan', true]]); // prettier-ignore
    expect(told.rows.find(({ id }) => id === 'cheeseGPerL')?.others).toMatch(/ to /);
  });

  it('says nothing where there is nothing to hold against each other', () => {
    expect(view({ others: [] }).sentence).toBeNull();
    expect(view({ others: [] }).rows).toEqual([]);
  });

  it('tells two batches of one day apart by their pots, and of two years by the year', () => {
    const { record } = ash;
    expect(batchLabels([record, { ...record, name: 'Birch' }], words)).toEqual(['12 Nov Ash', '12 Nov Birch']);
    expect(batchLabels([record, { ...record, zeroAt: Date.UTC(2025, 10, 12, 9) }], words)).toEqual(['12 Nov 2026', '12 Nov 2025']); // prettier-ignore
  });
});

describe('the plot of the comparison', () => {
  it('sets names that end at one place apart, inside the frame', () => {
    const places = labelPlaces({ ideals: [200, 199, 201], heightPx: 204 });
    const sorted = [...places].sort((a, b) => a - b);
    expect(Math.max(...places)).toBeLessThanOrEqual(200);
    expect(sorted.slice(1).every((place, index) => place - (sorted[index] ?? 0) >= 22)).toBe(true);
    expect(places.indexOf(Math.min(...places))).toBe(1);
  });

  it('has round times on its axis', () => {
    expect(axisTicks({ fromMin: -47, toMin: 218, most: 6 })).toEqual([0, 60, 120, 180]);
  });
});
