import { describe, expect, it } from 'vitest';
import { keptStream } from '../../../tests/kept-streams.ts';
import { foldBrine } from '../../record/brine-record.ts';
import { brineState, takenByCheese } from './brine-book.ts';

const at = (day: string): number => Date.parse(`${day}T12:00:00Z`);
const made = { name: 'Tub', madeOn: '2026-03-01', volumeL: 10, strength: { value: 18, unit: 'percent-by-mass' }, aimPercent: 18, temperatureC: 12, pH: 5.2, calciumGPerL: 1.5 }; // prettier-ignore
type Line = readonly [string, string, object];
const state = (lines: readonly Line[], day = '2026-03-10', said: object = made) => brineState({ brine: foldBrine(keptStream('brine:tub', [['2026-03-01', 'brineMade', said], ...lines])), now: at(day) })!; // prettier-ignore
// A batch of 1 kg of small balls takes about 10 g of salt and gives 15 g of water (its own worked example of the balance).
const used: Line = ['2026-03-05', 'brineUsed', { cheeseKg: 1, saltTakenKg: 0.0102, waterGivenKg: 0.0153 }];

describe('the brine book', () => {
  it('knows a new brine of 18 %: 11.3 kg in 10 L, nothing to add', () => {
    const brine = state([]);
    expect(brine.massKg).toBeCloseTo(11.32, 1);
    expect(brine).toMatchObject({ isRead: true, uses: 0, findings: [] });
    expect(brine.topUp.saltKg + brine.topUp.waterL).toBeCloseTo(0, 9);
  });

  it('goes down to 17.9 % after a batch and wants more salt than the cheese took', () => {
    const brine = state([used]);
    expect(brine.percent).toBeCloseTo(17.9, 1);
    expect(brine).toMatchObject({ isRead: false, uses: 1 });
    expect(1000 * brine.topUp.saltKg).toBeCloseTo(13.6, 0);
  });

  it('is back at its aim when that salt is put in', () => {
    const { topUp } = state([used]);
    const topped = state([used, ['2026-03-06', 'brineTopped', { saltKg: topUp.saltKg }]]);
    expect(topped.percent).toBeCloseTo(18, 6);
  });

  it('believes a float over its own reckoning, whatever unit it is read in', () => {
    const brine = state([used, ['2026-03-07', 'brineChecked', { strength: { value: 16, unit: 'baume' } }]]);
    expect(brine.isRead).toBe(true);
    expect(brine.percent).toBeCloseTo(16.1, 0);
    expect(brine.findings.map(({ reason }) => reason)).toEqual(['below-aim']);
  });

  it('counts batches and days since it was last boiled, and forgets its calcium then', () => {
    const many = Array.from({ length: 21 }, (_, i): Line => [`2026-03-${String(i + 2).padStart(2, '0')}`, 'brineUsed', { cheeseKg: 1, saltTakenKg: 0, waterGivenKg: 0 }]); // prettier-ignore
    expect(state(many, '2026-03-25').findings.map(({ reason }) => reason)).toContain('uses');
    const boiled = state([...many, ['2026-03-24', 'brineCared', { how: 'boiled' }]], '2026-03-25');
    expect(boiled).toMatchObject({ uses: 0, calciumGPerL: null });
    expect(boiled.findings.map(({ reason }) => reason)).not.toContain('uses');
    expect(state([], '2026-04-15').findings.map(({ reason }) => reason)).toEqual(['days', 'unread']);
  });

  it('is nothing where its strength cannot be', () => {
    const salty = foldBrine(keptStream('brine:tub', [['2026-03-01', 'brineMade', { ...made, strength: { value: 45, unit: 'percent-by-mass' } }]])); // prettier-ignore
    expect(brineState({ brine: salty, now: at('2026-03-02') })).toBeNull();
  });

  it('reckons what a cheese takes from its weight and its salt', () => {
    const { saltTakenKg, waterGivenKg } = takenByCheese({ cheeseKg: 2, saltPercent: 1.5, waterPerSalt: 2 });
    expect(saltTakenKg).toBeCloseTo(0.03, 9);
    expect(waterGivenKg).toBeCloseTo(0.06, 9);
  });
});
