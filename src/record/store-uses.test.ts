import { describe, expect, it } from 'vitest';
import { keptStream } from '../../tests/kept-streams.ts';
import { makeNamed } from '../../tests/makes.ts';
import { foldBrine } from './brine-record.ts';
import { foldBatch } from './fold.ts';
import { foldLot } from './lot-record.ts';
import { amountIn, costOfBatch, leftOfLot, storeUses } from './store-uses.ts';

const AT = Date.parse('2026-03-04T09:00:00Z');
const lot = (id: string, body: object, more: readonly (readonly [string, string, (object | number)?])[] = []) =>
  foldLot(keptStream(`lot:${id}`, [['2026-02-01', 'lotReceived', { name: id, ...body }], ...more]));
const packets = lot('blue', { lotKind: 'culture', treatsL: 10, massG: 0.8, amount: { value: 5, unit: 'packets' }, price: 20 }); // prettier-ignore
const milk = lot('farm', { lotKind: 'milk', amount: { value: 20, unit: 'L' }, price: 24 });
const salt = lot('sack', { lotKind: 'salt', amount: { value: 1, unit: 'kg' }, price: 1.5 });
const batch = foldBatch(
  keptStream('batch:a', [
    [AT, 'batchOpened', { make: makeNamed('stretched-ball'), answers: { milk: { volumeL: 12 }, culture: { lot: 'lot:blue' } }, name: 'A', lotCode: 'A', zeroAt: AT }],
    [AT, 'stepStarted', { stepId: 'warm' }],
    [AT + 1, 'added', { ingredient: 'culture', amount: 1.2, unit: 'packets', fractionOfPlan: 1 }],
    [AT + 2, 'added', { ingredient: 'salt', amount: 30, unit: 'g', fractionOfPlan: 1 }],
    [AT + 3, 'added', { ingredient: 'rennet', amount: 40, unit: 'drops', fractionOfPlan: 1 }],
  ]),
); // prettier-ignore
const all = [packets, milk, salt];
const uses = storeUses({ records: [batch], brines: [], lots: all });

describe('the store', () => {
  it('is used up by batches: the lot that was named, else the only one there is', () => {
    expect(uses.map(({ ingredient, lotId, isGuessed }) => [ingredient, lotId, isGuessed])).toEqual([
      ['milk', 'lot:farm', true], ['culture', 'lot:blue', false], ['salt', 'lot:sack', true], ['rennet', null, false],
    ]); // prettier-ignore
    expect(leftOfLot({ lot: packets, uses }).left).toEqual({ value: 3.8, unit: 'packets' });
    expect(leftOfLot({ lot: milk, uses }).left).toEqual({ value: 8, unit: 'L' });
    expect(leftOfLot({ lot: salt, uses }).left?.value).toBeCloseTo(0.97, 9);
  });

  it('guesses between two sacks only where one of them is open', () => {
    const other = lot('second', { lotKind: 'salt' });
    const open = lot('second', { lotKind: 'salt' }, [['2026-02-02', 'lotOpened', { openedOn: '2026-02-02' }]]);
    const salted = (lots: readonly typeof salt[]) => storeUses({ records: [batch], brines: [], lots }).find(({ ingredient }) => ingredient === 'salt')?.lotId; // prettier-ignore
    expect(salted([salt, other])).toBeNull();
    expect(salted([salt, open])).toBe('lot:second');
  });

  it('believes whoever looked how much is left, and counts on from there', () => {
    const counted = lot('sack', { lotKind: 'salt', amount: { value: 1, unit: 'kg' } }, [['2026-03-05', 'lotCounted', { left: 700, unit: 'g' }]]); // prettier-ignore
    expect(leftOfLot({ lot: counted, uses }).left).toEqual({ value: 700, unit: 'g' });
    const brine = foldBrine(keptStream('brine:one', [['2026-03-06', 'brineTopped', { saltKg: 0.2 }]]));
    const later = storeUses({ records: [batch], brines: [brine], lots: [counted] });
    expect(leftOfLot({ lot: counted, uses: later }).left?.value).toBeCloseTo(500, 9);
  });

  it('says how many uses it could not count', () => {
    const bottle = lot('brown', { lotKind: 'rennet', amount: { value: 50, unit: 'mL' } });
    const left = leftOfLot({ lot: bottle, uses: storeUses({ records: [batch], brines: [], lots: [bottle] }) });
    expect(left).toEqual({ left: { value: 50, unit: 'mL' }, uncounted: 1 });
  });

  it('adds up what a batch cost, and what of it nobody has priced', () => {
    const cost = costOfBatch({ batchId: 'batch:a', uses, lots: all });
    expect(cost.total).toBeCloseTo(12 * 1.2 + 1.2 * 4 + 0.03 * 1.5, 9);
    expect(cost.unpriced).toBe(1);
  });

  it('turns grams of a packet into packets, and never drops into grams', () => {
    expect(amountIn({ amount: 0.4, from: 'g', to: 'packets', packetG: 0.8 })).toBe(0.5);
    expect(amountIn({ amount: 2, from: 'packets', to: 'g', packetG: 0.8 })).toBe(1.6);
    expect(amountIn({ amount: 1.5, from: 'kg', to: 'g' })).toBe(1500);
    expect(amountIn({ amount: 10, from: 'drops', to: 'g' })).toBeNull();
  });
});
