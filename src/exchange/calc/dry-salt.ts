import { z } from 'zod';
import {
  DRY_SALT_PRESSED_YIELD,
  DRY_SALT_RETENTION,
  drySalting,
  drySaltingValidity,
} from '../../science/dry-salting.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

const NAMES = { pressedYield: 'pressedYieldFraction' };

/** Salt to mix into curd for a salt in the cheese. */
export const drySaltCalc = defineCalculator({
  name: 'dry-salt',
  answers: 'How much salt to mix into the curd',
  input: z.strictObject({
    curdKg: z.number().positive().describe('curd as it is salted'),
    curdMoisturePercent: z.number().describe('water in it, percent of mass'),
    targetSaltPercent: z.number().nonnegative().describe('salt wanted in the cheese, percent of mass'),
    retention: z.number().positive().max(1).default(DRY_SALT_RETENTION).describe('share of the salt that stays'),
    pressedYieldFraction: z
      .number()
      .positive()
      .max(1)
      .default(DRY_SALT_PRESSED_YIELD)
      .describe('cheese from a kg of salted curd; 1 where nothing is pressed out'),
  }),
  result: z.strictObject({ saltG: z.number(), saltInMoisturePercent: z.number(), pressedKg: z.number() }),
  example: { curdKg: 2, curdMoisturePercent: 45, targetSaltPercent: 1.7 },
  run({ pressedYieldFraction: pressedYield, ...input }) {
    const { curdMoisturePercent, targetSaltPercent } = input;
    return {
      result: underContractNames(NAMES, () => drySalting({ ...input, pressedYield })),
      cautions: nearEdges({
        validity: drySaltingValidity,
        values: { curdMoisturePercent, targetSaltPercent },
        names: NAMES,
      }),
      assumptions: [
        `retention: ${input.retention} of the salt stays (0.45 to 0.60 for milled acid curd; more with an hour before the press)`,
        `pressedYieldFraction: ${pressedYield}; what leaves is whey of 93 % water`,
      ],
      sources: ['Nair et al., South Dakota State University, abstract seen; mass balance'],
    };
  },
});
