import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { run } from './run.ts';

const spread = z.looseObject({ p5: z.number().nullable(), p50: z.number(), p95: z.number().nullable() });
const documentSchema = z.looseObject({
  schedule: z.looseObject({ startAt: z.string(), endLateAt: z.string() }),
  outcome: z.looseObject({ cultureToReadyMin: spread, readyWithinPlannedRest: z.number() }),
  clock: z.array(z.looseObject({ id: z.string(), endTemperatureC: spread.nullable() })),
  amounts: z.array(z.looseObject({ id: z.string(), value: z.number() })),
  mostWorthAnswering: z.string().nullable(),
});

const document = async (line: string) => {
  const { code, out, err } = await run({ line: `plan ${line} --json --members 150 --date 2026-03-02` });
  expect([code, err]).toEqual([0, '']);
  return documentSchema.parse(JSON.parse(out));
};

describe('vatside plan', () => {
  it('is done by the time asked, in eighteen makes of twenty', async () => {
    const { schedule } = await document('stretched-ball --milk 12L --done-by 17:00');
    const wanted = new Date(2026, 2, 2, 17, 0).getTime();
    const late = Date.parse(schedule.endLateAt);
    expect(late).toBeLessThanOrEqual(wanted);
    expect(late).toBeGreaterThan(wanted - 10 * 60_000);
  });

  it('names one late end that 18 in 20 keep and one that 1 in 20 passes, and these are the two of the clock', async () => {
    const { out } = await run({ line: 'plan stretched-ball --milk 12L --done-by 17:00 --date 2026-03-02' });
    const [, early, kept, late] = /hardly before (\d\d:\d\d)\. 18 in 20 such makes are done by (\d\d:\d\d); 1 in 20 ends later than\s(\d\d:\d\d)\./.exec(out.replace(/\s+/g, ' ')) ?? []; // prettier-ignore
    expect(kept).toBe('17:00');
    expect(out).toMatch(new RegExp(`${early}-${late} +Done`));
  });

  it('speaks of stretching only where the make is stretched, and of a dose as it can be measured', async () => {
    const told = async (make: string): Promise<string> => (await run({ line: `plan ${make} --milk 10L --members 50 --date 2026-03-02` })).out.replace(/\s+/g, ' '); // prettier-ignore
    expect(await told('stretched-ball')).toContain('Ready to stretch');
    const grains = await told('cottage');
    expect(grains).not.toMatch(/stretch/i);
    expect(grains).toContain('Rennet 0.05 mL');
    expect(grains).toContain('stir 1 mL of it into 99 mL of cool water and take 5.2 mL of that, at once');
    expect(grains).toMatch(/Wash water 5 L .* Wash water 4 L .* Wash water 4 L/);
  });

  it('waits longer for half the culture', async () => {
    const full = await document('stretched-ball --milk 12L');
    const half = await document('stretched-ball --milk 12L --culture half');
    expect(half.outcome.cultureToReadyMin.p50).toBeGreaterThan(full.outcome.cultureToReadyMin.p50 + 10);
    expect(half.outcome.readyWithinPlannedRest).toBeLessThan(full.outcome.readyWithinPlannedRest);
  });

  it('loses more warmth in a cold room, and in a small pot', async () => {
    const setEnd = (plan: z.infer<typeof documentSchema>): number =>
      plan.clock.find((step) => step.id === 'set')?.endTemperatureC?.p50 ?? Number.NaN;
    const usual = setEnd(await document('stretched-ball --milk 12L'));
    expect(setEnd(await document('stretched-ball --milk 12L --room 12'))).toBeLessThan(usual - 0.3);
    expect(setEnd(await document('stretched-ball --milk 3L --pot 4L'))).toBeLessThan(usual - 0.3);
  });

  it('takes a packet, a meter and gallons as they are said', async () => {
    const plan = await document('stretched-ball --milk 3gal --packet-for 20L --meter --set rennet.monthsStored=6');
    expect(plan.amounts.find((amount) => amount.id === 'culture')?.value).toBeCloseTo(11.356 / 20, 3);
    expect(plan.mostWorthAnswering).not.toBe('culture.packetTreatsL');
  });

  it('takes a bottle tested in a cup: strength, span and age, and says so under what is assumed', async () => {
    const told = async (rennet: string): Promise<string> =>
      (await run({ line: `plan stretched-ball --milk 12L --members 50 --rennet ${rennet}` })).out.replace(/\s+/g, ' ');
    const tested = await told('150,85-265,2months');
    expect(tested).toContain('Rennet strength 150 IMCU/mL (85 to 265 by a cup test)');
    expect(tested).toMatch(/Rennet 3\.7 mL/);
    expect(await told('150')).not.toContain('cup test');
    const { code, err } = await run({ line: 'plan stretched-ball --milk 12L --rennet 150,160-265' });
    expect(code).toBe(2);
    expect(err).toContain('between 160 and 265 IMCU/mL');
  });

  it('never gives half a litre a whole packet that nobody has read, and says what the amount rests on', async () => {
    const told = async (line: string): Promise<string> =>
      (await run({ line: `plan stretched-ball ${line} --members 50` })).out.replace(/\s+/g, ' ');
    const unread = await told('--milk 0.5L');
    expect(unread).not.toContain('Culture 1 packet the whole packet');
    expect(unread).toContain('Culture 0.05 packets a little under a sixteenth of the packet');
    expect(unread).toContain('the packet has not been read: one for 10 L (2.6 gal) is assumed; its own label decides');
    expect(unread).toContain('enough for 500 mL (0.5 qt): read what a packet treats');
    expect(unread).not.toMatch(/between (\d+) and \1 mL/);
    const read = await told('--milk 12L --packet-for 12L');
    expect(read).toContain('Culture 1 packet the whole packet');
    expect(read).not.toMatch(/has not been read|read what a packet treats/);
  });

  it("puts the reader's own units first, and shows both", async () => {
    const us = (await run({ line: 'plan stretched-ball --milk 3gal --units us --date 2026-03-02' })).out;
    expect(us).toContain('3.0 gal (11.4 L)');
    expect(us).toMatch(/Burner off at \d+ °F \(\d+\.\d °C\)/);
  });

  it('says what the plan must say: bands, burner, depth, hot water, the one answer worth most', async () => {
    const { out } = await run({ line: 'plan stretched-ball --milk 10L --done-by 17:00 --date 2026-03-02' });
    expect(out).toMatch(/\d\d:\d\d-\d\d:\d\d/);
    expect(out).toMatch(/Burner off at 3\d\.\d °C/);
    expect(out).toMatch(/the level falls \d+\.\d cm/);
    expect(out).toContain('Floor dry. Path clear. Lid on. Two hands.');
    expect(out).toMatch(/Most worth answering: .*--packet-for/s);
    expect(out).toMatch(/About \d+ in 10 such makes are ready/);
    expect(out).toMatch(/filled pot weighs up to/);
    expect(out).not.toMatch(/undefined|NaN|Infinity|\{\{|plan-text:|plan:|findings:/);
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(96);
  });

  it.each([
    ['0 L', '--milk 0L', ['milk.volumeL']],
    ['less than nothing', '--milk -3L', ['milk.volumeL']],
    ['fat 80 %', '--milk 10L --fat 80', ['milk.fatPercent']],
    ['a room of 98', '--milk 10L --room 98', ['room.temperatureC']],
    ['37 °F typed as °C', '--milk 10L --milk-temp 37', ['milk.temperatureC']],
    ['long-life milk', '--milk 10L --milk-type uht', ['milk.treatment']],
    ['a word no packet bears', '--milk 10L --culture banana', ['culture.packetFraction']],
    ['all of them at once', '--milk 0L --fat 80 --room 98 --rennet -5', ['milk.volumeL', 'milk.fatPercent', 'room.temperatureC', 'rennet.strengthImcuPerMl']],
    ['no milk', '', ['milk.volumeL']],
    ['no such hour', '--milk 10L --done-by 25:00', ['done-by']],
    ['no such day', '--milk 10L --date 2026-02-30', ['date']],
  ])('refuses %s, naming the field', async (_name, flags, fields) => {
    const { code, out, err } = await run({ line: `plan stretched-ball ${flags}` });
    expect([code, out]).toEqual([2, '']);
    for (const field of fields) expect(err).toContain(field);
    expect(err).not.toMatch(/\n\s+at /);
  }); // prettier-ignore

  it('keeps an unusual answer that is confirmed', async () => {
    const { code } = await run({ line: 'plan stretched-ball --milk 10L --milk-type raw --milk-temp 37 --confirm milk.temperatureC --members 50' }); // prettier-ignore
    expect(code).toBe(0);
  });

  it('refuses a make file that is not there, is no JSON, or breaks the schema, naming what', async () => {
    const good = JSON.parse(readFileSync(new URL('../../makes/stretched-ball.json', import.meta.url), 'utf8')) as Record<string, unknown>; // prettier-ignore
    const files = { 'torn.json': '{"id": "x"', 'odd.json': JSON.stringify({ ...good, steps: [], colour: 'blue' }) };
    const missing = await run({ line: 'plan gone.json --milk 10L', files });
    const torn = await run({ line: 'plan torn.json --milk 10L', files });
    const odd = await run({ line: 'plan odd.json --milk 10L', files });
    expect([missing.code, torn.code, odd.code]).toEqual([2, 2, 2]);
    expect(missing.err).toContain('gone.json');
    expect(torn.err).toContain('JSON');
    expect(odd.err).toMatch(/steps[\s\S]*colour|colour[\s\S]*steps/);
    for (const { err } of [missing, torn, odd]) expect(err).not.toMatch(/\n\s+at /);
  });

  it('answers a slip of the command line with one line', async () => {
    for (const line of ['plan', 'plan stretched-ball --bogus', 'plan a b --milk 1L', 'frob', 'plan stretched-ball --milk', 'plan stretched-ball --milk 9L --start 9:00 --done-by 17:00', 'plan stretched-ball --milk 9L --seed x', 'makes all', 'serve --port high', 'replay']) {
      const { code, out, err } = await run({ line });
      expect([code, out], line).toEqual([2, '']);
      expect(err.trimEnd().split('\n').length, err).toBe(1);
    }
  }); // prettier-ignore

  it('lists the makes by id and name, and helps with every command', async () => {
    const list = JSON.parse((await run({ line: 'makes --json' })).out) as { id: string; name: string }[];
    expect(list.map((make) => make.id)).toContain('stretched-ball');
    expect((await run({ line: 'makes' })).out).toContain('Stretched ball');
    for (const line of ['--help', 'plan --help', 'calc --help', 'makes --help', 'serve --help', 'replay --help']) {
      const { code, out } = await run({ line });
      expect(code, line).toBe(0);
      expect(out, line).toContain('vatside');
    }
    expect((await run({ line: '--version' })).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});
