import fc from 'fast-check';
import ICAL from 'ical.js';
import { readdirSync, readFileSync } from 'node:fs';
import Papa from 'papaparse';
import type { Recipe, WithContext } from 'schema-dts';
import { describe, expect, it } from 'vitest';
import { simulate } from '../../forecast/simulate.ts';
import { parseMake } from '../../make/make.ts';
import { planMake } from '../../make/planning.ts';
import type { Answers } from '../../make/setup.ts';
import { InputError } from '../../numbers/validity.ts';
import { foldBatch } from '../../record/fold.ts';
import { demoEvents, parseDemo } from '../demo.ts';
import type { Told } from '../paper/step-words.ts';
import { scheduleOf } from '../schedule.ts';
import { bothUnits } from '../text/both-units.ts';
import type { Sheet } from '../text/telling.ts';
import { openWords, sayFrom } from '../words.ts';
import { openWriter } from '../written.ts';
import { csvText } from './csv.ts';
import { isoDuration } from './iso-duration.ts';
import { makeCalendar } from './make-calendar.ts';
import { makeCsv } from './make-csv.ts';
import { fileName, makeFileText, readMakeFile } from './make-file.ts';
import { questionAddress, readQuestion } from './question-link.ts';
import { recipeOf } from './recipe.ts';
import { recordCsv } from './record-csv.ts';

