import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { quickPot } from '../../../../tests/day-kitchen.ts';
import { findingTexts, runLines, wayText, type DayTold } from '../../../exchange/day-words.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import type { DayInput } from '../../../forecast/day/day.ts';
import { planDay } from '../../../forecast/day/plan-day.ts';
import { firstDayState } from './day-state.ts';
import { dayScales } from './day-view.ts';
import { takeWay } from './day-ways.ts';

const WORDS = fileURLToPath(new URL('../../../../words/en-GB/', import.meta.url));
const catalogues = Object.fromEntries(readdirSync(WORDS).map((file) => [file.replace('.json', ''), JSON.parse(readFileSync(join(WORDS, file), 'utf8')) as object])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': catalogues } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });

const pots = ['Ash', 'Birch'].map(quickPot);
const day: DayInput = { pots, kit: { hands: 2, burner: 2, kettle: 1 }, hours: { fromMin: 540, toMin: null } };
const toldOf = (input: DayInput): DayTold => ({
  plan: planDay(input),
  pots: input.pots.map(({ id, makeId, steps }) => ({ id, name: id, makeId, makeName: 'Quick curd', steps })),
  zeroAt: Date.UTC(2026, 2, 4),
  makeNames: new Map([['quick-stretched', 'Quick curd']]),
  say,
  write,
});
const told = toldOf(day);

describe('the run of the day', () => {
  it('tells one thing that is done at two pots at once in one line, and what is for the evening before first', () => {
    const lines = runLines(told);
    expect(lines[0]).toMatchObject({ time: null, what: 'Ice made or bought the day before' });
    expect(lines.filter(({ what }) => what === 'Stir the acid into cold milk')).toMatchObject([{ time: '09:00', pots: 'All pots', isWork: true }]); // prettier-ignore
  });

  it('says on which burner, and between when a step is over', () => {
    const warm = runLines(told).find(({ what }) => what === 'Warm the milk gently');
    expect(warm?.more).toMatch(/^Burner 1 · Burner 2/);
  });

  it('names the day where the curd is made the day before', () => {
    const kept = pots.map((pot) => ({ ...pot, keptCold: { madeFromMin: -900, workedFromMin: 540 } }));
    const cold = toldOf({ ...day, pots: kept });
    expect(runLines(cold).flatMap(({ day: named }) => named ?? [])).toEqual(['Tuesday 3 March', 'Wednesday 4 March']);
    expect(dayScales(cold)).toHaveLength(2);
  });
});

describe('the picture of the day', () => {
  it('has a lane for each pot, each burner and the kettle, all on one scale', () => {
    const [scale] = dayScales(told);
    expect(scale?.lanes.map(({ name }) => name)).toEqual(['Ash', 'Birch', 'Burner 1', 'Burner 2', 'Kettle 1']);
    const steps = scale?.lanes.flatMap((lane) => lane.steps) ?? [];
    expect(scale?.frame.fromAt).toBe(Math.min(...steps.map(({ startAt }) => startAt)));
  });
});

describe('a day that does not fit', () => {
  const short = toldOf({ ...day, hours: { fromMin: 540, toMin: 600 } });

  it('says so in one sentence for pots that are alike', () => {
    expect(findingTexts(short)).toHaveLength(1);
    expect(findingTexts(short)[0]).toMatch(/^Quick curd takes .* until 9 in 10 are done; there are 1.h\.$/);
  });

  it('offers ways that can be taken with one tap', () => {
    const state = { ...firstDayState({ makeId: 'quick', milk: '4', now: 0 }), mode: 'between' as const };
    for (const way of short.plan.ways) expect(takeWay(state, way)).not.toEqual(state);
    expect(short.plan.ways.map((way) => wayText(way, short)).join('\n')).toContain('Stay until');
  });

  it('leaves the last pots out where fewer fit', () => {
    const state = firstDayState({ makeId: 'quick', milk: '4', now: 0 });
    const rows = [{ id: 'row-1', makeId: 'quick', milk: '4', pots: 2 }, { id: 'row-2', makeId: 'other', milk: '4', pots: 2 }];
    const fewer = takeWay({ ...state, rows }, { code: 'fewer-pots', fields: { count: 1, of: 4, endMin: 700 } });
    expect(fewer.rows.map(({ id, pots: count }) => [id, count])).toEqual([['row-1', 1]]);
  }); // prettier-ignore
});
