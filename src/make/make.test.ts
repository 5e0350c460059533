import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { InputError, problemText } from '../numbers/validity.ts';
import { parseMake, type Make } from './make.ts';
import { isRecord, valueAt } from './problems.ts';
import { makeJsonSchema } from './schema.ts';

const FOLDER = new URL('../../makes/', import.meta.url);
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));
const json = (name: string): unknown => JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8'));

/** The ball with one thing after another broken; `undefined` takes a field out. */
function brokenBall(edits: readonly (readonly [path: readonly (string | number)[], value: unknown])[]): unknown {
  const make = json('stretched-ball.json');
  for (const [path, value] of edits) {
    const parent = valueAt({ json: make, path: path.slice(0, -1) });
    const key = path.at(-1);
    if (!isRecord(parent) || key === undefined) throw new Error(`no ${path.join('.')} to break`);
    if (value === undefined) delete parent[key];
    else parent[key] = value;
  }
  return make;
}

/** Every object that holds a number and is not one of the few that need no source of their own. */
function* unsourced(node: unknown, path: string): Generator<string> {
  if (Array.isArray(node)) {
    for (const [index, item] of node.entries()) yield* unsourced(item, `${path}[${index}]`);
    return;
  }
  if (typeof node !== 'object' || node === null) return;
  const fields = Object.entries(node);
  if (path !== '' && fields.some(([, value]) => typeof value === 'number') && !('source' in node)) yield path;
  for (const [key, value] of fields) yield* unsourced(value, path === '' ? key : `${path}.${key}`);
}

function problemsOf(json: unknown): InputError['problems'] {
  try {
    parseMake(json);
  } catch (error) {
    if (error instanceof InputError) return error.problems;
    throw error;
  }
  return [];
}

describe('the makes that come with Vatside', () => {
  it('are at least two of the stretched family', () => {
    expect(files.length).toBeGreaterThanOrEqual(2);
    expect(files.map((name) => parseMake(json(name)).family)).toContain('stretched');
  });

  it.each(files)('%s reads, is named as its file, and every figure in it has a source', (name) => {
    const make: Make = parseMake(json(name));
    expect(`${make.id}.json`).toBe(name);
    expect([...unsourced(json(name), '')]).toEqual([]);
  });

  it.each(files)('%s lists no source that nothing refers to', (name) => {
    const text = JSON.stringify(json(name));
    parseMake(json(name)).sources.forEach((source, index) => {
      expect(text.includes(`"source":${index}}`) || text.includes(`"source":${index},`), source).toBe(true);
    });
  });

  it.each(files)('%s keeps place-linked names out of ids, names and sentences', (name) => {
    const make = parseMake(json(name));
    const { aliases, sources, ...rest } = make;
    const said = JSON.stringify(rest).toLowerCase();
    for (const alias of aliases) expect(said).not.toContain(alias.toLowerCase());
    expect(sources.length).toBeGreaterThan(0);
  });

  it.each(files)('%s gives no more calcium than 0.02 % of the milk', (name) => {
    const dose = parseMake(json(name)).doses.calcium;
    expect(dose?.gPerL.value ?? 0).toBeLessThanOrEqual(0.2 * 1.03);
  });

  it.each(['stretched-ball.json', 'stretched-string.json'])(
    '%s takes four to five hours from culture to stretch by its own times',
    (name) => {
      const { steps } = parseMake(json(name));
      const from = steps.findIndex((step) => step.id === 'add-culture');
      const to = steps.findIndex((step) => step.verb === 'stretch');
      const SET_MIN = 36; // three times a fleck time of 12 min at 37 °C: common practice (no source)
      const minutes = steps.slice(from, to).reduce((sum, step) => {
        const time = step.until.of.find((condition) => condition.kind === 'time');
        return sum + (time?.kind === 'time' ? time.minutes.value : SET_MIN);
      }, 0);
      expect(minutes).toBeGreaterThanOrEqual(240);
      expect(minutes).toBeLessThanOrEqual(300);
    },
  );
});

describe('a broken make', () => {
  it('is refused with the path of every field and what would do, all at once', () => {
    const broken = brokenBall([
      [['difficulty'], 'hard'],
      [['colour'], 'white'],
      [['steps', 0, 'verb'], 'microwave'],
      [['steps', 1, 'done'], undefined],
      [['steps', 5, 'until'], { join: 'all', of: [{ kind: 'moon', phase: 'full' }] }],
    ]);
    const problems = problemsOf(broken);
    expect(problems.map((problem) => problem.field)).toEqual(
      expect.arrayContaining(['difficulty', 'colour', 'steps[0].verb', 'steps[1].done', 'steps[5].until.of[0].kind']),
    );
    for (const problem of problems) expect(problem.remedy).not.toBe('');
    expect(problems.find((problem) => problem.field === 'steps[1].done')?.code).toBe('missing');
    expect(problems.find((problem) => problem.field === 'steps[0].verb')?.expected).toContain('warm');
  });

  it('that is well formed but makes no sense is refused just so', () => {
    const broken = brokenBall([
      [['steps', 1, 'id'], 'warm'],
      [['steps', 0, 'set', 'toC'], undefined],
      [['steps', 0, 'until', 'of'], [{ kind: 'judgement', judgement: 'grip', grade: 'purple', source: 0 }]],
      [['aims', 0, 'moment'], 'bake'],
      [['aims', 1, 'low'], 99],
      [['model', 'moonPhase'], { mean: 1, spread: 0, source: 999 }],
    ]);
    expect(problemsOf(broken).map((problem) => problem.field)).toEqual(
      expect.arrayContaining([
        'steps[1].id',
        'steps[0].set.toC',
        'steps[0].until.of[0].grade',
        'aims[0].moment',
        'aims[1]',
        'model.moonPhase',
        'model.moonPhase.source',
      ]),
    );
  });

  it.each([null, undefined, 'milk', 42, []])('is not even an object: %s is refused in words', (nonsense) => {
    const [problem] = problemsOf(nonsense);
    expect(problem).toBeDefined();
    expect(problemText(problem!)).toMatch(/^make /);
  });
});

describe('docs/make.schema.json', () => {
  it('is the schema that reads makes (npx tsx scripts/write-schemas.ts writes it anew)', () => {
    const written: unknown = JSON.parse(readFileSync(new URL('../../docs/make.schema.json', import.meta.url), 'utf8'));
    expect(written).toEqual(JSON.parse(JSON.stringify(makeJsonSchema())));
  });
});
