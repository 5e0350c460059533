import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { NO_HISTORY, type History } from '../make/history.ts';
import { parseMake } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import { simulate } from './simulate.ts';

const json: unknown = JSON.parse(readFileSync(new URL('../../makes/cottage.json', import.meta.url), 'utf8'));
const plan = planMake({ make: parseMake(json), answers: { milk: { volumeL: 10, fatPercent: 0.2 } } });
const MEMBERS = 20;

/** Grains in cream, cut ten hours after the culture, with or without a word on the gel. */
function stopsAtTheCut(judgements: History['judgements']): string[] {
  const ended = plan.steps.slice(
    0,
    plan.steps.findIndex(({ verb }) => verb === 'cut'),
  );
  const first = simulate({ plan, members: MEMBERS });
  const endOf = (index: number): number => (index < 0 ? 0 : (first.steps[index]?.endMin.p95 ?? 0));
  const steps = ended.map((step, index) => ({ stepId: step.id, startedMin: endOf(index - 1), endedMin: endOf(index) }));
  const nowMin = endOf(ended.length - 1) + 1;
  const { findings } = simulate({ plan, history: { ...NO_HISTORY, nowMin, steps, judgements }, members: MEMBERS });
  return findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code);
}

describe('the cautions at the vat', () => {
  it('stop a curd whose acid nobody has seen, and let go on one whose gel was found set', () => {
    expect(stopsAtTheCut([])).toContain('acid-staph-3');
    expect(stopsAtTheCut([{ judgement: 'acidGel', grade: 'set', elapsedMin: 450 }])).toEqual([]);
  });

  it('take no faint tang for acid', () => {
    expect(stopsAtTheCut([{ judgement: 'tang', grade: 'clear', elapsedMin: 450 }])).toContain('acid-staph-3');
  });
});
