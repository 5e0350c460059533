import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { demoEvents, parseDemo } from '../../../exchange/demo.ts';
import { historyOf } from '../../../exchange/history.ts';
import { openWords, sayFrom } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { simulate } from '../../../forecast/simulate.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { parseMake } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import { foldBatch } from '../../../record/fold.ts';
import { recordLines } from '../record/record-lines.ts';
import { pausesOf } from './get-ready.ts';
import { vatView } from './vat-view.ts';

const ROOT = new URL('../../../../', import.meta.url);
const read = (path: string): unknown => JSON.parse(readFileSync(new URL(path, ROOT), 'utf8'));
const words = openWords({
  language: 'en-GB',
  catalogues: {
    'en-GB': { vat: read('words/en-GB/vat.json') as object, record: read('words/en-GB/record.json') as object },
  },
});
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const NOW = Date.UTC(2026, 10, 25, 13, 0);
const makes = readdirSync(new URL('makes/', ROOT)).map((file) => parseMake(read(`makes/${file}`)));
const events = demoEvents({ demo: parseDemo(read('demo/larkenshaw.json')), makes, nowAt: NOW });

const open = (name: string) => {
  const record = foldBatch(events.filter(({ streamId }) => streamId.startsWith(`batch:demo-${name}`)));
  if (record.answers === null) throw new Error(`${name} has no answers`);
  const plan = planMake({ make: parseMake(record.make), answers: record.answers });
  return { record, plan, telling: { say: sayFrom(words), write, zeroAt: record.zeroAt } };
};

describe('Larkenshaw at the vat', () => {
  it('has ready only what its make asks for, and says it in words', () => {
    for (const name of ['ash', 'birch']) {
      const { record, plan, telling } = open(name);
      const forecast = simulate({ plan, history: NO_HISTORY, members: 60, seed: 1 });
      const asked = new Set([
        ...pausesOf({ plan, forecast, telling }).flatMap((pause) => pause.items.map((item) => item.id)),
        ...plan.steps.flatMap((step) => step.prepare.map((preparation) => `${step.id}.${preparation.id}`)),
      ]);
      expect(record.prepared.filter(({ item }) => !asked.has(item))).toEqual([]);
      expect(record.prepared.length).toBeGreaterThan(20);
      const lines = recordLines({ record, plan, telling }).filter(({ kind }) => kind === 'prepared');
      expect(lines.map(({ what }) => what).filter((what) => /ready\.|vat:/.test(what))).toEqual([]);
    }
  });

  it('left nothing undone behind it, nor the brine of the evening before to be begun now', () => {
    const { record, plan, telling } = open('birch');
    const history = historyOf({ record, nowAt: NOW });
    const forecast = simulate({ plan, history, members: 60, seed: 1 });
    const view = vatView({ record, plan, forecast, planned: null, before: null, nowAt: NOW, telling });
    expect(view.deferred).toEqual([]);
    expect(view.coming.prepare.map(({ item }) => item)).not.toContain('brine.brine');
  });
});
