import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openWriter } from '../../../exchange/written.ts';
import { coarseTiles, fineTiles, type PadBlock } from './pad-model.ts';

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
