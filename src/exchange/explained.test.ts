import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planFor, TO_DRAINED_REST, underWay } from '../../tests/makes.ts';
import { CAUSES } from '../forecast/causes.ts';
import { explain } from '../forecast/explain.ts';
import { FAULTS, type FaultsSaid } from '../forecast/explain-faults.ts';
import { QUESTIONS } from '../forecast/explain-questions.ts';
import { explained, type Explained } from './explained.ts';
import { openWords, sayFrom } from './words.ts';
import { openWriter } from './written.ts';

const folder = new URL('../../words/en-GB/', import.meta.url);
const files = Object.fromEntries(readdirSync(folder).map((file) => [file.replace('.json', ''), JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as object])); // prettier-ignore
const words = openWords({ language: 'en-GB', catalogues: { 'en-GB': files } });
const say = sayFrom(words);
const plan = planFor();

const rennetOff = {
  ...underWay({ nowMin: 300, ended: TO_DRAINED_REST, running: 'rest-drained' }),
  readings: [
    { quantity: 'flocculationMin', value: 30, sample: 'milk', elapsedMin: 114 },
    { quantity: 'temperatureC', value: 33.5, sample: 'milk', elapsedMin: 90 },
    { quantity: 'massKg', value: 1.4, sample: 'curd', elapsedMin: 241 },
  ],
  judgements: [{ judgement: 'cleanBreak', grade: 'ragged', elapsedMin: 117 }],
} as const;

function told(units: 'metric' | 'us', faults: FaultsSaid = [{ fault: 'soft-set', isThere: true }]): Explained {
  const explanation = explain({ plan, history: rennetOff, faults, members: 40 });
  return explained({ explanation, say, write: openWriter({ language: 'en-GB', units, timeZone: 'UTC' }), plan });
}
const textsOf = ({ verdict, rows, others, question, apart, change }: Explained): string[] =>
  [verdict, question?.text, apart, change?.text, ...[...rows, ...others].flatMap((row) => [row.name, row.chance, row.inside, ...row.speaksFor, ...row.speaksAgainst])].filter((text) => typeof text === 'string'); // prettier-ignore

describe('an explanation in words', () => {
  it('leaves no key and no blank behind, in either system of units', () => {
    for (const units of ['metric', 'us'] as const) {
      for (const text of textsOf(told(units))) expect(text).not.toMatch(/\{\{|undefined|NaN|Infinity|\b(explain|record|vat):/); // prettier-ignore
    }
  });

  it('says what was noted with its unit, what was foreseen, and how much it moves the cause', () => {
    const [metric, us] = [told('metric'), told('us')].map((one) => textsOf(one).join('\n'));
    expect(metric).toMatch(/30\s+min, where about \d+(\.\d)?\s+min was foreseen/);
    expect(metric).toMatch(/times likelier with this/);
    expect(us).not.toMatch(/°C|\bkg\b|\blitres?\b/);
  });

  it('shows nothing unusual among the first, and no cause that is less than half a dot of twenty', () => {
    const { rows, others } = told('metric');
    expect(rows.some(({ id }) => id === 'nothing')).toBe(true);
    expect(rows.filter(({ id }) => id !== 'nothing').length).toBeLessThanOrEqual(3);
    expect(rows.length + others.length).toBeGreaterThanOrEqual(20);
  });

  it('has words for every cause, fault and question', () => {
    const keys = [
      ...CAUSES.flatMap(({ id }) => [`cause.${id}.name`, `cause.${id}.try`]),
      ...CAUSES.flatMap(({ family }) => (family === undefined ? [] : [`family.${family}`])),
      ...FAULTS.flatMap((fault) => [`fault.${fault}`, `saidAs.${fault}`]),
      ...QUESTIONS.map(({ id }) => `question.${id}`),
    ];
    expect(keys.filter((key) => !words.exists(`explain:${key}`))).toEqual([]);
  });
});
