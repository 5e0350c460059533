import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { remark } from '../../science/remarks.ts';
import { scaldTimes } from '../../science/scald.ts';
import { defineCalculator } from './calculator.ts';

/** How soon hot water burns. */
export const scaldCalc = defineCalculator({
  name: 'scald',
  answers: 'How soon hot water blisters and burns the skin',
  input: z.strictObject({ waterC: z.number() }),
  result: z.strictObject({
    secondsToBlister: z.number().nullable(),
    secondsToDeepBurn: z.number().nullable(),
    secondsToBlisterForChildren: z.number().nullable(),
    isUpperBound: z.boolean(),
  }),
  example: { waterC: 80 },
  run({ waterC }) {
    const cautions: Finding[] = [];
    if (waterC > 60) cautions.push(remark({ code: 'scald-upper-bound', fields: { waterC } }));
    return {
      result: { ...scaldTimes({ waterC }) },
      cautions,
      assumptions: [
        'an adult, with the skin in the water; say "as little as" and round down',
        'children, older people, thin or wet-gloved skin: a quarter of the time, common practice (no source)',
        'above 60 °C only upper bounds, in steps: the real time is shorter; above 68 °C it is under a second',
      ],
      sources: [
        'Moritz & Henriques (1947) Am. J. Pathol. 23:695, seen at second hand',
        'above 60 °C: a standards discussion of 1997, author not given, seen',
      ],
    };
  },
});
