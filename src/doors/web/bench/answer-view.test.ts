import { describe, expect, it } from 'vitest';
import { answer } from '../../../exchange/calc/answer.ts';
import type { Say } from '../../../exchange/words.ts';
import { openWriter } from '../../../exchange/written.ts';
import { answerView, type AnswerView } from '../../../exchange/told/answer-view.ts';
import { assumedView } from './assumed-view.ts';
import { curveLayout } from './curve-layout.ts';
import { askSum } from './ask-sum.ts';
import { fieldsOfSum } from '../../../exchange/told/field-shapes.ts';
import { plotView, sweepQuestions } from './plot-view.ts';
import { joined, saidNumber } from '../../../exchange/told/rounding.ts';
import { exampleDraft } from './sum-draft.ts';
import { shapeOf } from '../../../exchange/told/sum-shapes.ts';
import { unitOfField } from '../../../exchange/told/unit-of.ts';

const say: Say = (key, values) => {
  const bare = key.slice(key.indexOf(':') + 1);
  return values === undefined ? bare : `${bare} ${Object.values(values).join(' ')}`;
};
const metric = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'Europe/London' });
const us = openWriter({ language: 'en-US', units: 'us', timeZone: 'America/Chicago' });

function viewOf(name: string, given: Readonly<Record<string, unknown>>, write = metric): AnswerView {
  return answerView({
    sum: name,
    shape: shapeOf(name),
    given,
    result: answer({ name, input: given }).result,
    say,
    write,
  });
}
const text = (input: Parameters<typeof saidNumber>[0]): string => joined(saidNumber(input).said);

describe('a number on the Bench', () => {
  it('has three figures at most, and fewer where its span is wide', () => {
    const unit = unitOfField('mL');
    expect(text({ value: 2.7249, ends: null, unit, write: metric })).toBe('2.72\u202FmL');
    expect(text({ value: 2.7, ends: null, unit, write: metric })).toBe('2.7\u202FmL');
    expect(text({ value: 226.6, ends: { low: 128, high: 404 }, unit: unitOfField('strengthIMCUPerML'), write: metric })).toBe('227\u202FIMCU/mL'); // prettier-ignore
    expect(text({ value: 55.31, ends: { low: 30, high: 90 }, unit: unitOfField('x'), write: metric })).toBe('55');
  });

  it('has a span rounded outward to its own digit', () => {
    const { low, high } = saidNumber({
      value: 13.6,
      ends: { low: 11.53, high: 15.62 },
      unit: unitOfField('kg'),
      write: metric,
    });
    expect([low?.number, high?.number]).toEqual(['11.5', '15.7']);
  });

  it('says seconds, minutes, hours or days by its size', () => {
    const minutes = (value: number): string => text({ value, ends: null, unit: unitOfField('minutes'), write: metric });
    expect([minutes(0.5), minutes(26.3), minutes(200), minutes(5 * 1440)].map((one) => one.replaceAll('\u202F', ' ').replaceAll('\u00A0', ' '))).toEqual(['30 s', '26 min', '3 h 20 min', '5.0 days']); // prettier-ignore
  });

  it("is turned into the reader's units, and its span with it", () => {
    const said = saidNumber({ value: 12, ends: { low: 10, high: 14 }, unit: unitOfField('milkL'), write: us });
    expect(said.said.unit).toBe('gal');
    expect(said.low?.unit).toBe('gal');
    expect(text({ value: 37, ends: null, unit: unitOfField('toC'), write: us })).toBe('98.6\u202F°F');
  });
});

describe('an answer', () => {
  it('says once whether Listeria can grow', () => {
    const view = viewOf('listeria', { temperatureC: 5, pH: 5.2, waterActivity: 0.985, days: 7 });
    const paths = [...view.first, ...view.more].map((line) => line.path);
    expect(paths).toContain('category');
    expect(paths).not.toContain('canGrow');
  });

  it('says first what was asked: grams for a pH, or the pH for so many grams', () => {
    const milk = { species: 'cow' };
    expect(viewOf('acid', { milk, acid: 'citric', targetPH: 5.6 }).first[0]?.path).toBe('gPerL');
    expect(viewOf('acid', { milk, acid: 'citric', gPerL: 1.5 }).first[0]?.path).toBe('pH');
  });

  it('has no span where the strength is known, and one where it is not', () => {
    expect(viewOf('rennet', { milkL: 12, strengthIMCUPerML: 200 }).first[0]?.span).toBeNull();
    expect(viewOf('rennet', { milkL: 12 }).first[0]?.span).toMatch(/nineInTen .* and .*mL/);
  });

  it('counts powder in grams and tablets in tablets', () => {
    const unit = (form: string): unknown => viewOf('rennet', { milkL: 12, form }).first[0]?.said;
    expect(unit('powder')).toMatchObject({ unit: 'g' });
    expect(unit('tablet')).toMatchObject({ unit: 'tablet' });
  });

  it('tells of a pH when it is reached and how likely, and plainly when it is not', () => {
    const given = { culture: { kind: 'mesophilic', packetFraction: 1 }, temperatureProfile: [{ minute: 0, temperatureC: 30 }], minutes: 300, targets: [6.4, 3.6] }; // prettier-ignore
    const [soon, never] = [...viewOf('ripen', given).first].sort((a, b) => b.path.localeCompare(a.path));
    expect(typeof soon?.said).toBe('object');
    expect(never?.said).toBe('targets.none');
  });

  it('lists what a sum gives back in rows', () => {
    const { tables } = viewOf('wash', { vatL: 10, vatC: 37, drawL: 3, waterC: 60, addL: 3 });
    expect(tables[0]?.rows.length).toBeGreaterThan(2);
  });
});

