import { describe, expect, it } from 'vitest';
import { makeNamed, MAKE_IDS } from '../../../../tests/makes.ts';
import { keysOf, plain, reader } from '../../../../tests/spoken.ts';
import type { ChoosingFacts } from '../../../make/choosing.ts';
import { makeFacts } from '../../../make/make-facts.ts';
import { familySchema } from '../../../make/make.ts';
import { INGREDIENTS } from '../../../make/step.ts';
import { kinOf } from './kin.ts';
import type { ListedMake } from './listed-make.ts';
import { makePageView } from './make-page-view.ts';
import { makesView } from './makes-view.ts';
import { freeMinutes } from './wish.ts';

const telling = reader('makes', 'plan', 'vat');
const makes: ListedMake[] = MAKE_IDS.map((id) => ({
  facts: makeFacts(makeNamed(id)),
  days: [{ milkL: 10, likelyMin: 420, keptMin: 480 }],
}));
const have: ChoosingFacts = {
  fill: 'milk',
  milkL: 10,
  species: 'cow',
  treatment: 'pasteurised',
  homogenised: false,
  freeMin: 300,
  burners: 1,
  hasPHMeter: false,
  potL: 12,
  skill: 'new',
  ageing: 'none',
  withinDays: null,
  inStore: null,
};
const view = (more: Partial<ChoosingFacts> = {}, typed = '') => makesView({ makes, ownIds: new Set<string>(), have: { ...have, ...more }, typed, ...telling }); // prettier-ignore

describe('the makes, ranked', () => {
  it('say in hours what is missing, and draw it on one scale', () => {
    const [row] = view().others;
    expect(view().fitting).toEqual([]);
    expect(plain(row?.stops[0] ?? '')).toBe('Needs 3 h more: allow 8 h, which 18 such makes in 20 keep.');
    expect(view().scaleH).toBe(8);
    expect(row?.bar).toEqual({ free: 300 / 480, likely: 420 / 480, kept: 1 });
  });

  it('say why they fit once there is a whole day', () => {
    const [row] = view({ freeMin: 600, skill: 'some' }).fitting;
    expect(plain(row?.why ?? '')).toBe('2 h to spare · made for this milk · one burner is enough · no pH meter needed: hand and clock tell · within what you have made'); // prettier-ignore
    expect(plain(row?.asks ?? '')).toMatch(
      /^about 7 h on the first day, .+ with your hands · skill 3 of 5 · keeps 5 days$/,
    );
  });

  it('are found by a place-linked name, and keep their own', () => {
    const [row, more] = view({}, 'fior di').others;
    expect(row).toMatchObject({ name: 'Stretched ball', foundAs: 'fior di latte' });
    expect(more).toBeUndefined();
    expect(view({}, 'no such').isNothingFound).toBe(true);
  });

  it('stop long-life milk with what to make of it instead', () => {
    expect(view({ treatment: 'uht' }).others[0]?.stops[0]).toContain('make a curd by acid and heat');
  });
});

describe('hours that are free', () => {
  it('are those between two times of one day, or past midnight into the next', () => {
    expect(freeMinutes({ day: '2026-11-30', from: '09:00', to: '14:00' })).toBe(300);
    expect(freeMinutes({ day: '2026-11-30', from: '20:00', to: '02:00' })).toBe(360);
    expect(freeMinutes({ day: '2026-11-30', from: '', to: '02:00' })).toBeNull();
  });
});

describe('the row beside the make on the table', () => {
  it('stays as it is while one of it is chosen', () => {
    const many = Array.from({ length: 7 }, (_, i) => ({ ...makeFacts(makeNamed('stretched-ball')), id: `m${i}` }));
    expect(kinOf({ makes: many, makeId: 'm1' })).toEqual(kinOf({ makes: many, makeId: 'm3' }));
    expect(kinOf({ makes: many, makeId: 'm6' })).toEqual(['m0', 'm1', 'm2', 'm6']);
  });
});

describe('the page of a make', () => {
  const page = makePageView({ make: makeNamed('stretched-ball'), ...telling });

  it('tells every step with its end, and every aim with its span and source', () => {
    expect(page.steps).toHaveLength(22);
    for (const step of page.steps) expect(step.until, step.id).not.toMatch(/^$|vat:|undefined/);
    expect(page.aims[0]).toMatchObject({ what: 'pH of the curd, after “Keep warm and turn”', aim: '5.20' });
    for (const aim of page.aims) expect(aim.source).not.toBe('');
  });

  it('has its milk words, with what is refused marked', () => {
    expect(page.carton.avoid).toContain('UHT');
    expect(page.deviations.filter(({ isRefused }) => isRefused)).toHaveLength(1);
  });
});

describe('the words of the place', () => {
  it('name every family and every ingredient of the make language', () => {
    const keys = new Set(keysOf('en-GB', 'makes'));
    for (const family of familySchema.options) expect(keys).toContain(`families.${family}`);
    for (const one of INGREDIENTS) expect(keys).toContain(`ingredients.${one}`);
  });
});
