import { z } from 'zod';
import { remark } from '../../science/remarks.ts';
import { cheeseWaterActivity, saltInMoistureOf, waterActivityValidity } from '../../science/water-activity.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

/** Water activity of a cheese, worked out from salt and water. */
export const waterActivityCalc = defineCalculator({
  name: 'water-activity',
  answers: 'How free the water of a cheese is, from its salt and moisture',
  input: z.strictObject({
    moisturePercent: z.number().positive().max(100),
    saltPercent: z.number().nonnegative().max(100).describe('salt in the cheese, percent of mass'),
    pH: z.number().min(0).max(14).optional().describe('of young cheese; left out, salt alone counts'),
  }),
  result: z.strictObject({ waterActivity: z.number(), error: z.number() }),
  example: { moisturePercent: 57, saltPercent: 1, pH: 5.2 },
  run({ moisturePercent, saltPercent, pH }) {
    const result = underContractNames({ saltInMoisturePercent: 'saltPercent' }, () =>
      cheeseWaterActivity({ moisturePercent, saltPercent, ...(pH === undefined ? {} : { pH }) }),
    );
    const saltInMoisturePercent = saltInMoistureOf({ moisturePercent, saltPercent });
    return {
      result: { ...result },
      cautions: [
        remark({ code: 'water-activity-estimate', fields: { error: result.error } }),
        ...nearEdges({
          validity: waterActivityValidity,
          values: { moisturePercent, saltInMoisturePercent, pH },
          names: {},
        }),
      ],
      assumptions: [
        pH === undefined
          ? 'pH: not given, so from salt in moisture alone'
          : 'mean of the equation from salt alone and of the one for unripe cheese of this pH',
        'error: half the 90 % band, never below 0.01 for what was not measured',
      ],
      sources: [
        'Marcos et al. (1981) J. Dairy Sci. 64:622, abstract seen',
        'unripe cheese: J. Dairy Res. (1990), abstract seen',
      ],
    };
  },
});
