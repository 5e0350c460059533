import { describe, expect, it } from 'vitest';
import { makeNamed } from '../../tests/makes.ts';
import { differences } from './difference.ts';
import type { Make } from './make.ts';

const was = makeNamed('stretched-ball');
const steps = (change: (steps: Make['steps']) => Make['steps']): Make => ({ ...was, steps: change(was.steps) });
const found = (now: Make) => differences({ was, now });

describe('a make against its original', () => {
  it('is the same where only its number and its name among the files changed', () => {
    expect(found({ ...was, id: 'mine', version: 7, status: 'taught' })).toEqual([]);
  });

  it('tells a figure with its step: warmed to 36, not 37', () => {
    const now = steps((all) => all.map((step) => (step.id === 'warm' ? { ...step, set: { toC: { value: 36, source: 0 } } } : step))); // prettier-ignore
    expect(found(now)).toEqual([
      { kind: 'changed', at: { step: 'Warm the milk', field: 'set.toC' }, was: 37, now: 36 },
    ]);
  });

  it('tells a dose as the range it is', () => {
    const rennet = { imcuPerL: { low: 30, aim: 35, high: 40, source: 3 } };
    expect(found({ ...was, doses: { ...was.doses, rennet } })).toEqual([
      { kind: 'changed', at: { step: null, field: 'doses.rennet.imcuPerL' }, was: { low: 40, aim: 45, high: 55 }, now: { low: 30, aim: 35, high: 40 } },
    ]); // prettier-ignore
  });

  it('tells a source by its words, so that another order of sources is no change', () => {
    const turned = { ...was, sources: [...was.sources, 'one more'] };
    expect(found(turned)).toEqual([]);
    const practised = steps((all) => all.map((step) => (step.id === 'warm' ? { ...step, set: { toC: { value: 37, source: 'common practice' } } } : step))); // prettier-ignore
    expect(found(practised)).toMatchObject([{ kind: 'changed', at: { field: 'set.toC.source' }, now: 'common practice (no source)' }]); // prettier-ignore
  });

  it('tells a step that came, went or moved, and not the others that it passed', () => {
    const without = steps((all) => all.filter(({ id }) => id !== 'heal'));
    expect(found(without)).toEqual([{ kind: 'step-removed', step: 'Let it heal' }]);
    const more = steps((all) => [...all.slice(0, 3), { ...all[2], id: 'ripen-more', name: 'Ripen on' } as Make['steps'][number], ...all.slice(3)]); // prettier-ignore
    expect(found(more)).toEqual([{ kind: 'step-added', step: 'Ripen on' }]);
    const moved = steps((all) => {
      const [calcium] = all.filter(({ id }) => id === 'add-calcium');
      const others = all.filter(({ id }) => id !== 'add-calcium');
      return calcium === undefined
        ? others
        : [others[0], calcium, ...others.slice(1)].filter((one) => one !== undefined);
    });
    expect(found(moved)).toEqual([{ kind: 'step-moved', step: 'Add the calcium' }]);
  });

  it('tells an end that was given or taken', () => {
    const now = steps((all) => all.map((step) => step.id === 'set' ? { ...step, until: { ...step.until, of: step.until.of.slice(0, 1) } } : step)); // prettier-ignore
    expect(found(now).map((one) => ('at' in one ? `${one.kind} ${one.at.field}` : one.kind))).toEqual([
      'removed until.of.judgement.judgement',
      'removed until.of.judgement.grade',
    ]);
  });
});
