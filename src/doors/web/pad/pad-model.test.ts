import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openWriter } from '../../../exchange/written.ts';
import { planFor } from '../../../../tests/makes.ts';
import { blockFor, coarseTiles, fineTiles, type PadBlock } from './pad-model.ts';

const write = openWriter({ language: 'en-GB', units: 'metric', timeZone: 'UTC' });
const block = (quantity: PadBlock['quantity']): PadBlock => ({ quantity, sample: 'curd', unit: '', first: 0 });
const metric = { units: 'metric', write } as const;

describe('the two-pick pad', () => {
  it('prints whole numbers with the missing digit left open, in rising order', () => {
    expect(coarseTiles({ block: block('pH'), first: 62, ...metric }).map((tile) => tile.text)).toEqual(['6.2_', '6.3_', '6.4_', '6.5_', '6.6_', '6.7_']); // prettier-ignore
    expect(coarseTiles({ block: block('temperatureC'), first: 36, ...metric })[0]?.text).toBe('36._');
    expect(coarseTiles({ block: block('titratableAcidityD'), first: 1, ...metric })[0]?.text).toBe('1_');
  });

  it('gives the ten values of a coarse tile to the last digit', () => {
    const tiles = fineTiles({ quantity: 'pH', coarse: 64, ...metric });
    expect(tiles.map((tile) => tile.text)).toEqual(['6.40', '6.41', '6.42', '6.43', '6.44', '6.45', '6.46', '6.47', '6.48', '6.49']); // prettier-ignore
    expect(tiles[2]?.value).toBe(6.42);
  });

  it('keeps Celsius when the maker reads Fahrenheit', () => {
    const us = openWriter({ language: 'en-US', units: 'us', timeZone: 'UTC' });
    const tiles = fineTiles({ quantity: 'temperatureC', coarse: 98, units: 'us', write: us });
    expect(tiles[6]?.text).toBe('98.6');
    expect(tiles[6]?.value).toBeCloseTo(37, 9);
  });

  it('never makes a slip of the finger larger than one coarse step', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 69 }),
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: 0, max: 9 }),
        (coarse, meant, hit) => {
          const tiles = fineTiles({ quantity: 'pH', coarse, ...metric });
          expect(Math.abs((tiles[meant]?.value ?? 0) - (tiles[hit]?.value ?? 0))).toBeLessThan(0.1);
        },
      ),
      { seed: 20261125, numRuns: 200 },
    );
  });

  it('reaches below freezing for a thermometer in ice', () => {
    expect(coarseTiles({ block: block('iceWaterC'), first: -1, ...metric })[0]?.text).toBe('-0._');
    expect(fineTiles({ quantity: 'iceWaterC', coarse: -1, ...metric })[9]?.text).toBe('-0.1');
  });
});

describe('the tiles of a pad before anything is foreseen', () => {
  const plan = planFor();
  const tiles = (stepId: string | null, more: Pick<Parameters<typeof blockFor>[0], 'quantity' | 'sample'>) => {
    const step = plan.steps.find(({ id }) => id === stepId) ?? null;
    const found = blockFor({ step, plan, forecast: null, nowMin: 0, units: 'metric', ...more });
    return { in: found.sample, from: coarseTiles({ block: found, first: found.first, ...metric })[0]?.text };
  };

  it('stand around what the vat was last set to, where a step says nothing of warmth', () => {
    expect(tiles('draw-whey', { quantity: 'temperatureC' })).toEqual({ in: 'curd', from: '35._' });
    expect(tiles('rest-in-whey', { quantity: 'temperatureC' }).from).toBe('38._');
    expect(tiles('drain', { quantity: 'temperatureC' }).from).toBe('38._');
    expect(tiles('wash', { quantity: 'temperatureC' }).from).toBe('40._');
    expect(tiles('store', { quantity: 'temperatureC' })).toEqual({ in: 'cheese', from: '2._' });
  });

  it('stand around the pH that was last aimed at, and around fresh milk before', () => {
    expect(tiles('ripen', { quantity: 'pH' }).from).toBe('6.4_');
    const aimed = plan.steps.findIndex(({ until }) => until.of.some(({ kind }) => kind === 'pH'));
    expect(aimed).toBeGreaterThan(0);
    const aim = plan.steps[aimed]?.until.of.find((one) => one.kind === 'pH')?.at.value ?? 0;
    for (const index of [aimed, aimed + 1]) {
      expect(tiles(plan.steps[index]?.id ?? '', { quantity: 'pH' }).from).toBe(`${(aim - 0.2).toFixed(1)}_`);
    }
  });

  it('look ahead for water and brine, which are made ready before their step', () => {
    expect(tiles('draw-whey', { quantity: 'temperatureC', sample: 'water' }).from).toBe('58._');
    expect(tiles('cool', { quantity: 'temperatureC' })).toEqual({ in: 'water', from: '-0._' });
    expect(tiles('form', { quantity: 'temperatureC', sample: 'brine' }).from).toBe('9._');
  });
});
