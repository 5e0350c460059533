/** Kitchens as they come: what a calibration draws its makes from. */
import { DIMENSIONS } from '../../src/forecast/uncertain.ts';
import type { Plan } from '../../src/make/plan.ts';
import type { Random } from '../../src/numbers/random.ts';
import { MAKE_IDS, planFor } from '../../tests/makes.ts';

/** Any of these, each as likely as the next. */
export function anyOf<T>(random: Random, of: readonly T[]): T {
  const chosen = of[Math.min(Math.floor(random.uniform() * of.length), of.length - 1)];
  if (chosen === undefined) throw new RangeError('nothing to choose from');
  return chosen;
}

/** Any make of `makes/` in any kitchen: small vat and large, any form of culture, with a meter or without. */
export function anyPlan(random: Random): Plan {
  const form = anyOf(random, ['freeze-dried', 'freeze-dried', 'frozen', 'bulk'] as const);
  return planFor({
    id: anyOf(random, MAKE_IDS),
    milkL: anyOf(random, [5, 12, 40]),
    answers: {
      milk: { treatment: anyOf(random, ['pasteurised', 'raw'] as const) },
      culture: {
        form,
        measuredBy: form === 'bulk' ? 'scale' : anyOf(random, ['packet', 'scale', 'spoon'] as const),
        batchesWithLot: anyOf(random, [0, 0, 3, 10]),
        ...(form === 'bulk' ? { bulkPercent: 0.5 } : {}),
      },
      rennet: random.uniform() < 0.5 ? {} : { strengthImcuPerMl: 200 },
      pot: { keptWarm: anyOf(random, ['lid', 'towels', 'open'] as const) },
      instruments: { pHMeter: random.uniform() < 0.6 },
    },
  });
}

/** One member of the prior: a row of standard normal numbers. */
export const anyRow = (random: Random): Float64Array =>
  Float64Array.from({ length: DIMENSIONS }, () => random.normal());
