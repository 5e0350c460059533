import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import british from '../../words/en-GB/findings.json';
import american from '../../words/en-US/findings.json';
import { CAUTION_CODES, CAUTION_FIELDS, cautionsFor } from '../science/cautions.ts';
import type { Finding } from '../science/finding.ts';
import { remark, REMARK_CODES, REMARKS } from '../science/remarks.ts';
import { brineTimeCalc } from './calc/brine-time.ts';
import { openWords, sayFrom } from './words.ts';

const words: Readonly<Record<string, string>> = british;

const root = new URL('../', import.meta.url);
const code = readdirSync(root, { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.tsx?$/.test(name) && !/\.test\.tsx?$/.test(name))
  .map((name) => readFileSync(new URL(name, root), 'utf8'))
  .join('\n');

/** Codes of findings written out anywhere in the code: a severity with a code beside it. */
const written = [
  ...code.matchAll(
    /(?:severity: '(?:info|caution|stop)'[^\n]*?\s+code: |say\('(?:info|caution|stop)', )'([a-z0-9-]+)'/g,
  ),
].map((match) => match[1] ?? '');

const say = sayFrom(
  openWords({
    language: 'en-GB',
    catalogues: { 'en-GB': { findings: british }, 'en-US': { findings: american } },
  }),
);
const said = (finding: Finding): string => say(`findings:${finding.code}`, finding.fields);
const keysIn = (text: string): string[] => [...text.matchAll(/\{\{\s*(\w+)/g)].map((match) => match[1] ?? '');

describe('the words of the findings', () => {
  it('are there for every code that any room gives out, and for nothing else', () => {
    expect(written.length).toBeGreaterThan(15);
    const given = new Set([...CAUTION_CODES, ...REMARK_CODES, ...written]);
    expect([...given].filter((each) => words[each] === undefined)).toEqual([]);
    expect(Object.keys(words).filter((each) => !given.has(each) && !code.includes(`'${each}'`))).toEqual([]);
  });

  it('differ for US readers only where the spelling does', () => {
    const spelt = (text: string): string =>
      text
        .replaceAll('pasteuriz', 'pasteuris')
        .replaceAll('sulfite', 'sulphite')
        .replaceAll('omogeniz', 'omogenis')
        .replaceAll('liter', 'litre');
    for (const [each, text] of Object.entries(american)) {
      expect(spelt(text)).toBe(words[each]);
      expect(text).not.toBe(words[each]);
    }
    const read = Object.values({ ...words, ...american });
    expect(read.filter((text) => /pasteuris|sulphite|omogenis|litre/.test(text))).toEqual([]);
  });

  it('ask for no number that the rule does not give', () => {
    for (const each of CAUTION_CODES) {
      for (const key of keysIn(words[each] ?? '')) expect(CAUTION_FIELDS.get(each) ?? [], each).toContain(key);
    }
    for (const [each, { fields }] of Object.entries(REMARKS)) {
      for (const key of keysIn(words[each] ?? '')) expect(fields, each).toContain(key);
    }
  });

  it('have no empty place, and no number that is none', () => {
    const situations = [
      { milkTreatment: 'raw', volumeL: 30, waterC: 120, isHandWorked: true, hasChildren: true, milkAgeH: 50 },
      { elapsedMin: 1500, pH: 5.9, staphLogs: 2.2, pHDropIn2H: 0.02, forecastPH54P50Min: 600 },
      { elapsedMin: 500, staphLogs: 4, addedCalciumGPerKg: 0.3, heatC: 60, brinePercent: 8 },
      { heatC: 60, isPasteuriseStep: true, useByDays: 30, outMin: 130, storedC: 9, brinePercent: 12 },
      { heatedC: 88, milkTreatment: 'raw', plannedAgeDays: 90 },
      { outMin: 400, warmCurdMin: 300, labelText: 'pathogen-free', brinePercent: 18, brineUses: 40 },
    ] as const;
    const heard = new Set<string>();
    for (const situation of situations) {
      for (const finding of cautionsFor(situation)) {
        heard.add(finding.code);
        expect(said(finding)).not.toMatch(/NaN|undefined|null|\{\{|\?/);
        expect(said(finding)).not.toContain(finding.code);
      }
    }
    const withNumbers = CAUTION_CODES.filter((each) => keysIn(words[each] ?? '').length > 0);
    expect([...heard]).toEqual(expect.arrayContaining(withNumbers));
  });

  it('promise nothing, and leave what is legal to those who decide', () => {
    for (const [each, text] of Object.entries(words)) {
      expect(text, each).not.toMatch(/\bsafe\b|\bunsafe\b|will pass/i);
      expect(text.length, each).toBeLessThan(520);
    }
    const legal = [
      'raw-fresh',
      'past-plan',
      'calcium-max',
      'ph24',
      'date-7',
      'label-claim',
      'lot-missing',
      'acid-staph-3',
    ];
    for (const each of legal) expect(words[each], each).toMatch(/Your local code.*decide\./i);
  });

  it('read as sentences with the numbers in', () => {
    const [hands] = cautionsFor({ isHandWorked: true, waterC: 80 });
    expect(hands === undefined ? '' : said(hands)).toContain('At 80 °C, water or curd blisters an adult');
    expect(said(remark({ code: 'brine-drops', fields: { brinePercent: 18, brinePercentAfter: 17.44 } }))).toContain(
      'from 18 to 17.4 %',
    );
    const { cautions } = brineTimeCalc.run(
      brineTimeCalc.input.parse({ ...brineTimeCalc.example, temperatureC: 35, brineKg: 0.3 }),
    );
    expect(cautions.map(said).join(' ')).toContain('35 °C changes salting');
  });
});
