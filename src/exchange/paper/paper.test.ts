import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dayEndStep } from '../../forecast/day-end.ts';
import { simulate } from '../../forecast/simulate.ts';
import { parseMake } from '../../make/make.ts';
import { planMake } from '../../make/planning.ts';
import { settingsSchema } from '../../make/step.ts';
import type { Answers } from '../../make/setup.ts';
import { foldBatch } from '../../record/fold.ts';
import { demoEvents, parseDemo } from '../demo.ts';
import { planOfRecord } from '../record-plan.ts';
import { bothUnits } from '../text/both-units.ts';
import { openWords, sayFrom } from '../words.ts';
import { openWriter } from '../written.ts';
import { classRunSheet, runEvents, runRows } from './class-run.ts';
import { wordsOf, type PaperSheet } from './element.ts';
import { isSoft, notForWhom } from './eater.ts';
import { getReadySheet } from './get-ready.ts';
import { handOutSheet } from './hand-out.ts';
import { paperDocument } from './html.ts';
import { inspectorSheet } from './inspector-record.ts';
import { neutralDoses } from './neutral-doses.ts';
import { studentSheet } from './student-sheet.ts';
import { takeHomeSheet, type LabelWords } from './take-home.ts';
import type { Told } from './step-words.ts';

const read = (path: string): object => JSON.parse(readFileSync(path, 'utf8')) as object;
const filesOf = (language: string): Record<string, object> => Object.fromEntries(readdirSync(`words/${language}`).map((file) => [file.replace('.json', ''), read(`words/${language}/${file}`)])); // prettier-ignore
const say = sayFrom(openWords({ language: 'en-GB', catalogues: { 'en-GB': filesOf('en-GB') } }));
const told: Told = { say, write: openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' }), both: bothUnits('metric'), isInBoth: false }; // prettier-ignore
const inBoth: Told = { ...told, isInBoth: true };
const makes = readdirSync('makes').map((file) => parseMake(read(`makes/${file}`)));
const ball = makes.find(({ id }) => id === 'stretched-ball') ?? parseMake({});
const answers: Answers = { milk: { volumeL: 10, treatment: 'pasteurised' }, pot: { volumeL: 12, name: 'Ash' } };
const plan = planMake({ make: ball, answers });
const forecast = simulate({ plan, seed: 1, members: 60 });
const zeroAt = Date.UTC(2026, 10, 12, 8);
const lastStepId = dayEndStep({ steps: plan.steps, lengthMin: (id) => { const step = forecast.steps.find(({ stepId }) => stepId === id); return step === undefined ? undefined : step.endMin.p50 - step.startMin.p50; } }); // prettier-ignore
const textOf = (sheet: PaperSheet): string => sheet.body.map(wordsOf).join(' ').replaceAll(/\s+/g, ' ');
const WILD =
  /NaN|undefined|Infinity|\[object|paper:|plan:|vat:|record:|findings:|labels:|plan-text:|\{\{|returned an object/;

const label: LabelWords = {
  name: 'Stretched ball', lot: 'LK-1112-ASH', made: '12 November 2026', until: { name: 'Use by', day: '17 November 2026' }, keep: 'Keep at 4 °C or colder',
  ingredients: [{ text: 'Ingredients: pasteurised cow’s ', isAllergen: false }, { text: 'milk', isAllergen: true }], contains: [{ text: 'Contains milk', isAllergen: true }], raw: null,
}; // prettier-ignore
const pots = ['Ash', 'Birch', 'Elm'].map((name, index) => ({ potId: name, name, plan, forecast, zeroAt: zeroAt + index * 15 * 60_000, lastStepId })); // prettier-ignore

describe('a sheet', () => {
  it('is told in whole words, whichever it is', () => {
    const sheets = [
      studentSheet({ plan, pot: { name: 'Ash', lotCode: null, day: null }, lastStepId, told }),
      takeHomeSheet({ plan, label, piece: { pupil: null, weightG: 125, leftColdAt: null, homeMilkL: 5, address: 'http://localhost:4711/plan#make=stretched-ball' }, told: inBoth }), // prettier-ignore
      getReadySheet({ pots, told }),
      classRunSheet({ pots, burners: 2, clashes: ['Ash and Birch both want the burner.'], told }),
      handOutSheet({ plan, forecast, notes: {}, told: inBoth }),
    ];
    for (const sheet of sheets) {
      expect(textOf(sheet), sheet.id).not.toMatch(WILD);
      expect(textOf(sheet).length, sheet.id).toBeGreaterThan(600);
    }
    expect(new Set(sheets.map(({ id }) => id)).size).toBe(sheets.length);
  });

  it('has words for every figure that a step may set, and every piece of kit', () => {
    const paper = filesOf('en-GB')['paper'] as { readonly set: object; readonly kit: object };
    const figures = Object.keys(settingsSchema.shape).filter((name) => /C$|Mm$|G$|Kg$|L$|Percent$|Minutes$|Min$|Hours$|KPa$|^pours$/.test(name)); // prettier-ignore
    expect(figures.length).toBeGreaterThan(10);
    expect(figures.filter((name) => !Object.hasOwn(paper.set, name))).toEqual([]);
    const kit = [...new Set(makes.flatMap(({ steps }) => steps.flatMap((step) => step.kit)))];
    expect(kit.filter((one) => !Object.hasOwn(paper.kit, `${one}_one`))).toEqual([]);
  });
});

describe('the pupil’s sheet', () => {
  const sheet = studentSheet({ plan, pot: { name: 'Ash', lotCode: 'LK-1', day: null }, lastStepId, told });
  it('has a row a step of the day, the hot water’s pourer, and the scale of each judgement', () => {
    const text = textOf(sheet);
    for (const step of plan.steps.slice(0, plan.steps.findIndex(({ id }) => id === lastStepId) + 1)) expect(text).toContain(step.name); // prettier-ignore
    expect(text).toContain('Who pours:');
    expect(text).toContain('2 Clean break');
    expect(sheet.isOnePage).toBe(true);
  });
});

describe('the take-home sheet', () => {
  const of = (treatment: 'pasteurised' | 'raw') =>
    textOf(takeHomeSheet({ plan: planMake({ make: ball, answers: { ...answers, milk: { volumeL: 10, treatment } } }), label, piece: { pupil: 'Table 1', weightG: 130, leftColdAt: '14:05', homeMilkL: 5, address: 'http://x/plan#make=stretched-ball&milk.volumeL=5' }, told: inBoth })); // prettier-ignore
  it('carries the pupil’s own weight, the clock of the cold, and the doses for the pot at home', () => {
    expect(of('pasteurised')).toContain('130 g (4.59 oz)');
    expect(of('pasteurised')).toContain('14:05');
    expect(of('pasteurised')).toContain('5 L (1.3 gal), your pot');
    expect(of('pasteurised')).toContain('milk.volumeL=5');
  });
  it('says who should not eat it: a moist cheese by itself, raw milk louder, never that anybody is safe', () => {
    expect(isSoft(ball)).toBe(true);
    expect(of('pasteurised')).toContain('pregnant women');
    expect(of('raw')).toContain('never serve them cheese of raw milk');
    expect(notForWhom({ make: ball, treatment: 'raw', told }).join(' ')).toContain('60 days');
    expect(`${of('raw')} ${of('pasteurised')}`).not.toMatch(/\bis safe\b|\bsafe to\b/);
  });
  it('gives doses that rest on nobody’s packet', () => {
    const doses = neutralDoses({ make: ball, volumeL: 10, told: inBoth });
    expect(doses.map(({ name }) => name)).toEqual([
      'Thermophilic culture with helveticus',
      'Rennet',
      'Calcium chloride',
    ]);
    expect(doses[1]?.value).toMatch(/^\d{3} IMCU: [\d.]+ mL .* at 200 IMCU\/mL$/);
    const sour = parseMake({ ...ball, doses: { ...ball.doses, acid: { kind: 'citric', gPerL: { low: 1, aim: 1.4, high: 2, source: 'common practice' } } } }); // prettier-ignore
    expect(neutralDoses({ make: sour, volumeL: 10, told }).find(({ name }) => name.startsWith('Citric'))).toEqual({ name: 'Citric acid, crystals', value: '14.0\u202Fg' }); // prettier-ignore
  });
});

describe('the run of the class', () => {
  it('puts every step of every pot on one clock, five minutes to a row', () => {
    const events = runEvents(pots);
    expect(events.length).toBe(3 * (plan.steps.findIndex(({ id }) => id === lastStepId) + 1));
    const rows = runRows(events);
    expect(rows.flatMap((row) => row.events)).toHaveLength(events.length);
    expect(rows.every(({ at }, index) => index === 0 || at - (rows[index - 1]?.at ?? 0) >= 5 * 60_000)).toBe(true);
  });
  it('takes the clock of a planned day where one was worked out', () => {
    const moved = pots.map((pot) => ({ ...pot, startsAt: new Map([['cut', zeroAt + 999 * 60_000]]) }));
    expect(runEvents(moved).filter(({ step }) => step.id === 'cut').every(({ at }) => at === zeroAt + 999 * 60_000)).toBe(true); // prettier-ignore
  });
});

describe('the batch record for an inspector', () => {
  const events = demoEvents({
    demo: parseDemo(read('demo/larkenshaw.json')),
    makes,
    nowAt: Date.UTC(2026, 10, 25, 11),
  });
  const record = foldBatch(events.filter(({ streamId }) => streamId === 'batch:demo-ash'));
  const lines = record.entries.map(({ eventId, kind, was, retracted }) => ({ eventId, what: `told ${kind}`, was: was.map(() => ({ what: 'before', clock: '10:00', note: 'set right' })), retracted: retracted === null ? null : 'taken back' })); // prettier-ignore
  const sheet = inspectorSheet({ record, plan: planOfRecord({ record }), lines, plannedAt: new Map([['warm', record.zeroAt]]), lotNames: new Map(), printedAt: Date.UTC(2026, 10, 29), told }); // prettier-ignore
  it('holds every entry, what was set right before it, who and when, and blanks for what nobody typed', () => {
    const text = textOf(sheet);
    expect(text).not.toMatch(WILD);
    for (const entry of record.entries) expect(text).toContain(`told ${entry.kind}`);
    expect(text).toContain('before set right');
    expect(text).toContain('LK-1112-ASH');
    expect(text).toContain('Supplier and address');
    expect(JSON.stringify(sheet).match(/paper-blank/g)?.length).toBeGreaterThan(10);
  });
});

describe('a sheet as one file', () => {
  const named = parseMake({ ...ball, $schema: undefined, name: '<script>alert(1)</script> & "curd"' });
  const html = paperDocument({ sheets: [handOutSheet({ plan: planMake({ make: named, answers }), forecast, notes: {}, told: inBoth })], language: 'en-GB' }); // prettier-ignore
  it('carries its style, fetches nothing, runs nothing, and escapes what a make says', () => {
    expect(html).toMatch(/^<!doctype html>\n<html lang="en-GB">/);
    expect(html).toContain('<style>');
    expect(html).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|src=|onload|javascript:/i);
    expect(html).toContain('&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;curd&quot;');
  });
});
