import { describe, expect, it } from 'vitest';
import { keptStream } from '../../tests/kept-streams.ts';
import { makeNamed } from '../../tests/makes.ts';
import { foldLot } from '../record/lot-record.ts';
import { shortages, storeNeeds } from './store-needs.ts';

const ball = makeNamed('stretched-ball');
const plan = (startAt: number, pots = 1) => ({ makeId: ball.id, answers: { milk: { volumeL: 10 }, culture: { packetTreatsL: 10, packetFraction: 1 } }, startAt, pots }); // prettier-ignore
const lot = (body: object) => foldLot(keptStream('lot:one', [['2026-03-01', 'lotReceived', { name: 'One', ...body }]]));
const packets = (value: number) => lot({ lotKind: 'culture', treatsL: 10, amount: { value, unit: 'packets' } });

describe('what the planned makes will need', () => {
  const needs = storeNeeds({ plans: [plan(2), plan(1)], makes: [ball] });

  it('is milk, culture, rennet and calcium of each, in the order of the days, and no water', () => {
    expect(needs.map(({ startAt }) => startAt)).toEqual(needs.map(({ startAt }) => startAt).sort((a, b) => a - b));
    expect(needs.find(({ ingredient }) => ingredient === 'milk')).toMatchObject({ amount: 10, unit: 'L', startAt: 1 });
    expect(needs.map(({ ingredient }) => ingredient)).not.toContain('rennet-water');
    expect(storeNeeds({ plans: [plan(1, 3)], makes: [ball] })[0]?.amount).toBe(30);
    expect(storeNeeds({ plans: [{ ...plan(1), makeId: 'gone' }], makes: [ball] })).toEqual([]);
  });

  it('runs out at the first make that the store does not reach, and says nothing of what nobody counted', () => {
    expect(shortages({ needs, lots: [packets(5)], uses: [] })).toEqual([]);
    expect(shortages({ needs, lots: [packets(1.5)], uses: [] })).toMatchObject([{ ingredient: 'culture', left: 1.5, startAt: 2 }]); // prettier-ignore
    expect(shortages({ needs, lots: [packets(0.2)], uses: [] })).toMatchObject([{ startAt: 1 }]);
    expect(shortages({ needs, lots: [lot({ lotKind: 'culture', treatsL: 10 })], uses: [] })).toEqual([]);
  });
});
