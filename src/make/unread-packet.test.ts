import { describe, expect, it } from 'vitest';
import { planFor } from '../../tests/makes.ts';
import type { Amount } from './plan.ts';
import type { Answers } from './setup.ts';

const cultureFor = (milkL: number, culture: Answers['culture'] = {}): Amount =>
  planFor({ milkL, answers: { culture } }).amounts.find((amount) => amount.id === 'culture')!;

describe('a packet that nobody has read', () => {
  it('is not taken for one that treats just this milk: half a litre is not given a whole packet', () => {
    expect(cultureFor(0.5).value).toBeCloseTo(0.05, 9);
    expect(cultureFor(0.5).kitchen?.words).toContain('sixteenth of the packet');
  });

  it('is taken for a common one, and a dairy’s vat for a dairy’s', () => {
    expect([10, 12, 40].map((milkL) => cultureFor(milkL).value)).toEqual([1, 1.2, 4]);
    expect(cultureFor(200).value).toBeCloseTo(2, 9);
  });

  it('leaves the amount a span as wide as the packets on sale, and says what it rests on', () => {
    const culture = cultureFor(12);
    expect(culture.restsOn).toBe('unread-packet');
    expect(culture.low).toBeCloseTo(12 / 20, 9);
    expect(culture.high).toBeCloseTo(12 / 4, 9);
  });

  it('once read decides alone', () => {
    const culture = cultureFor(12, { packetTreatsL: 12 });
    expect([culture.value, culture.restsOn, culture.low]).toEqual([1, undefined, undefined]);
  });

  it('is still the first thing asked about', () => {
    expect(planFor({ milkL: 12 }).assumed[0]).toMatchObject({
      field: 'culture.packetTreatsL',
      value: 10,
      widens: 'much',
    });
  });
});

describe('a culture that is poured', () => {
  it('is five millilitres a litre at half a per cent, by volume', () => {
    expect(cultureFor(10, { form: 'bulk' })).toMatchObject({ unit: 'mL', value: 50 });
    expect(cultureFor(10, { form: 'whey' })).toMatchObject({ unit: 'mL', value: 200 });
  });

  it('rests on no packet', () => {
    expect(cultureFor(10, { form: 'bulk' }).restsOn).toBeUndefined();
  });
});
