import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { run } from './run.ts';

const way = z.looseObject({ probability: z.number(), settings: z.array(z.looseObject({ id: z.string(), value: z.number(), isChanged: z.boolean() })) }); // prettier-ignore
const documentSchema = z.looseObject({ question: z.looseObject({ aims: z.array(z.looseObject({ low: z.number().optional(), high: z.number().optional() })) }), answer: z.looseObject({ verdict: z.string(), best: way, asItStands: way }) }); // prettier-ignore
const POT = 'stretched-ball --milk 12L --packet-for 12L';

describe('vatside solve', () => {
  it('finds the time in the brine, says how surely, what it costs and how to take it into the plan', async () => {
    const { code, out, err } = await run({ line: `solve ${POT} --aim salt-in-moisture=1.9..2.8 --free brine-minutes=20..120` }); // prettier-ignore
    expect([code, err]).toEqual([0, '']);
    const text = out.replace(/\s+/g, ' ');
    expect(text).toMatch(/Brine for 1 h \d+ min instead of about \d+ min: [89] in 10 to have salt in the moisture between 1\.9 and 2\.8 %\./); // prettier-ignore
    expect(text).toMatch(/Done about \d\d:\d\d instead of \d\d:\d\d; 1\.\d\d kg of cheese as planned/);
    expect(text).toContain('Counted among 500 such makes that had no part in the search, give or take');
    const [, minutes] = /--set changes\.brine-minutes=(\d+)/.exec(text) ?? [];
    // What it says to type is a plan, and brings the salt.
    const plan = await run({ line: `plan ${POT} --set changes.brine-minutes=${minutes} --members 60` });
    expect(plan.code).toBe(0);
    expect(plan.out).toMatch(/Chosen otherwise than in the make\n {2}Brine for 1 h \d+ min\./);
  });

  it('answers in JSON with the question as it was read: a time, an open end, a weight with its unit', async () => {
    const { out } = await run({
      line: `solve ${POT} --aim done-by=18:00 --aim weight=1..2.6kg --free milk=10..12L --json`,
    });
    const { question, answer } = documentSchema.parse(JSON.parse(out));
    expect(question.aims).toEqual([
      { quantity: 'endMin', high: 540 },
      { quantity: 'cheeseKg', low: 1, high: 2.6 },
    ]);
    expect(answer.verdict).toBe('as-it-stands');
    expect(answer.best.settings).toMatchObject([{ id: 'milk', value: 12, isChanged: false }]);
  });

  it('says plainly that an aim cannot be met, and that nothing free moves it', async () => {
    const { code, out } = await run({ line: `solve ${POT} --aim moisture=40..44 --free cube` });
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('it cannot be had as often as 8 in 10, and nothing comes nearer than the plan as it stands: less than 1 in 20. Nothing that may change moves moisture.'); // prettier-ignore
  });

  it('lists what may be freed, as this make and pot allow', async () => {
    const { out } = await run({ line: `solve ${POT} --list` });
    expect(out).toMatch(/brine-minutes +5 min to 4 h/);
    expect(out).toMatch(/wash-share +10 to 40 % of the vat +30 % of the vat/);
    expect(out).not.toContain('stretch-ph');
    expect((await run({ line: `solve ${POT} --meter --list` })).out).toContain('stretch-ph');
  });

  it('names every slip by its flag', async () => {
    const slip = async (rest: string) => {
      const { code, err } = await run({ line: `solve ${POT} ${rest}` });
      return `${code} ${err}`;
    };
    expect(await slip('--aim salty=1..2 --aim salt=3 --free cube=a..b')).toMatch(/^2 3 things do not fit:\n {2}--aim "salty=1..2"[\s\S]*--aim "salt=3"[\s\S]*such as salt=0.8..1.2[\s\S]*--free "cube=a..b"/); // prettier-ignore
    expect(await slip('--aim salt=1..2 --free moon')).toMatch(
      /^2[\s\S]*--free "moon" does not fit: expected culture-dose, /,
    );
    expect(await slip('--aim salt=1..2 --free cube=2..5')).toMatch(/^2[\s\S]*--free \[2,5\] does not fit: expected a range inside 8 to 20/); // prettier-ignore
    expect(await slip('')).toMatch(/^2[\s\S]*--aim 0 does not fit: expected 1 to 4 of them\. Give at least one/);
    expect(await slip('--aim salt=1..2 --free cube --chance often')).toMatch(/^2 vatside: --chance often/);
  });

  it('explains itself', async () => {
    const { code, out } = await run({ line: 'solve --help' });
    expect(code).toBe(0);
    for (const word of ['--aim NAME=LOW..HIGH', '--free NAME', 'salt-in-moisture', 'done-by=16:30', '--chance']) expect(out).toContain(word); // prettier-ignore
    expect((await run({ line: '--help' })).out).toContain('vatside solve <make>');
  });
});
