import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MAKE_IDS, makeNamed } from '../../tests/makes.ts';
import { simulate } from '../forecast/simulate.ts';
import { parseMake } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import { foldBatch } from '../record/fold.ts';
import { demoEvents, parseDemo } from './demo.ts';
import { historyOf } from './history.ts';

/** Larkenshaw's notes are invented, but they must be notes that milk could have given. */
const nowAt = Date.UTC(2026, 2, 2, 12, 0);
const demo = parseDemo(JSON.parse(readFileSync(new URL('../../demo/larkenshaw.json', import.meta.url), 'utf8')));
const events = demoEvents({ demo, makes: MAKE_IDS.map((id) => makeNamed(id)), nowAt });
const batches = [...new Set(events.map((event) => event.streamId))].filter((id) => id.startsWith('batch:'));

describe('the Larkenshaw example', () => {
  it('has three finished makes and one under way', () => {
    expect(batches).toHaveLength(4);
  });

  it.each(batches)('%s: its notes surprise nobody, and many notes still leave many members', (streamId) => {
    const record = foldBatch(events.filter((event) => event.streamId === streamId));
    if (record.answers === null) throw new Error('a batch without answers');
    const plan = planMake({ make: parseMake(record.make), answers: record.answers });
    const forecast = simulate({ plan, history: historyOf({ record, nowAt }), members: 300 });
    expect(forecast.surprises).toEqual([]);
    expect(forecast.effectiveMembers).toBeGreaterThan(50);
    expect(forecast.findings.filter((finding) => finding.severity === 'stop')).toEqual([]);
  });
});