const read = (path: string): object => JSON.parse(readFileSync(path, 'utf8')) as object;
const filesOf = (language: string): Record<string, object> => Object.fromEntries(readdirSync(`words/${language}`).map((file) => [file.replace('.json', ''), read(`words/${language}/${file}`)])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': filesOf('en-GB') } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const told: Told = { say, write, both: bothUnits('metric'), isInBoth: true };
const makes = readdirSync('makes').map((file) => parseMake(read(`makes/${file}`)));
const ball = makes.find(({ id }) => id === 'stretched-ball') ?? parseMake({});
const answers: Answers = { milk: { volumeL: 10, treatment: 'pasteurised' }, pot: { volumeL: 12 } };
const NOW = Date.UTC(2026, 10, 11, 9);

function sheetOf(): Sheet {
  const plan = planMake({ make: ball, answers });
  const forecast = simulate({ plan, seed: 1, members: 60 });
  const schedule = scheduleOf({ plan, forecast, wish: { mode: 'start-at', at: Date.UTC(2026, 10, 12, 8) }, now: NOW });
  if (schedule === null) throw new Error('such a make ends');
  return { plan, forecast, schedule, now: NOW, spoonDelayMin: null, say, both: told.both, write, clock: write.clock, day: write.day, wayToAnswer: (field) => field, width: 96 }; // prettier-ignore
}
const sheet = sheetOf();

/**
 * The vocabulary of schema.org as its typed edition writes it down (schema-dts 2.1.0, generated from the published
 * vocabulary): which properties a type has, with those of the types it comes from.
 */
const vocabulary = readFileSync('node_modules/schema-dts/dist/schema.d.ts', 'utf8');
const known = new Map<string, Set<string>>();
function propertiesOf(type: string): Set<string> {
  const had = known.get(type);
  if (had !== undefined) return had;
  const at = vocabulary.indexOf(`interface ${type} extends `);
  const [, parents = '', own = ''] = /^interface \w+ extends ([^{]*)\{([\s\S]*?)\n?\}\n/.exec(at === -1 ? '' : vocabulary.slice(at, at + 60_000)) ?? [];
  const names = [...own.matchAll(/^\s*"([A-Za-z]+)"\??:/gm)].map(([, name = '']) => name);
  const all = new Set([...names, ...[...parents.matchAll(/(\w+Base)\b/g)].flatMap(([, parent = '']) => [...propertiesOf(parent)])]);
  known.set(type, all);
  return all;
} // prettier-ignore

describe('a make as a recipe for other programs', () => {
  const recipe = recipeOf({
    sheet,
    told,
    language: 'en-GB',
    author: 'Larkenshaw',
    license: 'free to copy with its name',
  });
  // The compiler holds it against the vocabulary's own types.
  const typed: WithContext<Recipe> = recipe;

  it('has no property that schema.org does not know for a Recipe, a step, a supply or a tool', () => {
    const of = (type: string): Set<string> =>
      new Set(['@type', '@context', ...propertiesOf(`${type}Base`), ...propertiesOf(`${type}Leaf`)]);
    expect(of('Recipe').size).toBeGreaterThan(100);
    expect(Object.keys(typed).filter((name) => !of('Recipe').has(name))).toEqual([]);
    for (const step of recipe.recipeInstructions) expect(Object.keys(step).filter((name) => !of('HowToStep').has(name))).toEqual([]); // prettier-ignore
    for (const supply of recipe.supply) expect(Object.keys(supply).filter((name) => !of('HowToSupply').has(name))).toEqual([]); // prettier-ignore
    for (const tool of recipe.tool) expect(Object.keys(tool).filter((name) => !of('HowToTool').has(name))).toEqual([]);
  });

  it('says yield, ingredients with amounts, steps in order, and its times as ISO 8601', () => {
    const ISO = /^P(?=.)(\d+D)?(T(?=.)(\d+H)?(\d+M)?)?$/;
    expect(recipe.totalTime).toMatch(ISO);
    expect(recipe.performTime).toMatch(ISO);
    expect(recipe.recipeYield.at(-1)).toMatch(/^about [\d.]+ (g|kg) \([\d.]+ lb\) of cheese$/);
    expect(recipe.recipeIngredient.length).toBeGreaterThanOrEqual(4);
    expect(recipe.recipeIngredient.every((line) => /\d/.test(line))).toBe(true);
    expect(recipe.recipeInstructions.map(({ position }) => position)).toEqual(sheet.plan.steps.map((_, index) => index + 1)); // prettier-ignore
    expect(recipe.recipeInstructions.every(({ name, text }) => name.length > 2 && text.length > 20)).toBe(true);
    expect(JSON.stringify(recipe)).not.toMatch(/undefined|NaN|paper:|plan:|\{\{/);
  });

  it.each([[0, 'PT0M'], [45, 'PT45M'], [60, 'PT1H'], [330, 'PT5H30M'], [1439.7, 'P1D'], [1500, 'P1DT1H'], [60 * 1440, 'P60D'], [3 * 1440 + 29, 'P3D']] as const)('writes %d minutes as %s', (minutes, text) => {
    expect(isoDuration(minutes)).toBe(text);
  }); // prettier-ignore
});

describe('a make as a file', () => {
  it('comes back as the same make, whichever it is', () => {
    for (const make of makes) {
      const { $schema: _, ...kept } = make;
      expect(readMakeFile(makeFileText(make))).toEqual({ ...kept, $schema: 'make.schema.json' });
    }
  });
  it('is refused whole, with every problem and its path', () => {
    const broken = makeFileText(ball).replace('"verb": "warm"', '"verb": "waltz"').replace('"low":', '"lowest":');
    const problems = (() => {
      try {
        readMakeFile(broken);
        return [];
      } catch (error) {
        return error instanceof InputError ? error.problems : [];
      }
    })();
    expect(problems.map(({ field }) => field)).toContain('steps[0].verb');
    expect(problems.length).toBeGreaterThan(1);
    for (const bad of ['', '{', '[]', 'null', '"x"', 'PK\u0003\u0004'])
      expect(() => readMakeFile(bad)).toThrow(InputError);
    expect(() => readMakeFile(' '.repeat(1_000_001))).toThrow(InputError);
  });
  it('is named so that any disk takes it', () => {
    expect(fileName('Crème à l’Ash: "best"/../x', 'make.json')).toBe('cre-me-a-l-ash-best-..-x-make.json');
  });
});

describe('a link', () => {
  it('carries every answer but what means something on this device alone', () => {
    const mine: Answers = { ...answers, units: 'us', confirmed: ['milk.temperatureC'], rennet: { strengthImcuPerMl: 200, lot: 'lot:7' }, changes: { 'brine-minutes': 34 } }; // prettier-ignore
    const address = questionAddress({ base: 'http://localhost:4711/', question: { makeId: 'stretched-ball', answers: mine } }); // prettier-ignore
    expect(address).toMatch(/^http:\/\/localhost:4711\/plan#make=stretched-ball&milk\.volumeL=10&/);
    expect(address.length).toBeLessThan(250);
    expect(readQuestion(address.slice(address.indexOf('#')))).toEqual({
      makeId: 'stretched-ball',
      answers: { milk: { volumeL: 10, treatment: 'pasteurised' }, pot: { volumeL: 12 }, rennet: { strengthImcuPerMl: 200 }, units: 'us', changes: { 'brine-minutes': 34 } }, // prettier-ignore
    });
  });
  it('asks nothing where none is asked, and refuses what cannot be', () => {
    expect(readQuestion('')).toBeNull();
    expect(readQuestion('#top')).toBeNull();
    for (const bad of ['#make=x&milk.volumeL=lots', '#make=../../x&milk.volumeL=4', '#make=x', '#make=x&milk.volumeL=4&milk.colour=blue', '#make=x&milk.volumeL=99999']) expect(() => readQuestion(bad), bad).toThrow(InputError); // prettier-ignore
  });
  it('puts nothing into what every object has, whatever a stranger types', () => {
    fc.assert(
      fc.property(fc.string(), (fragment) => {
        try {
          readQuestion(`#make=x&${fragment}&__proto__.polluted=1&constructor.prototype.polluted=1`);
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
        }
        expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
      }),
      { seed: 8, numRuns: 300 },
    );
  });
});

describe('a table', () => {
  it('is read back by another reader cell by cell, and runs nothing in a spreadsheet', () => {
    const wild = ['=1+1', '+1', '-1+2', '@SUM(A1)', '\t=1', ' =1', '＝1', 'plain', 'a "quote", and\r\na line', ''];
    const back = Papa.parse<string[]>(csvText([wild, [1, -2.5, null, Number.NaN, 'x']]), { skipEmptyLines: true }).data;
    expect(back[0]).toEqual(["'=1+1", "'+1", "'-1+2", "'@SUM(A1)", "'\t'=1", "' =1", "'＝1", 'plain', 'a "quote", and\r\na line', '']); // prettier-ignore
    expect(back[1]).toEqual(['1', '-2.5', '', '', 'x']);
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'grapheme' }), { minLength: 1, maxLength: 4 }), (cells) => {
        const [row = []] = Papa.parse<string[]>(csvText([[...cells, 'end']])).data;
        expect(row.map((cell, index) => cell === cells[index] || cell === `'${cells[index] ?? ''}`).slice(0, -1)).not.toContain(false); // prettier-ignore
        expect(row.some((cell) => /^[=+\-@]/.test(cell))).toBe(false);
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('of a make has a row a step and a column a setting', () => {
    const { data, errors } = Papa.parse<Record<string, string>>(makeCsv(sheet.plan), { header: true, skipEmptyLines: true }); // prettier-ignore
    expect(errors).toEqual([]);
    expect(data.map(({ step }) => step)).toEqual(sheet.plan.steps.map(({ id }) => id));
    expect(data.find(({ step }) => step === 'cut')?.['cubeMm']).toBe('12');
    expect(data.find(({ verb }) => verb === 'warm')?.['until']).toBe('temperature atC=37');
  });

  it('of a record has a row an entry, with what it said before it was set right', () => {
    const events = demoEvents({
      demo: parseDemo(read('demo/larkenshaw.json')),
      makes,
      nowAt: Date.UTC(2026, 10, 25, 11),
    });
    const record = foldBatch(events.filter(({ streamId }) => streamId === 'batch:demo-ash'));
    const { data, errors } = Papa.parse<Record<string, string>>(recordCsv(record), { header: true, skipEmptyLines: true }); // prettier-ignore
    expect(errors).toEqual([]);
    const before = record.entries.reduce((sum, { was }) => sum + was.length, 0);
    expect(before).toBeGreaterThan(0);
    expect(data).toHaveLength(record.entries.length + before);
    expect(data.filter(({ standing }) => standing?.startsWith('set right'))).toHaveLength(before);
    expect(data.every(({ happenedAt }) => /^\d{4}-\d\d-\d\dT.*Z$/.test(happenedAt ?? ''))).toBe(true);
    expect(data.find(({ kind, quantity }) => kind === 'reading' && quantity === 'temperatureC')?.['unit']).toBe('C');
  });
});

describe('the day as a calendar', () => {
  it('is read by a parser that is not ours, every event with its time, its words and an alarm', () => {
    const text = makeCalendar({ sheet, told, id: 'stretched-ball.1', madeAt: NOW });
    const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
    const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(events.length).toBeGreaterThan(15);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    for (const event of events) {
      expect(event.startDate.toJSDate().getTime()).toBeLessThan(event.endDate.toJSDate().getTime());
      expect(event.summary.length).toBeGreaterThan(5);
      expect(event.component.getAllSubcomponents('valarm')).toHaveLength(1);
    }
    const warm = events.find(({ uid }) => uid === 'stretched-ball.1.warm@vatside');
    expect(warm?.startDate.toJSDate().getTime()).toBe(sheet.schedule.zeroAt);
    expect(warm?.summary).toBe('Warm the milk (Stretched ball)');
    expect(text).not.toMatch(/NaN|undefined|paper:|\{\{/);
  });
});
