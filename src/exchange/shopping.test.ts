import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMake } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import { shoppingList } from './shopping.ts';

const make = parseMake(
  JSON.parse(readFileSync(new URL('../../makes/stretched-ball.json', import.meta.url), 'utf8')) as unknown,
);
const plan = planMake({ make, answers: { milk: { volumeL: 10 }, culture: { packetTreatsL: 8 } } });
const list = shoppingList({ plan, forecast: null });

describe('the shopping list', () => {
  it('has a litre of milk to spare, whole packets, salt by the kilo and ice', () => {
    const bring = Object.fromEntries(list.items.map((item) => [item.id, item.amount]));
    expect(bring['milk']).toBe(11);
    expect(bring['culture']).toBe(2);
    expect(bring['salt']).toBe(2);
    expect(bring['ice']).toBe(3);
    expect(bring['gloves']).toBe(1);
  });

  it('never brings home less than is needed', () => {
    for (const item of list.items) expect(item.amount).toBeGreaterThanOrEqual(item.needed - 1e-9);
  });

  it('names the carton words to buy and to avoid', () => {
    expect(list.carton.buy).toContain('pasteurised');
    expect(list.carton.avoid).toContain('UHT');
  });
});
