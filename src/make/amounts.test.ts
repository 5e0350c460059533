import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMake } from './make.ts';
import type { Amount } from './plan.ts';
import { planMake } from './planning.ts';

const amountsOf = (id: string): readonly Amount[] => {
  const json: unknown = JSON.parse(readFileSync(new URL(`../../makes/${id}.json`, import.meta.url), 'utf8'));
  return planMake({ make: parseMake(json), answers: { milk: { volumeL: 4 } } }).amounts;
};

describe('the amounts of a make', () => {
  it.each([
    ['stretched-ball', 'milk'],
    ['quick-stretched', 'milk'],
    ['whey-curd', 'whey'],
  ])('begin with what the pot is filled with, whatever is done to it first: %s', (id, filled) => {
    expect(amountsOf(id)[0]).toMatchObject({ id: filled, unit: 'L', value: 4 });
    expect(amountsOf(id).filter((amount) => amount.id === filled)).toHaveLength(1);
  });

  it('ask for one brine where the cheese stays in its tub and only moves to the cold', () => {
    expect(amountsOf('brined-white').filter(({ id }) => id === 'brine')).toHaveLength(1);
  });
});
