import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../../../../tests/makes.ts';
import { parseMake } from '../../../../make/make.ts';
import { settingsSchema } from '../../../../make/step.ts';
import { at, fieldOf, freeId, put, shifted, slugOf, withoutStep, withStep } from './edit.ts';
import { ENDS, freshDose, freshEnd, SETTINGS, DOSE_NAMES } from './settings.ts';
import { blankMake, type Written } from './written.ts';

const ball: Written = { ...makeNamed('stretched-ball') };

describe('a make being written', () => {
  it('changes one figure and leaves the rest as it was', () => {
    const now = put(ball, ['steps', 0, 'set', 'toC', 'value'], 36);
    expect(at(now, ['steps', 0, 'set', 'toC'])).toEqual({ value: 36, source: 0 });
    expect(at(ball, ['steps', 0, 'set', 'toC', 'value'])).toBe(37);
    expect(put(now, ['steps', 0, 'set', 'toC', 'value'], 37)).toEqual(ball);
    expect(fieldOf(['steps', 0, 'set', 'toC', 'value'])).toBe('steps[0].set.toC.value');
  });

  it('takes a setting out, and an entry of a list', () => {
    expect(at(put(ball, ['steps', 0, 'set', 'toC'], undefined), ['steps', 0, 'set'])).toEqual({});
    expect(at(put(ball, ['aliases', 0], undefined), ['aliases', 0])).toBe('fior di latte');
  });

  it('moves a step up and down, and stops at the ends', () => {
    expect(at(shifted(ball, ['steps'], 1, -1), ['steps', 0, 'id'])).toBe('add-culture');
    expect(shifted(ball, ['steps'], 0, -1)).toBe(ball);
  });

  it('takes the aims and the choices of a step with it, and is still a make', () => {
    const index = makeNamed('stretched-ball').steps.findIndex(({ id }) => id === 'wash');
    const without = withoutStep(ball, index);
    expect(parseMake(without).steps.map(({ id }) => id)).not.toContain('wash');
  });

  it('gives a new step an id of its own, to be filled in', () => {
    const more = withStep(ball, { verb: 'drySalt', after: 3 });
    expect(at(more, ['steps', 4])).toMatchObject({ id: 'dry-salt', verb: 'drySalt' });
    expect(freeId(more, 'drySalt')).toBe('dry-salt-2');
    expect(() => parseMake(more)).toThrow(/name/);
  });

  it('makes an id of any name', () => {
    expect(slugOf('Queso fresco de la tía')).toBe('queso-fresco-de-la-tia');
    expect(slugOf('7 hours')).toBe('make-7-hours');
    expect(slugOf('')).toBe('make');
  });
});

describe('what a form can offer', () => {
  it('has every setting of the language', () => {
    const shown = new Set([...SETTINGS, 'downToCurd']);
    expect(Object.keys(settingsSchema.shape).filter((name) => !shown.has(name))).toEqual([]);
  });

  it('begins every end and every dose with something that a make may have', () => {
    for (const kind of Object.keys(ENDS)) {
      const now = put(ball, ['steps', 0, 'until', 'of'], [freshEnd(kind)]);
      const problems = put(now, ['free'], undefined);
      expect(() => parseMake(problems), kind).not.toThrow();
    }
    for (const name of DOSE_NAMES)
      expect(() => parseMake(put(ball, ['doses', name], freshDose(name))), name).not.toThrow();
  });

  it('begins a blank make with nothing but what must be written', () => {
    expect(() => parseMake(blankMake())).toThrow(/steps/);
  });
});
