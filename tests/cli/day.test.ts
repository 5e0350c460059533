import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { run } from './run.ts';

const documentSchema = z.looseObject({
  pots: z.array(z.looseObject({ potId: z.string(), startMin: z.number(), doneMin: z.number() })),
  endMin: z.number(),
  gap: z.number(),
  findings: z.array(z.looseObject({ code: z.string() })),
  ways: z.array(z.looseObject({ code: z.string() })),
});

describe('vatside day', () => {
  it('plans two pots of one make and a third of another, done in time', async () => {
    const { code, out, err } = await run({ line: 'day stretched-ball=12Lx2 stretched-string=8L --to 22:00 --hands 3 --members 60 --date 2026-03-02 --json' }); // prettier-ignore
    expect([code, err]).toEqual([0, '']);
    const day = documentSchema.parse(JSON.parse(out));
    expect(day.pots).toHaveLength(3);
    expect(day.findings).toEqual([]);
    expect(day.endMin).toBeLessThanOrEqual(22 * 60);
  });

  it('says of a class too short for it what would make it fit, in words', async () => {
    const { code, out } = await run({ line: 'day stretched-ball=4L --from 09:00 --to 12:00 --pupils 4 --members 60 --date 2026-03-04' }); // prettier-ignore
    expect(code).toBe(0);
    const words = out.replace(/\s+/g, ' ');
    expect(words).toContain('It does not all fit');
    expect(words).toMatch(/Make the curd (the day before )?from \d\d:\d\d, keep it cold, warm it again at 09:00: done by \d\d:\d\d/); // prettier-ignore
    expect(words).toContain('Your own local rules decide');
  });

  it('prints the run of the day by the clock', async () => {
    const { out } = await run({ line: 'day stretched-ball=12L --from 09:00 --members 60 --date 2026-03-04' });
    expect(out).toMatch(/09:00 +1 +Warm the milk \(Burner 1/);
    expect(out).toMatch(/The evening before +1 +Ice made or bought/);
  });

  it('says how a make and its milk are written', async () => {
    const { code, err } = await run({ line: 'day stretched-ball --from 09:00' });
    expect(code).toBe(2);
    expect(err).toContain('stretched-ball=12Lx2');
  });
});
