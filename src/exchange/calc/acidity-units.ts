import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import { ACIDITY_UNITS, acidityScales } from '../../science/acidity.ts';
import { defineCalculator } from './calculator.ts';

const reading = z.number().nonnegative();

/** Titratable acidity in every scale. */
export const acidityUnitsCalc = defineCalculator({
  name: 'acidity-units',
  answers: 'What a titration reads in °D, °SH, °Th, g/L and percent',
  input: z.strictObject({
    gLacticPerL: reading.optional(),
    dornic: reading.optional(),
    soxhletHenkel: reading.optional(),
    thorner: reading.optional(),
    percentLactic: reading.optional().describe('10 g of lactic acid per litre count as 1 %'),
  }),
  result: z.strictObject({
    gLacticPerL: z.number(),
    dornic: z.number(),
    soxhletHenkel: z.number(),
    thorner: z.number(),
    percentLactic: z.number(),
  }),
  example: { dornic: 18 },
  run(input) {
    const given = ACIDITY_UNITS.flatMap((unit) => {
      const value = input[unit];
      return value === undefined ? [] : [{ unit, value }];
    });
    const [first, ...others] = given;
    if (first === undefined || others.length > 0) {
      throw new InputError([
        {
          code: first === undefined ? 'missing' : 'contradiction',
          field: first === undefined ? 'dornic' : (others[0]?.unit ?? first.unit),
          value: others[0]?.value,
          expected: `exactly one of ${ACIDITY_UNITS.join(', ')}`,
          remedy: 'Give the reading in the one scale it was taken in.',
        },
      ]);
    }
    return {
      result: acidityScales(first),
      cautions: [],
      assumptions: ['a conversion between scales; it says nothing of the pH, and whey titrates lower than milk'],
      sources: ['definitions of the scales (alkali N/9, N/4, N/10 on 100 mL), seen at second hand'],
    };
  },
});
