import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { simulate } from '../../../forecast/simulate.ts';
import { parseMake } from '../../../make/make.ts';
import { planMake } from '../../../make/planning.ts';
import { packed, unpacked } from './packed-forecast.ts';

const file: unknown = JSON.parse(
  readFileSync(new URL('../../../../makes/stretched-ball.json', import.meta.url), 'utf8'),
);
const forecast = simulate({ plan: planMake({ make: parseMake(file), answers: { milk: { volumeL: 10 } } }), members: 20 }); // prettier-ignore

describe('a forecast that goes from the worker to the page', () => {
  it('arrives as it was sent, every band of it, the gaps too', () => {
    const sent = packed(forecast);
    const arrived = unpacked(structuredClone(sent, { transfer: [sent.packed.buffer] }));
    expect(arrived).toEqual(forecast);
    expect(arrived.bands.wheyPH.p50.some(Number.isNaN)).toBe(true);
    expect(arrived.bands).toBe(arrived.bands);
  });

  it('can be handed on as a whole, for the device to keep', () => {
    expect(structuredClone(unpacked(packed(forecast)))).toEqual(forecast);
  });
});
