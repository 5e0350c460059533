import { describe, expect, it } from 'vitest';
import { planFor } from '../../tests/makes.ts';
import type { Plan } from '../make/plan.ts';
import { acidForAcid } from '../science/buffer-acid.ts';
import { substitutesOf, type Substitute, type SubstituteId } from './substitutes.ts';

const of = (plan: Plan, id: SubstituteId): Substitute | undefined =>
  substitutesOf({ plan }).find((one) => one.id === id);
const plan = planFor({ milkL: 10, answers: { rennet: { strengthImcuPerMl: 200, monthsStored: 0 } } });

describe('what can stand in', () => {
  it('for a packet is a bulk starter: half a per cent of ten litres is 50 mL', () => {
    expect(of(plan, 'culture-bulk')).toMatchObject({ unit: 'mL', value: 50, low: 30, high: 100 });
    expect(of(plan, 'culture-yoghurt')).toMatchObject({ value: 200, low: 150, high: 300 });
    expect(of(plan, 'culture-buttermilk')).toBeUndefined();
  });

  it('for a bulk starter is a packet', () => {
    const poured = planFor({ milkL: 10, answers: { culture: { form: 'bulk', bulkPercent: 0.5, packetTreatsL: 20 } } });
    expect(of(poured, 'culture-packet')).toMatchObject({ unit: 'packets', value: 0.5 });
  });

  it('for single-strength rennet is half as much of the double, or so much powder', () => {
    const rennet = plan.amounts.find(({ id }) => id === 'rennet')?.value ?? Number.NaN;
    expect(rennet).toBeCloseTo((45 * 10) / 200, 6);
    expect(of(plan, 'rennet-double')).toMatchObject({ value: rennet / 2, doubts: [] });
    expect(of(plan, 'rennet-powder')?.value).toBeCloseTo(450 / 2000, 6);
    expect(of(plan, 'rennet-tablet')?.low).toBeLessThan(of(plan, 'rennet-tablet')?.high ?? 0);
  });

  it('for calcium solution are flakes, a third heavier than the salt without its water', () => {
    const anhydrousG = 0.12 * 10;
    expect(of(plan, 'calcium-flakes')?.value).toBeCloseTo(anhydrousG * 1.3246, 3);
  });
});

describe('acid for acid', () => {
  const citric: Plan = { ...plan, make: { ...plan.make, doses: { ...plan.make.doses, acid: { kind: 'citric', gPerL: { low: 1.2, aim: 1.5, high: 1.8, source: 'common practice' } } } }, steps: plan.steps.map((step, index) => index === 1 ? { ...step, set: { ingredient: 'acid' } } : step) }; // prettier-ignore

  it('gives vinegar for citric crystals by the protons that each lets go, weaker vinegar more of it', () => {
    const vinegar = of(citric, 'acid-vinegar');
    const acetic = 15 * acidForAcid({ of: 'citric-monohydrate', by: 'acetic', pH: 5.2 });
    expect(vinegar?.value).toBeCloseTo(acetic / 0.05 / 1.01, 3);
    expect(vinegar?.low).toBeCloseTo((vinegar?.value ?? 0) * (5 / 6), 3);
    expect(vinegar?.high).toBeCloseTo((vinegar?.value ?? 0) * (5 / 4), 3);
  });

  it('takes as much anhydrous citric acid as its molar mass says, whatever the pH', () => {
    for (const pH of [4.6, 5.2, 5.8]) {
      expect(acidForAcid({ of: 'citric-monohydrate', by: 'citric', pH })).toBeCloseTo(192.12 / 210.14, 6);
    }
  });

  it('of a weak one is less of a strong one in sour milk than in sweet, where the weak one too lets all go', () => {
    expect(acidForAcid({ of: 'acetic', by: 'lactic', pH: 5 })).toBeLessThan(acidForAcid({ of: 'acetic', by: 'lactic', pH: 6.5 })); // prettier-ignore
  });

  it('offers nothing where the make takes no acid', () => {
    expect(substitutesOf({ plan }).filter(({ insteadOf }) => insteadOf === 'acid')).toEqual([]);
  });
});
