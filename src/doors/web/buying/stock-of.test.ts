import { describe, expect, it } from 'vitest';
import { keptStream } from '../../../../tests/kept-streams.ts';
import { makeNamed, planFor } from '../../../../tests/makes.ts';
import { plain, reader } from '../../../../tests/spoken.ts';
import { storesOf } from '../lots/stores-view.ts';
import { buyingView } from './buying-view.ts';
import { stockOf } from './stock-of.ts';

const AT = Date.parse('2026-03-04T09:00:00Z');
const telling = reader('buying', 'plan');

/** A sack of salt and a box of five packets; so many batches, each with a packet and 600 g of salt. */
function house(batches: number): ReturnType<typeof stockOf> {
  const sack = ['lot:sack', keptStream('lot:sack', [['2026-02-01', 'lotReceived', { name: 'Sack of salt', lotKind: 'salt', amount: { value: 2, unit: 'kg' } }]])] as const; // prettier-ignore
  const box = ['lot:box', keptStream('lot:box', [['2026-02-02', 'lotReceived', { name: 'Box of culture', lotKind: 'culture', treatsL: 10, massG: 0.8, amount: { value: 5, unit: 'packets' } }]])] as const; // prettier-ignore
  const made = Array.from({ length: batches }, (_, nth) => {
    const id = `batch:${nth}`;
    const at = AT + nth * 86_400_000;
    const opened = { make: makeNamed('stretched-ball'), answers: { milk: { volumeL: 10 }, culture: { lot: 'lot:box' } }, name: id, lotCode: id, zeroAt: at }; // prettier-ignore
    return [id, keptStream(id, [[at, 'batchOpened', opened], [at, 'stepStarted', { stepId: 'warm' }], [at + 1, 'added', { ingredient: 'culture', amount: 1, unit: 'packets', fractionOfPlan: 1 }], [at + 2, 'added', { ingredient: 'salt', amount: 600, unit: 'g', fractionOfPlan: 1 }]])] as const; // prettier-ignore
  });
  return stockOf(storesOf({ streams: new Map([sack, box, ...made]), now: AT }));
}

/** The plan wants one packet, and at most 1.6 kg of salt for its brine: 800 g more than what is left after two batches. */
const rowsWith = (stock: ReturnType<typeof stockOf>) => buyingView({ plan: planFor({ milkL: 10, answers: { culture: { packetTreatsL: 10 } } }), forecast: null, stock, ...telling }).rows; // prettier-ignore

describe('what the house has, on the buying list', () => {
  it('is what came in less what went into batches', () => {
    expect(house(0).map(({ name, left, treatsL }) => [name, left, treatsL])).toEqual([
      ['Box of culture', { value: 5, unit: 'packets' }, 50],
      ['Sack of salt', { value: 2, unit: 'kg' }, null],
    ]);
    expect(house(2).map(({ name, left, treatsL }) => [name, left?.value.toFixed(2), treatsL])).toEqual([
      ['Box of culture', '3.00', 30],
      ['Sack of salt', '0.80', null],
    ]);
  });

  it('leaves nothing to buy of a sack that is full, and says how much is missing of one that is more than half used up', () => {
    const salt = (batches: number) => rowsWith(house(batches)).find(({ id }) => id === 'salt');
    expect(salt(0)).toMatchObject({ isThere: true });
    expect(salt(2)).toMatchObject({ isThere: false });
    expect(plain(salt(2)?.house ?? '')).toBe('In the house: Sack of salt; 800 g short.');
  });

  it('takes a packet that is gone for gone', () => {
    const culture = (batches: number) => rowsWith(house(batches)).find(({ id }) => id === 'culture');
    expect(culture(4)).toMatchObject({ isThere: true });
    expect(culture(5)).toMatchObject({ isThere: false });
  });
});
