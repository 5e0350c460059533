import { z } from 'zod';
import { cutTime, cutTimeValidity } from '../../science/coagulation.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

const NAMES = { flocculationMin: 'flocculationMinutes', errorMin: 'errorMinutes' };

/** When to cut, from the flocculation time that was seen. */
export const cutTimeCalc = defineCalculator({
  name: 'cut-time',
  answers: 'When to cut, from the flocculation time you saw',
  input: z.strictObject({
    flocculationMinutes: z.number().positive().describe('from rennet in to the first firm stop of the bowl'),
    multiplier: z.number().positive(),
    errorMinutes: z.number().nonnegative().default(1),
  }),
  result: z.strictObject({
    cutMinutesAfterRennet: z.number(),
    span: z.strictObject({ p5: z.number(), p95: z.number() }),
  }),
  example: { flocculationMinutes: 13, multiplier: 3 },
  run({ flocculationMinutes, multiplier, errorMinutes }) {
    const asked = { flocculationMin: flocculationMinutes, multiplier, errorMin: errorMinutes };
    const { p5, p50, p95 } = underContractNames(NAMES, () => cutTime(asked));
    return {
      result: { cutMinutesAfterRennet: p50, span: { p5, p95 } },
      cautions: nearEdges({
        validity: cutTimeValidity,
        values: { flocculationMin: flocculationMinutes, multiplier },
        names: NAMES,
      }),
      assumptions: [
        `time seen is right to ${errorMinutes} min (90 %)`,
        'counted from rennet in, not from the end of stirring; look for a clean break as well: it is a firmness, this is a wish for moisture',
      ],
      sources: ['flocculation multipliers: common practice (no source)'],
    };
  },
});
