import { describe, expect, it } from 'vitest';
import { justBefore, type Replay } from '../../src/exchange/replay.ts';
import { foldBatch } from '../../src/record/fold.ts';
import { run } from './run.ts';
import { shortRecord } from './record.ts';

const replayed = async (text: string): Promise<Replay[]> => {
  const { code, out, err } = await run({ line: 'replay record.json --json', files: { 'record.json': text } });
  expect([code, err]).toEqual([0, '']);
  return JSON.parse(out) as Replay[];
};

describe('vatside replay', () => {
  it('sets beside each reading what was forecast just before it', async () => {
    const [replay] = await replayed(JSON.stringify({ events: shortRecord([[40, 6.64], [75, 6.61]]) })); // prettier-ignore
    expect(replay?.notes.map((note) => [note.what, note.came])).toEqual([['pH', 6.64], ['pH', 6.61], ['tang', 'none']]); // prettier-ignore
    expect(replay?.notes.slice(0, 2).map((note) => note.isInside)).toEqual([true, true]);
    expect([replay?.inside, replay?.judged]).toEqual([2, 2]);
  });

  it('narrows the second band by the first reading, and says so where a reading falls outside', async () => {
    const [replay] = await replayed(JSON.stringify(shortRecord([[40, 6.6], [41, 5.1]]))); // prettier-ignore
    const [first, second] = replay?.notes ?? [];
    const width = (note: typeof first): number => (note?.band?.p95 ?? 0) - (note?.band?.p5 ?? 0);
    expect(width(second)).toBeLessThan(width(first));
    expect(second?.isInside).toBe(false);
  });

  it('reads as a table with its count', async () => {
    const files = { 'record.json': JSON.stringify({ events: shortRecord([[40, 6.64]]) }) };
    const { code, out } = await run({ line: 'replay record.json', files });
    expect(code).toBe(0);
    expect(out).toMatch(/40 min {2}pH of the milk {2}6\.\d\d \(6\.\d\d to 6\.\d\d\)/);
    expect(out).toContain('1 of 1 came inside');
    expect(out).not.toMatch(/replay:|\{\{|undefined/);
  });

  it('refuses what is no record, and tells every broken event by its place', async () => {
    const [first, ...rest] = shortRecord([[40, 6.64]]);
    const files = {
      'odd.json': '{"plan": 3}',
      'torn.json': '[{',
      'broken.json': JSON.stringify({ events: [first, { id: 'x' }, ...rest] }),
      'headless.json': JSON.stringify({ events: rest }),
      'empty.json': '[]',
    };
    for (const [file, found] of [['odd.json', 'events'], ['torn.json', 'JSON'], ['broken.json', 'events[1]'], ['headless.json', 'batchOpened'], ['empty.json', 'batch'], ['gone.json', 'gone.json']] as const) {
      const { code, out, err } = await run({ line: `replay ${file}`, files });
      expect([code, out], file).toEqual([2, '']);
      expect(err, file).toContain(found);
      expect(err, file).not.toMatch(/\n\s+at /);
    } // prettier-ignore
  });
});

describe('what was known just before', () => {
  it('leaves out what happened at that moment or later, and the end of a step still running then', () => {
    const record = foldBatch(shortRecord([[31, 6.66], [40, 6.64], [75, 6.61]])); // prettier-ignore
    expect(justBefore(record, 35)).toEqual({
      nowMin: 35,
      steps: [
        { stepId: 'warm', startedMin: 0, endedMin: 31 },
        { stepId: 'add-culture', startedMin: 31 },
      ],
      readings: [{ quantity: 'pH', value: 6.66, sample: 'milk', elapsedMin: 31 }],
      judgements: [],
      additions: [],
    });
    expect(justBefore(record, 40).readings).toHaveLength(1);
    expect(justBefore(record, 80).judgements).toEqual([]);
  });
});
