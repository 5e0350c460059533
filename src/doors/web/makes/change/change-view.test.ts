import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../../../../tests/makes.ts';
import { keysOf, reader } from '../../../../../tests/spoken.ts';
import { CALLED_CAUTIONS } from '../../../../exchange/make-checks.ts';
import { parseMake } from '../../../../make/make.ts';
import { InputError } from '../../../../numbers/validity.ts';
import { bodyProblems } from '../../../../record/parse-event.ts';
import { checkText, differenceLines, problemText } from './change-view.ts';
import { put, withStep } from './edit.ts';
import { readWritten } from './read.ts';
import { savingOf } from './saving.ts';
import { CHOICES, ENDS, SETTINGS } from './settings.ts';
import { wordsOfField } from './words-of-field.ts';
import type { Written } from './written.ts';

const telling = reader('change', 'makes', 'plan', 'vat');
const ball = makeNamed('stretched-ball');
const written: Written = { ...ball };

describe('what a make does otherwise', () => {
  it('is told with the step, the label of the field, and both figures', () => {
    const now = parseMake(
      put(put(written, ['steps', 0, 'set', 'toC', 'value'], 36), ['doses', 'rennet', 'imcuPerL', 'aim'], 42),
    );
    expect(differenceLines({ was: ball, now, ...telling })).toEqual([
      'Strength for each litre: 42 (40 to 55), not 45 (40 to 55).',
      'Warm the milk, Warmed to: 36, not 37.',
    ]);
  });
});

describe('a make half written', () => {
  it('says where each gap is, by the step and the label a person sees', () => {
    const { problems, make } = readWritten(withStep(written, { verb: 'cook', after: 8 }));
    expect(make).toBeNull();
    const told = problems.map(
      (problem) =>
        `${wordsOfField(problem.field, withStep(written, { verb: 'cook', after: 8 }), telling.say)}: ${problemText(problem, telling)}`,
    );
    expect(told[0]).toMatch(/^10\. \(no name yet\), Name: /);
  });

  it('names a figure that the verb cannot do without', () => {
    const bare = put(written, ['steps', 0, 'set', 'toC'], undefined);
    const [problem] = readWritten(bare).problems;
    expect(problem?.field).toBe('steps[0].set.toC');
    expect(wordsOfField('steps[0].set.toC', bare, telling.say)).toBe('1. Warm the milk, Warmed to');
  });

  it('is doubted in a sentence with its figures', () => {
    const sour = readWritten(put(written, ['steps', 1, 'set', 'ingredient'], 'colour'));
    expect(sour.problems.map(({ field }) => field)).toContain('doses.colour');
    const text = checkText(
      { code: 'time-contradicted', field: 'x', step: 'Rest', minutes: 10, likelyMin: 75, p5: 50, p95: 120 },
      telling,
    );
    expect(text.replace(/[\u202F\u00A0]/g, ' ')).toBe(
      '“Rest” says 10 min; the forecast expects about 1 h 15 min, 9 times in 10 between 50 min and 2 h.',
    );
  });
});

describe('saving', () => {
  const newStreamId = (): string => 'make:0191-ab-cdef';

  it('makes a draft of one’s own beside the original, one number on', () => {
    const { note, makeId } = savingOf({
      written: put(written, ['name'], 'Tía’s ball'),
      mine: null,
      basis: ball,
      newStreamId,
    });
    expect(makeId).toBe('tia-s-ball-cdef');
    expect(note.body).toMatchObject({ from: 'stretched-ball', make: { id: makeId, version: 2, status: 'draft' } });
    expect(
      bodyProblems({ kind: 'makeSaved', streamId: note.streamId, body: note.body as Record<string, never> }),
    ).toEqual([]);
    expect(() => parseMake((note.body as { make: unknown }).make)).not.toThrow();
  });

  it('drops empty lines of words, and keeps the sources as they are numbered', () => {
    const gaps = put(written, ['aliases'], ['one', '', ' ', 'two']);
    const { note } = savingOf({ written: gaps, mine: null, basis: ball, newStreamId });
    const { make } = note.body as { make: { aliases: string[]; sources: string[] } };
    expect(make.aliases).toEqual(['one', 'two']);
    expect(make.sources).toEqual(ball.sources);
  });
});

describe('the words of the form', () => {
  const keys = new Set(keysOf('en-GB', 'change'));
  it('name every verb, setting, end and caution', () => {
    for (const verb of CHOICES.verb) expect(keys).toContain(`verb.${verb}`);
    for (const name of SETTINGS) expect(keys).toContain(`label.set_${name}`);
    for (const kind of Object.keys(ENDS)) expect(keys).toContain(`end.${kind}`);
    for (const caution of CALLED_CAUTIONS) expect(keys).toContain(`caution.${caution}`);
  });

  it('reads a make that is whole without a problem', () => {
    expect(readWritten(written)).toMatchObject({ problems: [], checks: [] });
    expect(() => parseMake({})).toThrow(InputError);
  });
});
