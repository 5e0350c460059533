import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { answer } from '../../../exchange/calc/answer.ts';
import { calculators } from '../../../exchange/calc/registry.ts';
import { openWords, sayFrom, type Say } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { answerView } from '../../../exchange/told/answer-view.ts';
import { assumedView } from './assumed-view.ts';
import { exampleDraft } from './sum-draft.ts';
import { listedSums, sumSentence } from './bench-list.ts';
import { fieldsOfSum } from '../../../exchange/told/field-shapes.ts';
import { unitGroups } from './measure-options.ts';
import { pathsIn, sentenceParts } from './sentence-parts.ts';
import { SHAPES, shapeOf } from '../../../exchange/told/sum-shapes.ts';
import {
  fieldKeys,
  optionLabel,
  problemSentence,
  resultKeys,
  sayFirst,
  withLabels,
} from '../../../exchange/told/sum-words.ts';
import { isRecord } from '../../../make/problems.ts';

const file = (name: string): object =>
  JSON.parse(readFileSync(new URL(`../../../../words/en-GB/${name}.json`, import.meta.url), 'utf8')) as object;
const say: Say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': { bench: file('bench') } } }));
const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'Europe/London' });
const sums = [...calculators.values()];
const named = sums.map((sum) => [sum.name, sum] as const);

describe.each(named)('the sum %s on the Bench', (name, sum) => {
  const fields = fieldsOfSum(name);
  const inline = pathsIn(sentenceParts(sumSentence(say, name)));

  it('has a title, a question and a place in the list', () => {
    expect(say(`bench:sums.${name}.title`)).not.toBe(`sums.${name}.title`);
    expect(say(`bench:sums.${name}.ask`)).not.toBe(`sums.${name}.ask`);
    expect(SHAPES[name]).toBeDefined();
  });

  it('has only blanks that the sum knows, and a blank or a table for everything it must be told', () => {
    const known = new Set(fields.map((field) => field.path));
    expect(inline.filter((path) => !known.has(path))).toEqual([]);
    const asked = fields.filter((field) => field.required && field.kind !== 'rows').map((field) => field.path);
    expect(asked.filter((path) => !inline.includes(path))).toEqual([]);
  });

  it('calls every blank, choice and result by words and not by the contract', () => {
    const { hidden = [], quiet = [] } = shapeOf(name);
    const shown = fields.filter(({ path }) => !hidden.includes(path)).map(({ path }) => path);
    expect(shown.filter((path) => sayFirst(say, fieldKeys({ sum: name, path })) === null)).toEqual([]);
    const { result } = answer({ name, input: sum.example });
    // A list of points is drawn, a record of targets has a sentence of its own, and spans belong to what they span.
    const results = Object.entries(isRecord(result) ? result : {}).filter(([path]) => !quiet.includes(path) && !/^(spans?|curve|minutesToPH)$|(Span|StandardError)$/.test(path)); // prettier-ignore
    expect(results.map(([path]) => path).filter((path) => sayFirst(say, resultKeys({ sum: name, path })) === null)).toEqual([]); // prettier-ignore
    for (const field of fields) {
      if (field.kind !== 'choice') continue;
      const choices = name === 'measure' && field.path !== 'ingredient' ? unitGroups({ units: field.options, from: null }).flatMap((group) => group.values) : field.options; // prettier-ignore
      const labels = choices.map((value) => optionLabel({ say, sum: name, path: field.path, value }));
      expect(new Set(labels).size, field.path).toBe(labels.length);
    }
  });

  it('answers its example with a first line that says something', () => {
    const given = isRecord(sum.example) ? sum.example : {};
    const { result } = answer({ name, input: sum.example });
    const view = answerView({ sum: name, shape: shapeOf(name), given, result, say, write });
    expect(view.first.length).toBeGreaterThan(0);
    for (const line of [...view.first, ...view.more]) {
      const text = typeof line.said === 'string' ? line.said : line.said.number;
      expect(text, line.path).not.toMatch(/NaN|undefined|Infinity|^$/);
      expect(line.span ?? '', line.path).not.toMatch(/NaN|undefined|\{/);
    }
  });
});

describe('the list of sums', () => {
  it('has every sum of the registry in exactly one group', () => {
    const listed = listedSums({ say, looked: '' }).groups.flatMap((group) => group.sums.map((one) => one.name));
    expect([...listed].sort()).toEqual([...calculators.keys()].sort());
  });

  it('finds a sum by the words of the trade, all of them together', () => {
    const found = (looked: string): string[] =>
      listedSums({ say, looked }).groups.flatMap((group) => group.sums.map((one) => one.name));
    expect(found('flecks weak')).toEqual(['rennet-test']);
    expect(found('SPOON')).toContain('measure');
    expect(found('rennet zebra')).toEqual([]);
  });
});

describe('what a sum takes for granted', () => {
  it.each([...calculators.keys()])(
    '%s: is told to a reader of gallons without litres, kilograms or Celsius',
    (name) => {
      const example = calculators.get(name)?.example;
      const { result, assumptions } = answer({ name, input: example });
      const draft = exampleDraft({ example, units: 'us' });
      const view = assumedView({ fields: fieldsOfSum(name), inSentence: [], hidden: shapeOf(name).hidden ?? [], draft, assumptions, results: isRecord(result) ? Object.keys(result) : [], say, sum: name }); // prettier-ignore
      const told = [...view.lines, ...view.rows.map(({ hint }) => hint ?? '')];
      expect(told.filter((line) => /litre|metre|°C|\d (?:L|kg)(?![\w/])/.test(line))).toEqual([]);
    },
  );
});

describe('a problem beside its blank', () => {
  it('names the blank as the screen does, with the unit typed and other blanks by their words', () => {
    const problem = { code: 'contradiction', field: 'toC', value: 5, unit: '°C', expected: 'more than fromC, 6 °C', remedy: 'Give a warmer target.' } as const; // prettier-ignore
    const told = problemSentence({ problem, say, sum: 'heat', paths: ['fromC', 'toC'], units: 'metric', typed: '5' });
    expect(told).toBe('To: 5\u00A0°C does not fit. Possible: more than from, 6 °C. Give a warmer target.');
  });

  it('leaves plain words alone when it puts labels for contract names', () => {
    const text = 'minutes: 11 for drawing; give minutes and waterC';
    expect(withLabels({ text, say, sum: 'wash', paths: ['minutes', 'waterC'] })).toBe(
      'Time: 11 for drawing; give minutes and water',
    );
  });
});
