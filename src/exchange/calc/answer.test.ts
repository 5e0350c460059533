import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import { openWords, sayFrom } from '../words.ts';
import { answer, fieldsOf } from './answer.ts';
import { calculators } from './registry.ts';
import { calcSchemas } from './schema.ts';

const findings = JSON.parse(
  readFileSync(new URL('../../../words/en-GB/findings.json', import.meta.url), 'utf8'),
) as Record<string, string>;
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { findings } } }));
const sums = [...calculators.values()];
const json = (value: unknown): unknown => JSON.parse(JSON.stringify(value)) as unknown;

function problemsOf(name: string, input: unknown): InputError {
  try {
    answer({ name, input, say });
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error(`${name} answered`);
}

describe('every sum of the contract', () => {
  it.each(sums.map((sum) => [sum.name, sum] as const))('%s answers its example by its own schema', (name, sum) => {
    const out = answer({ name, input: sum.example, say });
    expect(out.name).toBe(name);
    expect(sum.result.safeParse(out.result).error?.issues ?? []).toEqual([]);
    expect(out.sources.length).toBeGreaterThan(0);
    for (const { id, text } of out.cautions) expect(text, id).not.toMatch(/\{\{|^findings:/);
  });

  it.each(sums.map((sum) => [sum.name, sum] as const))(
    '%s publishes a JSON Schema that reads its example',
    (name, sum) => {
      const { input, output } = calcSchemas(name);
      expect(input).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema', type: 'object' });
      const read = z.fromJSONSchema(json(input) as z.core.JSONSchema.JSONSchema);
      expect(read.safeParse(sum.example).error?.issues ?? []).toEqual([]);
      const wrote = z.fromJSONSchema(json(output) as z.core.JSONSchema.JSONSchema);
      expect(wrote.safeParse(json(answer({ name, input: sum.example, say }))).error?.issues ?? []).toEqual([]);
    },
  );

  it.each(sums.map((sum) => [sum.name, sum] as const))('%s refuses an unknown field by name', (name, sum) => {
    const error = problemsOf(name, { ...(sum.example as object), moonPhase: 3 });
    expect(error.outsideModel).toBe(false);
    expect(error.problems).toContainEqual(expect.objectContaining({ code: 'unknown-field', field: 'moonPhase' }));
  });

  it.each(sums.map((sum) => [sum.name, sum] as const))('%s asks for what is missing, and answers nothing', (name) => {
    const error = problemsOf(name, {});
    expect(error.problems.length).toBeGreaterThan(0);
    for (const problem of error.problems) {
      expect(problem.remedy).not.toBe('');
      expect(problem.expected).not.toBe('');
    }
  });
});

describe('an answer', () => {
  it('names every problem at once, each with what would do', () => {
    const { problems } = problemsOf('clot', { doseIMCUPerL: -3, temperatureF: 98, pH: Number.NaN, species: 'cat' });
    expect(Object.fromEntries(problems.map((each) => [each.field, each.code]))).toEqual({
      doseIMCUPerL: 'impossible',
      temperatureC: 'missing',
      temperatureF: 'unknown-field',
      pH: 'not-a-number',
      species: 'unknown-choice',
    });
    expect(problems.find((each) => each.field === 'temperatureF')?.remedy).toContain('temperatureC');
    expect(problems.find((each) => each.field === 'doseIMCUPerL')?.expected).toBe('more than 0');
  });

  it('tells what a model was not measured for from what cannot be', () => {
    expect(problemsOf('clot', { doseIMCUPerL: 45, temperatureC: 60, pH: 6.5 }).outsideModel).toBe(true);
    expect(problemsOf('heat', { volumeL: 10, fromC: 20, toC: 90, heaterW: 50 }).outsideModel).toBe(true);
    expect(problemsOf('clot', { doseIMCUPerL: 45, temperatureC: 160, pH: 6.5 }).outsideModel).toBe(false);
  });

  it('refuses a sum that does not exist by listing those that do', () => {
    expect(problemsOf('clto', {}).problems[0]?.expected).toContain('clot');
  });

  it('says its cautions in words', () => {
    const out = answer({ name: 'rennet', input: { milkL: 10 }, say });
    expect(out.cautions[0]?.id).toBe('rennet-strength-unknown');
    expect(out.cautions[0]?.text.length).toBeGreaterThan(40);
  });
});

describe('the words of cautions', () => {
  // Every id in the code of sums and models, read from the code itself, so that a new one cannot be forgotten.
  const PROBLEM_CODES = new Set([
    'missing', 'not-a-number', 'wrong-type', 'impossible', 'outside-validity', 'unknown-field', 'unknown-choice',
    'contradiction', 'unreachable', 'unreadable',
  ]); // prettier-ignore

  it('exist for every id that a sum can give', () => {
    const modules = sums.map((sum) => sum.name);
    const ids = modules.flatMap((name) => {
      const code = readFileSync(new URL(`./${name}.ts`, import.meta.url), 'utf8');
      return [...code.matchAll(/code: '([a-z0-9-]+)'|'(?:info|caution|stop)',\s*'([a-z0-9-]+)'/g)].map(
        (match) => match[1] ?? match[2] ?? '',
      );
    });
    const shared = ['fields.ts', 'pot-fields.ts'].flatMap((file) =>
      [...readFileSync(new URL(`./${file}`, import.meta.url), 'utf8').matchAll(/code: '([a-z0-9-]+)'/g)].map(
        (match) => match[1] ?? '',
      ),
    );
    const all = [...new Set([...ids, ...shared])].filter((id) => !PROBLEM_CODES.has(id));
    expect(all.filter((id) => !Object.hasOwn(findings, id))).toEqual([]);
    expect(all.length).toBeGreaterThan(15);
  });

  it('need no value that the sums at their edges do not give', () => {
    const edges: [string, Record<string, unknown>][] = [
      ['rennet', { milkL: 1 }],
      ['rennet', { milkL: 4, strengthIMCUPerML: 280, dropsPerML: 10 }],
      ['rennet', { milkL: 10, doseIMCUPerL: 20.5 }],
      ['clot', { doseIMCUPerL: 45, temperatureC: 45.5, pH: 6.5, heatTreatment: 'high-heat', homogenised: true }],
      ['calcium', { milkL: 10, solutionPercent: 33, gPerL: 0.25 }],
      ['wash', { vatL: 10, vatC: 37, drawL: 2, waterC: 80, addL: 4 }],
      ['wash', { vatL: 600, vatC: 37, drawL: 2, waterC: 60, addL: 2 }],
      ['heat', { volumeL: 40, fromC: 6, toC: 97, heaterW: 9000, lossWPerK: 2 }],
      ['cool', { shape: 'sphere', mm: [61], fromC: 58, bathC: -2, targetCoreC: 20 }],
      ['brine', { strength: 26, strengthUnit: 'percent-by-mass', brineL: 5 }],
      ['brine-time', { shape: 'sphere', mm: [61], moisturePercent: 57, brinePercent: 25, temperatureC: 2, hours: 1, brineKg: 0.2 }],
      ['brine-time', { shape: 'sphere', mm: [61], moisturePercent: 57, brinePercent: 3, temperatureC: 10, hours: 40 }],
      ['scald', { waterC: 80 }],
      ['measure', { value: 1, from: 'us-pinch', to: 'g', ingredient: 'table-salt' }],
      ['yield', { fatPercent: 5, caseinPercent: 2.5, moisturePercent: 37, fatRecovery: 0.99 }],
    ]; // prettier-ignore
    const seen = new Set<string>();
    for (const [name, input] of edges) {
      for (const { id, text } of answer({ name, input, say }).cautions) {
        seen.add(id);
        expect(text, `${name} ${id}`).not.toMatch(/\{\{|undefined|NaN|^$/);
        expect(text, id).not.toBe(id);
      }
    }
    expect(seen.size).toBeGreaterThan(10);
  });

  it('are listed with the fields of every sum, so that a slip of spelling is found', () => {
    for (const sum of sums) expect(fieldsOf(sum).length, sum.name).toBeGreaterThan(0);
  });
});
