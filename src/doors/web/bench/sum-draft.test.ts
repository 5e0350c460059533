import { describe, expect, it } from 'vitest';
import { answer } from '../../../exchange/calc/answer.ts';
import { calculators } from '../../../exchange/calc/registry.ts';
import { changedTo, filledOf } from './either.ts';
import { fieldsOfSum } from '../../../exchange/told/field-shapes.ts';
import { draftOfLink, exampleDraft, inUnits, linkOf, rowsOf, withRows, withText, type SumDraft } from './sum-draft.ts';
import { sumInput } from './sum-input.ts';
import { unitOfField, typedSymbol } from '../../../exchange/told/unit-of.ts';

const sums = [...calculators.values()].map((sum) => [sum.name, sum] as const);
const exampleOf = (name: string, units: 'metric' | 'us' = 'metric'): SumDraft =>
  exampleDraft({ example: calculators.get(name)?.example, units });

describe.each(sums)('the blanks of %s', (name, sum) => {
  const fields = fieldsOfSum(name);

  it('give back exactly the worked example they were filled with', () => {
    const { json, problems, blanks } = sumInput({ fields, draft: exampleOf(name) });
    expect([problems, blanks]).toEqual([[], []]);
    expect(answer({ name, input: json }).result).toEqual(answer({ name, input: sum.example }).result);
  });

  it('come back from a link as they went into it', () => {
    const draft = withText({ draft: exampleOf(name, 'us'), path: fields[0]?.path ?? '', text: '7,5 & more' });
    expect(draftOfLink({ query: linkOf(draft), fields })).toEqual(draft.texts[fields[0]?.path ?? ''] === undefined ? null : expect.objectContaining({ units: 'us' })); // prettier-ignore
    const linked = draftOfLink({ query: linkOf(exampleOf(name)), fields });
    expect(linked).toEqual(exampleOf(name));
  });
});

describe('a sum typed in US units', () => {
  it('asks the same question as in litres and Celsius', () => {
    const draft = exampleOf('heat', 'us');
    expect(Number(draft.texts['fromC'])).toBeCloseTo(42.8, 1);
    const { json } = sumInput({ fields: fieldsOfSum('heat'), draft });
    expect(Number(json?.['fromC'])).toBeCloseTo(6, 1);
    expect(Number(json?.['volumeL'])).toBeCloseTo(10, 1);
    expect(inUnits({ draft, units: 'metric' }).texts['toC']).toBe('37');
  });

  it('takes a unit behind the number instead of the one in the field, and refuses one of another kind', () => {
    const fields = fieldsOfSum('heat');
    const typed = (text: string): ReturnType<typeof sumInput> => sumInput({ fields, draft: withText({ draft: exampleOf('heat'), path: 'fromC', text }) }); // prettier-ignore
    expect(typed('50 °F').json?.['fromC']).toBeCloseTo(10, 9);
    expect(typed('50 kg').problems).toHaveLength(1);
  });

  it('turns a difference of temperature without the 32', () => {
    const unit = unitOfField('arrivalDropC');
    expect([unit.house, typedSymbol({ unit, units: 'us' })]).toEqual(['rise-C', '°F']);
    expect(unitOfField('waterC').house).toBe('C');
  });
});

describe('a blank', () => {
  it('stops being an example when it is typed in, and only that one', () => {
    const draft = withText({ draft: exampleOf('rennet'), path: 'milkL', text: '20' });
    expect(draft.examples).not.toContain('milkL');
    expect(draft.examples).toContain('strengthIMCUPerML');
  });

  it('that must be filled and is empty is named, and an optional one is left to be assumed', () => {
    const fields = fieldsOfSum('rennet');
    const empty = (path: string): ReturnType<typeof sumInput> => sumInput({ fields, draft: withText({ draft: exampleOf('rennet'), path, text: '' }) }); // prettier-ignore
    expect(empty('milkL').blanks).toEqual(['milkL']);
    expect(empty('strengthIMCUPerML').json).toEqual({ milkL: 12, doseIMCUPerL: 45 });
  });

  it('of a part that may be left out is asked for once the part is begun', () => {
    const fields = fieldsOfSum('ripen');
    const { 'wash.drawFraction': _gone, ...texts } = exampleOf('ripen').texts;
    expect(sumInput({ fields, draft: { ...exampleOf('ripen'), texts } }).blanks).toEqual(['wash.drawFraction']);
  });
});

describe('a table of readings', () => {
  it("keeps its rows in order, and a row left empty is nobody's mistake", () => {
    const draft = exampleOf('vat-fit');
    const rows = rowsOf({ draft, path: 'readings' });
    expect(rows).toHaveLength(4);
    const grown = withRows({
      draft,
      path: 'readings',
      rows: [...rows, { minute: '', temperatureC: '', heaterOn: 'no' }],
    });
    const fields = fieldsOfSum('vat-fit');
    expect(sumInput({ fields, draft: grown }).json).toEqual(sumInput({ fields, draft }).json);
    const half = withRows({ draft, path: 'readings', rows: [...rows, { minute: '60', temperatureC: '' }] });
    expect(sumInput({ fields, draft: half }).blanks).toEqual(['readings.4.temperatureC']);
  });
});

describe('blanks that exclude each other', () => {
  it('change places without changing the question', () => {
    const draft = exampleOf('acid');
    const fields = fieldsOfSum('acid');
    const before = answer({ name: 'acid', input: sumInput({ fields, draft }).json }).result as {
      gPerL: number;
      pH: number;
    };
    const swapped = changedTo({ draft, paths: ['targetPH', 'gPerL'], to: 'gPerL', result: before });
    expect(filledOf({ draft: swapped, paths: ['targetPH', 'gPerL'] })).toBe('gPerL');
    expect(swapped.texts['targetPH']).toBeUndefined();
    const after = answer({ name: 'acid', input: sumInput({ fields, draft: swapped }).json }).result as { pH: number };
    expect(after.pH).toBeCloseTo(before.pH, 1);
  });

  it('leave the new one blank where no answer tells it', () => {
    const swapped = changedTo({
      draft: exampleOf('wash'),
      paths: ['drawL', 'drawCm'],
      to: 'drawCm',
      result: { finalC: 42 },
    });
    expect(swapped.texts['drawCm']).toBe('');
  });
});
