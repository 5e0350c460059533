import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMake } from '../../make/make.ts';
import { planMake } from '../../make/planning.ts';
import type { Event } from '../../record/event.ts';
import { foldBatch } from '../../record/fold.ts';
import { demoEvents, parseDemo } from '../demo.ts';
import type { Told } from '../paper/step-words.ts';
import { planOfRecord } from '../record-plan.ts';
import { bothUnits } from '../text/both-units.ts';
import { openWords, sayFrom } from '../words.ts';
import { openWriter } from '../written.ts';
import { asMade, kitchenMinutes } from './as-made.ts';
import { publishable, sourceText, type WriterSays } from './publishable.ts';
import { boilingC, restsOnMine } from './rests-on-mine.ts';
import { figures, seenIn, type Making } from './seen.ts';

const read = (path: string): object => JSON.parse(readFileSync(path, 'utf8')) as object;
const filesOf = (language: string): Record<string, object> => Object.fromEntries(readdirSync(`words/${language}`).map((file) => [file.replace('.json', ''), read(`words/${language}/${file}`)])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': filesOf('en-GB') } }));
const told: Told = { say, write: openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' }), both: bothUnits('metric'), isInBoth: true }; // prettier-ignore
const makes = readdirSync('makes').map((file) => parseMake(read(`makes/${file}`)));
const events = demoEvents({ demo: parseDemo(read('demo/larkenshaw.json')), makes, nowAt: Date.UTC(2026, 10, 25, 11) });
const makingOf = (of: readonly Event[]): Making => {
  const record = foldBatch([...of]);
  return { record, plan: planOfRecord({ record }) };
};
const all = [...new Set(events.map(({ streamId }) => streamId))].filter((id) => id.startsWith('batch:')).map((id) => makingOf(events.filter(({ streamId }) => streamId === id))); // prettier-ignore
const finished = all.filter(({ record, plan }) => record.finishedAt !== null && plan.make.id === 'stretched-ball');
const seen = seenIn(finished);
const says: WriterSays = { author: 'Larkenshaw', licence: 'free to copy', altitudeM: 120, forms: 'cooking salt', tests: 'pH meter' }; // prettier-ignore
const source = sourceText({ seen, says, told });
const last = finished.at(-1);
if (last === undefined) throw new Error('Larkenshaw has finished batches');
const written = { id: 'larkenshaw-ball', name: 'Larkenshaw ball', about: 'As we make it.', source, neutral: true }; // prettier-ignore
const made = asMade({ make: last.plan.make, seen, written });

describe('what several records saw', () => {
  it('is the lowest, the middle and the highest of each', () => {
    expect(figures([5, 1, 3])).toEqual({ low: 1, middle: 3, high: 5, count: 3 });
    expect(figures([4, 2])).toEqual({ low: 2, middle: 3, high: 4, count: 2 });
    expect(figures([])).toBeNull();
    expect(seen.count).toBe(finished.length);
    expect(seen.count).toBeGreaterThanOrEqual(2);
    const timed = seen.steps.filter(({ minutes }) => minutes !== null);
    expect(timed.length).toBeGreaterThan(10);
    for (const { minutes } of timed) expect(minutes !== null && minutes.low <= minutes.middle && minutes.middle <= minutes.high).toBe(true); // prettier-ignore
    expect(seen.steps.some(({ grades }) => grades.length > 0)).toBe(true);
  });
});

describe('a make as it was made', () => {
  it('is a whole make of the language: a draft that can be planned by anybody', () => {
    expect(made).toMatchObject({ id: 'larkenshaw-ball', version: 1, status: 'draft', name: 'Larkenshaw ball' });
    expect(parseMake(structuredClone(made))).toEqual(made);
    expect(planMake({ make: made, answers: { milk: { volumeL: 4 } } }).steps.length).toBeGreaterThan(10);
  });

  it('names for every figure that was seen the makings it comes from', () => {
    const own = made.sources.length - 1;
    expect(made.sources[own]).toBe(source);
    expect(source).toMatch(/^as made \d times, with .* of milk; .*2026.*; Larkenshaw; at 120 m; cooking salt; pH meter; terms: free to copy$/); // prettier-ignore
    const timed = made.steps.flatMap(({ id, until }) => until.of.flatMap((one) => (one.kind === 'time' && one.minutes.source === own ? [{ id, minutes: one.minutes.value }] : []))); // prettier-ignore
    expect(timed.length).toBeGreaterThan(5);
    for (const { id, minutes } of timed) expect(minutes).toBe(kitchenMinutes(seen.steps.find(({ stepId }) => stepId === id)?.minutes?.middle ?? -1)); // prettier-ignore
  });

  it('takes the yield and the dose as they were, and widens a range that does not hold them', () => {
    const perL = seen.cheesePerMilkKgPerL;
    const aim = made.aims.find(({ quantity }) => quantity === 'cheesePerMilkKgPerL');
    expect(perL).not.toBeNull();
    expect(aim?.aim).toBeCloseTo(perL?.middle ?? 0, 3);
    expect((aim?.low ?? 1) <= (perL?.low ?? 0) + 0.0005 && (aim?.high ?? 0) >= (perL?.high ?? 1) - 0.0005).toBe(true);
    const half = asMade({ make: last.plan.make, seen: { ...seen, doses: [{ ingredient: 'rennet', fraction: { low: 0.5, middle: 0.5, high: 0.5, count: 1 } }] }, written }); // prettier-ignore
    const meant = last.plan.make.doses.rennet?.imcuPerL;
    expect(half.doses.rennet?.imcuPerL.aim).toBeCloseTo((meant?.aim ?? 0) / 2, 2);
    expect(half.doses.rennet?.imcuPerL.high).toBe(meant?.high);
  });

  it('leaves out the minutes that a burner decides, where a temperature ends the step too', () => {
    for (const step of made.steps.filter(({ set, kit }) => set.toC !== undefined && kit.includes('burner'))) {
      if (step.until.of.length > 1) expect(step.until.of.some(({ kind }) => kind === 'time')).toBe(false);
    }
  });

  it('tells nobody who made it, which lot it was, or what was noted', () => {
    // The trade's own sources stand as they stood.
    const text = JSON.stringify({ ...made, sources: [source] });
    for (const { record } of finished) {
      expect(text).not.toContain(record.lotCode);
      for (const { person } of record.entries) if (person.length > 3) expect(text).not.toContain(person);
      for (const note of record.noted) expect(text).not.toContain(note.text);
    }
  });
});

describe('what rests on one kitchen', () => {
  const codes = (input: Partial<Parameters<typeof restsOnMine>[0]> = {}) => restsOnMine({ make: made, makings: finished, seen, altitudeM: 120, neutral: true, ...input }); // prettier-ignore
  it('finds packet, bottle, burner and warmth, and says which are turned already', () => {
    const found = codes();
    expect(found.map(({ code }) => code)).toEqual(expect.arrayContaining(['packet', 'bottle', 'burner', 'warmth']));
    expect(found.filter(({ code }) => code === 'packet' || code === 'bottle').every(({ standing }) => standing === 'turned')).toBe(true); // prettier-ignore
  });
  it('finds a bottle and a packet that nobody has read', () => {
    const bare: Making = {
      record: last.record,
      plan: planMake({ make: last.plan.make, answers: { milk: { volumeL: 10 } } }),
    };
    expect(codes({ makings: [bare] }).map(({ code }) => code)).toEqual(expect.arrayContaining(['packetUnread', 'bottleUnread', 'once'])); // prettier-ignore
  });
  it('finds words that belong to one stove or one pot, and water that boils too soon', () => {
    const [first, ...rest] = made.steps;
    if (first === undefined) throw new Error('a make has steps');
    const mine = { ...made, steps: [{ ...first, how: 'On ring 6, medium heat, until it boils. Milk to the line.', set: { ...first.set, toC: { value: 98, source: 'common practice' as const } } }, ...rest] }; // prettier-ignore
    expect(codes({ make: mine }).filter(({ stepId }) => stepId === first.id).map(({ code }) => code)).toEqual(expect.arrayContaining(['burnerWords', 'potWords', 'altitude'])); // prettier-ignore
    expect(codes({ make: mine, altitudeM: null }).map(({ code }) => code)).toContain('altitudeUnknown');
    const high = codes({ make: mine, altitudeM: 1500 }).find(({ code, stepId }) => code === 'altitude' && stepId === first.id); // prettier-ignore
    expect(high).toMatchObject({ standing: 'ask', fields: { boilsC: 95 } });
    expect(boilingC(0)).toBe(100);
  });
});

describe('what a make must state', () => {
  it('is said where it is known, and told as missing where nobody said it', () => {
    const states = publishable({ make: made, seen, says, kit: 'pot of 12 L', told });
    expect(states.filter(({ text }) => text === null).map(({ id }) => id)).toEqual([]);
    expect(JSON.stringify(states)).not.toMatch(/undefined|NaN|writeup:|paper:|\{\{/);
    const silent = publishable({ make: made, seen, says: { author: ' ', licence: '', altitudeM: null, forms: '', tests: '' }, kit: null, told }); // prettier-ignore
    expect(silent.filter(({ text }) => text === null).map(({ id }) => id)).toEqual(['forms', 'kit', 'altitude', 'tests', 'author', 'licence']); // prettier-ignore
  });
});
