import { z } from 'zod';
import type { JsonObject } from '../../../../record/event.ts';

/** A make half written: JSON that need not be a make yet. */
export type Written = Readonly<Record<string, unknown>>;

/** What a new step stands on until somebody says otherwise. */
export const STEP_KIT_FREE: readonly string[] = ['pot'];

/**
 * A make half written as it is kept.
 * @throws where something in it is no JSON, which nothing that is typed can bring
 */
export const asJson = (written: Written): JsonObject => jsonObject.parse(written);

const jsonObject = z.record(z.string(), z.json());

const CP = 'common practice';

/** A make with nothing of a cheese in it yet but milk, warmth and a place to write. */
export function blankMake(): Written {
  return {
    id: 'new',
    version: 0,
    status: 'draft',
    name: '',
    family: 'fresh',
    about: '',
    difficulty: 2,
    shelfLife: { days: { value: 7, source: CP }, keptAtC: { value: 4, source: CP }, note: '' },
    aliases: [],
    properties: { rawForbiddenByName: false, starterFree: false, surfaceRipened: false },
    milk: {
      species: ['cow'],
      fatPercent: { low: 3, aim: 3.6, high: 4.5, source: CP },
      treatments: ['pasteurised'],
      deviations: [
        { when: 'uht', effect: 'refuse', because: '', instead: '' },
        { when: 'homogenised', effect: 'caution', because: '', instead: '' },
      ],
      cartonWords: { buy: [], avoid: [] },
    },
    aims: [
      {
        quantity: 'moisturePercent',
        sample: 'cheese',
        moment: 'finished',
        low: 45,
        aim: 50,
        high: 58,
        basis: '',
        source: CP,
      },
    ],
    doses: {},
    model: {},
    steps: [],
    sources: [],
  };
}
