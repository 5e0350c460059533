import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import type { Finding } from '../../science/finding.ts';
import { limitedQuantities } from '../../science/yield-names.ts';
import { defineCalculator } from './calculator.ts';
import { NAME_ASSUMPTION, NAME_SOURCES, nameSchema, namesOf } from './name-fields.ts';

const percent = z.number().min(0).max(100);

/** A finished cheese against every standard of identity. */
export const standardsCalc = defineCalculator({
  name: 'standards',
  answers: 'Which names a finished composition could be sold under, which not, and by what margin',
  input: z
    .strictObject({
      moisturePercent: percent.describe('of the cheese'),
      fatPercent: percent.optional().describe('of the cheese'),
      fatInDryMatterPercent: percent.optional(),
      milkTreatment: z.enum(['raw', 'pasteurised']).optional(),
    })
    .refine((given) => (given.fatPercent === undefined) !== (given.fatInDryMatterPercent === undefined), {
      path: ['fatPercent'],
      error: 'one of fatPercent or fatInDryMatterPercent',
    }),
  result: z.strictObject({
    fatPercent: z.number(),
    fatInDryMatterPercent: z.number(),
    moistureInFatFreePercent: z.number(),
    meets: z.array(nameSchema),
    misses: z.array(nameSchema),
  }),
  example: { moisturePercent: 54, fatInDryMatterPercent: 46 },
  run({ moisturePercent, fatPercent, fatInDryMatterPercent, milkTreatment }) {
    const fat = fatPercent ?? ((fatInDryMatterPercent ?? 0) * (100 - moisturePercent)) / 100;
    if (fat + moisturePercent >= 100) {
      throw new InputError([
        {
          code: 'contradiction',
          field: 'fatPercent',
          value: fat,
          unit: '%',
          expected: `less than ${100 - moisturePercent} % beside ${moisturePercent} % of moisture`,
          remedy:
            'Water and fat leave room for protein and salt; check both, and whether the fat is that of the dry matter.',
        },
      ]);
    }
    const cheese = { moisturePercent, fatPercent: fat };
    const { meets, misses } = namesOf({ cheese, withinPoints: Number.POSITIVE_INFINITY });
    const barred = meets.filter((name) => name.needsPasteurisedMilk);
    const cautions: Finding[] = [];
    if (barred.length > 0 && milkTreatment !== 'pasteurised') {
      cautions.push({
        severity: milkTreatment === 'raw' ? 'stop' : 'info',
        code: 'name-needs-pasteurised',
        fields: { names: barred.map(({ name }) => name).join(', ') },
        source: '21 CFR 133.155 to 133.158 and 133.160, seen; the other sections from memory',
      });
    }
    if (meets.some((name) => name.unconfirmed)) {
      cautions.push({
        severity: 'info',
        code: 'name-unconfirmed',
        fields: {},
        source: 'single Codex standards: from memory, not seen',
        unconfirmed: true,
      });
    }
    const { fatInDryMatter, moistureInFatFree } = limitedQuantities(cheese);
    return {
      result: {
        fatPercent: fat,
        fatInDryMatterPercent: fatInDryMatter,
        moistureInFatFreePercent: moistureInFatFree,
        meets,
        misses,
      },
      cautions,
      assumptions: [
        NAME_ASSUMPTION,
        milkTreatment === undefined
          ? 'milkTreatment: not given, so no name is barred for raw milk'
          : `milkTreatment: ${milkTreatment}`,
        'a margin smaller than the error of your analysis decides nothing',
      ],
      sources: NAME_SOURCES,
    };
  },
});
