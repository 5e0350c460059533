import { describe, expect, it } from 'vitest';
import type { Explanation } from '../../src/forecast/explain.ts';
import { run } from './run.ts';
import { shortRecord } from './record.ts';

const files = { 'record.json': JSON.stringify({ events: shortRecord([[40, 6.64], [75, 6.55]]) }) }; // prettier-ignore
type Told = readonly { readonly explanation: Explanation }[];

describe('vatside explain', () => {
  it('says of a record of two readings that it cannot tell, or that nothing is unusual, and asks instead of blaming', async () => {
    const { code, out, err } = await run({ line: 'explain record.json', files });
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/cannot tell|nothing unusual/i);
    expect(out).toMatch(/[o.]{20} {2}Nothing unusual, \d+ of 20/);
    expect(out).toContain('One question would help most');
    expect(out).not.toMatch(/explain:|\{\{|undefined|NaN|Infinity/);
  });

  it('answers as JSON with probabilities that add up to one, and takes an answer into account', async () => {
    const ask = async (line: string): Promise<Explanation> => {
      const [first] = JSON.parse((await run({ line, files })).out) as Told;
      if (first === undefined) throw new Error('one batch was in the file');
      return first.explanation;
    };
    const before = await ask('explain record.json --json');
    const after = await ask('explain record.json --json --answer packet-age=yes');
    for (const { ranked } of [before, after])
      expect(ranked.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    const fewBacteria = ({ ranked }: Explanation): number =>
      ranked.find(({ id }) => id === 'few-bacteria')?.probability ?? 0;
    expect(fewBacteria(after)).toBeGreaterThan(fewBacteria(before));
  });

  it('refuses an answer to a question that there is not, and says how it is asked', async () => {
    for (const [line, found] of [['explain', 'one file'], ['explain record.json --answer moon=yes', 'moon'], ['explain record.json --answer packet-age=perhaps', 'not-sure']] as const) {
      const { code, out, err } = await run({ line, files });
      expect([code, out], line).toEqual([2, '']);
      expect(err, line).toContain(found);
    }
  }); // prettier-ignore
});
