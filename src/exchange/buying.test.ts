import { describe, expect, it } from 'vitest';
import { planFor } from '../../tests/makes.ts';
import { buyingList, standingOf, type StockLine } from './buying.ts';
import { shoppingList } from './shopping.ts';

const plan = planFor({ milkL: 10 });
const list = buyingList({ plan, forecast: null, stock: [] });

describe('the buying list', () => {
  it('says of the carton what must stay on the shelf, and what only makes a softer curd', () => {
    const told = new Map(list.warnings.map(({ when, effect }) => [when, effect]));
    expect(told.get('uht')).toBe('refuse');
    expect(told.get('homogenised')).toBe('caution');
    expect(told.has('goat')).toBe(false);
  });

  it('has ice to freeze and brine to chill the evening before, and water to boil for the rennet', () => {
    const where = Object.fromEntries(list.evening.map((job) => [job.ready?.id ?? job.id, job.where]));
    expect(where).toMatchObject({ milk: 'fridge', 'rennet-water': 'fridge', ice: 'freezer', brine: 'fridge' });
    const ice = list.evening.find(({ ready }) => ready?.id === 'ice')?.ready;
    expect(ice?.value).toBeGreaterThan(1);
  });

  it('offers a bulk starter beside the packet and flakes beside the solution', () => {
    const beside = (id: string): string[] => list.items.find((item) => item.id === id)?.substitutes.map((one) => one.id) ?? []; // prettier-ignore
    expect(beside('culture')).toContain('culture-bulk');
    expect(beside('calcium')).toEqual(['calcium-flakes']);
    expect(beside('rennet')).toContain('rennet-double');
    expect(beside('rennet-water')).toEqual([]);
  });

  it('buys acid, cream and salt for the curd where the make takes them, each rounded up to what is sold', () => {
    const { amounts } = plan;
    const rich = {
      ...plan,
      amounts: [
        ...amounts,
        { id: 'acid-citric', unit: 'g', value: 15, dependsOnCurd: false, stepId: 'x' } as const,
        { id: 'cream', unit: 'L', value: 0.6, dependsOnCurd: false, stepId: 'x' } as const,
        { id: 'dry-salt', unit: 'g', value: 30, low: 25, high: 36, dependsOnCurd: true, stepId: 'x' } as const,
      ],
    };
    const bring = new Map(shoppingList({ plan: rich, forecast: null }).items.map((item) => [item.id, item.amount]));
    expect(bring.get('acid-citric')).toBe(20);
    expect(bring.get('cream')).toBe(1);
    expect(bring.get('dry-salt')).toBe(40);
  });
});

describe('against what is in the house', () => {
  const line = (more: Partial<StockLine>): StockLine => ({
    ingredient: 'salt',
    name: 'Coarse',
    left: null,
    treatsL: null,
    ...more,
  });
  const salt = { id: 'salt', unit: 'kg', needed: 1.5 } as const;

  it('counts grams against kilos, and several bags together', () => {
    const stock = [line({ left: { value: 800, unit: 'g' } }), line({ name: 'Fine', left: { value: 1, unit: 'kg' } })];
    expect(standingOf({ item: salt, stock })).toEqual({ state: 'enough', names: ['Coarse', 'Fine'] });
    const short = standingOf({ item: salt, stock: stock.slice(0, 1) });
    expect(short.state === 'short' ? short.missing : 0).toBeCloseTo(0.7, 9);
  });

  it('sends somebody to look where nobody said how much is left', () => {
    expect(standingOf({ item: salt, stock: [line({})] })).toEqual({ state: 'look', names: ['Coarse'] });
    expect(standingOf({ item: salt, stock: [] })).toEqual({ state: 'none' });
  });

  it('counts a packet by the milk it treats', () => {
    const item = { id: 'culture', unit: 'packets', needed: 1, treatsL: 10 } as const;
    const packet = line({ ingredient: 'culture', name: 'Yoghurt type', treatsL: 20 });
    expect(standingOf({ item, stock: [packet] }).state).toBe('enough');
    expect(standingOf({ item: { ...item, treatsL: 30 }, stock: [packet] })).toMatchObject({
      state: 'short',
      missing: 10,
    });
  });
});
