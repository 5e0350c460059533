import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { calculators } from '../../src/exchange/calc/registry.ts';
import { run } from './run.ts';

const clot = { doseIMCUPerL: 45, temperatureC: 36, pH: 6.5 };
const errorsSchema = z.strictObject({
  errors: z.array(
    z.strictObject({
      code: z.string(),
      field: z.string(),
      value: z.unknown(),
      expected: z.string(),
      message: z.string(),
      remedy: z.string(),
    }),
  ),
});
const errorsOf = (text: string) => errorsSchema.parse(JSON.parse(text)).errors;
const fields = (text: string): string[] => errorsOf(text).map((error) => error.field);

describe('vatside calc', () => {
  it('answers what is piped in, in the envelope of the contract', async () => {
    const { code, out, err } = await run({ line: 'calc clot', stdin: JSON.stringify(clot) });
    expect([code, err]).toEqual([0, '']);
    const answer = JSON.parse(out) as { result: { flocculationMinutes: { p50: number } } };
    expect(Object.keys(answer)).toEqual(['name', 'result', 'cautions', 'assumptions', 'sources']);
    expect(answer.result.flocculationMinutes.p50).toBeGreaterThan(5);
  });

  it('gives one answer by pipe, by file and by --set', async () => {
    const piped = await run({ line: 'calc clot', stdin: JSON.stringify(clot) });
    const filed = await run({ line: 'calc clot --input in.json', files: { 'in.json': JSON.stringify(clot) } });
    const typed = await run({ line: 'calc clot --set doseIMCUPerL=45 --set temperatureC=36 --set pH=6.5' });
    const mixed = await run({ line: 'calc clot --input in.json --set pH=6.5', files: { 'in.json': JSON.stringify({ ...clot, pH: 6 }) } }); // prettier-ignore
    expect(new Set([piped.out, filed.out, typed.out, mixed.out]).size).toBe(1);
  });

  it('reaches into an object by a dotted key, and takes JSON as a value', async () => {
    const dotted = await run({
      line: ['calc', 'whey', ...['milkL=12', 'cubeMm=12', 'pH=6.3', 'minutes=30', 'milk.fatPercent=4.5', 'temperatureProfile=[{"minute":0,"temperatureC":38}]'].flatMap((pair) => ['--set', pair])],
    }); // prettier-ignore
    expect(dotted.err).toBe('');
    expect(dotted.out).toContain('fat 4.50 %');
  });

  it('names all problems at once on stderr and exits 2', async () => {
    const { code, out, err } = await run({ line: 'calc clot --set doseIMCUPerL=-3 --set pH=sour --set moonPhase=1' });
    expect([code, out]).toEqual([2, '']);
    expect(fields(err).sort()).toEqual(['doseIMCUPerL', 'moonPhase', 'pH', 'temperatureC']);
  });

  it('exits 3 where the value is possible but the model was not measured there', async () => {
    const { code, err } = await run({ line: 'calc clot', stdin: JSON.stringify({ ...clot, temperatureC: 60 }) });
    expect(code).toBe(3);
    expect(errorsOf(err)[0]).toMatchObject({ code: 'outside-validity', field: 'temperatureC', value: 60 });
  });

  it('says what is wrong with text that is no JSON, a file that is not there, and no input at all', async () => {
    for (const asked of [
      { line: 'calc clot', stdin: '{"pH": 6.5' },
      { line: 'calc clot --input nowhere.json' },
      { line: 'calc clot' },
      { line: 'calc clot', stdin: '' },
    ]) {
      const { code, err } = await run(asked);
      expect(code).toBe(2);
      expect(fields(err)).toEqual(['input']);
    }
  });

  it('refuses a list where an object is wanted, and a key that would reach into the program', async () => {
    expect((await run({ line: 'calc clot', stdin: '[1]' })).code).toBe(2);
    const { code, err } = await run({ line: 'calc clot --set __proto__.pH=6' });
    expect(code).toBe(2);
    expect(err.split('\n').length).toBe(2);
  });

  it('names the sums there are when it is asked for another', async () => {
    const { code, err } = await run({ line: 'calc clto --set pH=6' });
    expect(code).toBe(2);
    expect(errorsOf(err)[0]?.expected).toContain('clot');
  });

  it('lists every sum, as lines and as JSON', async () => {
    const listed = JSON.parse((await run({ line: 'calc --list --json' })).out) as { name: string; answers: string }[];
    expect(listed.map((sum) => sum.name)).toEqual([...calculators.keys()]);
    const lines = (await run({ line: 'calc --list' })).out;
    for (const { name } of listed) expect(lines).toMatch(new RegExp(`^${name} `, 'm'));
  });

  it.each([...calculators.keys()])('%s: publishes its schemas, and its example is told in plain text', async (name) => {
    const shown = await run({ line: `calc ${name} --schema` });
    const schemas = JSON.parse(shown.out) as { input: object; output: object; example: object };
    expect(schemas.input).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema' });
    expect(schemas.output).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema' });
    const told = await run({ line: `calc ${name} --text`, stdin: JSON.stringify(schemas.example) });
    expect([told.code, told.err]).toEqual([0, '']);
    expect(told.out).not.toMatch(/\[object|undefined|NaN|\{\{/);
    // In a reader's words: no name of the contract, such as targetPH or waterCForFullTopUp, is left in it.
    expect(
      told.out.match(/\b[a-z]+[A-Z]\w*\b/g)?.filter((word) => !['pH', 'pK', 'kJ', 'mL'].includes(word)) ?? [],
    ).toEqual([]);
    for (const line of told.out.split('\n')) expect(line.length, line).toBeLessThanOrEqual(110);
  });
});
