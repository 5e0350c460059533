import { describe, expect, it } from 'vitest';
import { planFor } from '../../../../tests/makes.ts';
import { keysOf, plain, reader } from '../../../../tests/spoken.ts';
import { SHOPPING_IDS } from '../../../exchange/shopping.ts';
import { buyingView, type BuyingRow } from './buying-view.ts';

const telling = reader('buying', 'plan');
const plan = planFor({ milkL: 10 });
const view = buyingView({ plan, forecast: null, stock: [], ...telling });
const row = (id: string, of = view): BuyingRow | undefined => of.rows.find((one) => one.id === id);

describe('the buying list in words', () => {
  it('has every amount in litres and kilos with gallons and pounds beside', () => {
    expect(plain(row('milk')?.amount ?? '')).toBe('11 L');
    expect(row('milk')?.other).toBe('2.9 gal');
    expect(row('salt')?.other).toMatch(/ lb$/);
    expect(row('gloves')?.other).toBeNull();
  });

  it('says what stands in, how much of it, how sure, and from where', () => {
    const [bulk] = row('culture')?.standIns ?? [];
    expect(plain(bulk?.text ?? '')).toBe('Bulk starter: 50 mL (30 mL to 100 mL).');
    expect(bulk?.doubts).toContain('sours the milk');
    for (const one of view.rows.flatMap(({ standIns }) => standIns)) expect(one.source, one.id).not.toBe('');
  });

  it('names what must stay on the shelf, and what only makes a softer curd', () => {
    expect(view.warnings.find(({ id }) => id === 'uht')).toMatchObject({ isRefused: true });
    expect(view.warnings.find(({ id }) => id === 'homogenised')?.text).toContain('softer curd');
  });

  it('has the evening before by the place where each thing then stands', () => {
    expect(view.evening.map(({ where }) => where)).toEqual(['freezer', 'fridge']);
    expect(plain(view.evening[0]?.jobs.join() ?? '')).toMatch(/kg/);
  });

  it('strikes out what is in the house and enough', () => {
    const stock = [{ ingredient: 'culture', name: 'Yoghurt type', left: null, treatsL: 50 }];
    const there = row('culture', buyingView({ plan, forecast: null, stock, ...telling }));
    expect(there).toMatchObject({ isThere: true, house: 'In the house, and enough: Yoghurt type.' });
  });

  it('has words for everything that a make can ask for, in the plan and on the list', () => {
    const [buying, inPlan] = [new Set(keysOf('en-GB', 'buying')), new Set(keysOf('en-GB', 'plan'))];
    for (const id of SHOPPING_IDS) {
      expect(buying, id).toContain(`items.${id}`);
      expect(inPlan, id).toContain(`shopping.${id}`);
    }
  });
});
