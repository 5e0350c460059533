import { describe, expect, it } from 'vitest';
import type { Advice } from '../../src/forecast/advise.ts';
import type { OnCourse } from '../../src/forecast/on-course.ts';
import { run } from './run.ts';
import { shortRecord } from './record.ts';

const files = { 'record.json': JSON.stringify({ events: shortRecord([[40, 6.64], [75, 6.55]]) }) }; // prettier-ignore
type Answer = { readonly nowMin: number; readonly course: OnCourse; readonly advice: Advice };

describe('vatside advise', () => {
  it('says where a record stands and what could be done, each with its finish and its chance', async () => {
    const { code, out, err } = await run({ line: 'advise record.json', files });
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/On course\.|Slower|Faster|Not enough readings/);
    expect(out).toMatch(
      /1\. Go on as planned\n\s+Done about \d\d:\d\d, 9 times in 10 between \d\d:\d\d and \d\d:\d\d\./,
    );
    expect(out).toMatch(/About \d in 10 for the acid \(pH\s+5\.0 to 5\.3 at its moment\)/);
    expect(out).toContain('Stop and throw away.');
    expect(out).not.toMatch(/advice:|vat:|findings:|\{\{|undefined|NaN|Infinity/);
  });

  it('answers as JSON, the same for the same seed, and leaves out no number', async () => {
    const ask = async (line: string): Promise<Answer> => JSON.parse((await run({ line, files })).out) as Answer;
    const first = await ask('advise record.json --json --minute 78');
    expect(first.nowMin).toBe(78);
    expect(first.advice.choices.length).toBeLessThanOrEqual(4);
    for (const { forecast } of [...first.advice.choices, { forecast: first.advice.goOn }]) {
      expect(forecast.chance).toBeGreaterThanOrEqual(0);
      expect(forecast.endMin.p95).toBeGreaterThan(forecast.endMin.p5);
    }
    expect(await ask('advise record.json --json --minute 78')).toEqual(first);
    expect(JSON.stringify(first).length).toBeLessThan(20_000);
  });

  it('refuses what it cannot read, and says how it is asked', async () => {
    for (const [line, found] of [['advise', 'one file'], ['advise gone.json', 'gone.json'], ['advise record.json --minute soon', '--minute soon'], ['advise record.json --batch batch:none', 'batch:rowan-1']] as const) {
      const { code, out, err } = await run({ line, files });
      expect([code, out], line).toEqual([2, '']);
      expect(err, line).toContain(found);
    } // prettier-ignore
    expect((await run({ line: 'advise --help', files })).out).toContain('--minute');
  });
});