describe('what was assumed', () => {
  const fields = fieldsOfSum('cool');
  const draft = exampleDraft({
    example: { shape: 'sphere', mm: [61], fromC: 58, bathC: 1, targetCoreC: 20 },
    units: 'metric',
  });
  const assumptions = ['moisturePercent: 50; fatPercent: half of the solids', 'times within 15 %', 'stirred: false'];
  const view = assumedView({
    fields,
    inSentence: ['shape', 'mm', 'fromC', 'bathC'],
    hidden: [],
    draft,
    assumptions,
    say,
    sum: 'cool',
  });

  it('stands in the field it is about, one tap from being changed', () => {
    expect(view.rows.find((row) => row.field.path === 'moisturePercent')).toMatchObject({
      text: '50',
      isAssumed: true,
      hint: null,
    });
    expect(view.rows.find((row) => row.field.path === 'fatPercent')?.hint).toBe('half of the solids');
  });

  it('is said in the unit of its field', () => {
    const american = { ...exampleDraft({ example: {}, units: 'us' }) };
    const wash = fieldsOfSum('wash');
    const told = assumedView({ fields: wash, inSentence: [], hidden: [], draft: american, assumptions: ['potKg: 3.53 of steel', 'roomC: 20'], say, sum: 'wash' }); // prettier-ignore
    expect(told.rows.find((row) => row.field.path === 'potKg')?.hint).toBe('7.782 of steel');
    expect(told.rows.find((row) => row.field.path === 'roomC')).toMatchObject({ text: '68', hint: null });
  });

  it('is only said where no field is for it', () => {
    expect(view.lines).toEqual(['times within 15 %']);
  });
});

describe('a drawing', () => {
  it('of a cooling cheese asks the sum for a run of minutes and names three lines', () => {
    const given = { shape: 'sphere', mm: [61], fromC: 58, bathC: 1, targetCoreC: 20 };
    const { result } = answer({ name: 'cool', input: given });
    const shape = shapeOf('cool').plot;
    if (shape === undefined) throw new Error('cool is drawn');
    const questions = sweepQuestions({ sum: 'cool', shape, given, result });
    expect(questions.length).toBeGreaterThan(10);
    const swept = questions.map(askSum);
    const view = plotView({ sum: 'cool', shape, given, result, swept, questions, say, write: metric });
    expect(view?.curves.map((curve) => curve.points.length)).toEqual([25, 25, 25]);
    const drawn = curveLayout({ view: view ?? { curves: [], marks: [], aims: [] }, widthPx: 400, heightPx: 200 });
    expect(drawn.curves.every((curve) => curve.path.startsWith('M') && !curve.path.includes('NaN'))).toBe(true);
    const places = drawn.curves.map((curve) => curve.labelY).sort((a, b) => a - b);
    expect(Math.min(...places.slice(1).map((place, i) => place - (places[i] ?? 0)))).toBeGreaterThanOrEqual(17.9);
    expect(new Set(drawn.curves.map((curve) => curve.dash)).size).toBe(3);
  });

  it('shows as numbers what it draws, band and all', () => {
    const given = {
      milkL: 12,
      cubeMm: 15,
      temperatureProfile: [{ minute: 0, temperatureC: 37 }],
      pH: 6.3,
      minutes: 60,
    };
    const { result } = answer({ name: 'whey', input: given });
    const shape = shapeOf('whey').plot;
    if (shape === undefined) throw new Error('whey is drawn');
    const view = plotView({ sum: 'whey', shape, given, result, swept: [], questions: [], say, write: metric });
    expect(view?.columns).toHaveLength(4);
    expect(view?.rows.at(-1)?.[0]).toBe('60');
    for (const point of view?.curves[0]?.points ?? []) expect((point.low ?? 0) <= point.y && point.y <= (point.high ?? 0)).toBe(true); // prettier-ignore
  });
});
