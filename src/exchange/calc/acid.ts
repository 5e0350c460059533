import { z } from 'zod';
import { InputError, type Problem } from '../../numbers/validity.ts';
import {
  acidGPerMol,
  acidToReachPH,
  directAcidValidity,
  pHAfterAcid,
  type DirectAcid,
} from '../../science/buffer-acid.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';
import { MILK_SOURCES, milkOf, milkSchema } from './milk-fields.ts';

const VINEGAR_PERCENT = 5;

const quickToSlow = z.strictObject({ quick: z.number(), slow: z.number() });

/** Acid poured into milk. */
export const acidCalc = defineCalculator({
  name: 'acid',
  answers: 'How much acid takes this milk to a pH, or where an amount of acid takes it',
  input: z.strictObject({
    milk: milkSchema,
    acid: z.enum(['lactic', 'citric', 'citric-monohydrate', 'acetic', 'vinegar']),
    vinegarPercent: z.number().min(0.5).max(30).optional().describe('acetic acid in the vinegar, g per 100 mL'),
    targetPH: z.number().min(0).max(14).optional(),
    gPerL: z.number().nonnegative().optional().describe('acid per litre of milk; of vinegar, 1 mL counts as 1 g'),
  }),
  result: z.strictObject({
    gPerL: z.number(),
    mmolPerL: z.number(),
    pH: z.number(),
    span: z.strictObject({ gPerL: quickToSlow, mmolPerL: quickToSlow, pH: quickToSlow }),
  }),
  example: { milk: { species: 'cow' }, acid: 'citric', targetPH: 5.6 },
  run(input) {
    const { milk, acid, targetPH, gPerL } = input;
    const problems: Problem[] = [];
    if ((targetPH === undefined) === (gPerL === undefined)) {
      problems.push({
        code: targetPH === undefined ? 'missing' : 'contradiction',
        field: 'targetPH',
        value: targetPH,
        expected: 'one of targetPH or gPerL',
        remedy: targetPH === undefined ? 'Give one of them.' : 'Leave one of them out.',
      });
    }
    if (acid !== 'vinegar' && input.vinegarPercent !== undefined) {
      problems.push({
        code: 'contradiction',
        field: 'vinegarPercent',
        value: input.vinegarPercent,
        expected: 'only with acid "vinegar"',
        remedy: 'Leave it out, or name the acid vinegar.',
      });
    }
    if (problems.length > 0) throw new InputError(problems);
    const { composition, assumptions } = milkOf({ milk, prefix: 'milk.' });
    const vinegarPercent = input.vinegarPercent ?? VINEGAR_PERCENT;
    const pure: DirectAcid = acid === 'vinegar' ? 'acetic' : acid;
    const asSold = acid === 'vinegar' ? 100 / vinegarPercent : 1; // grams poured for each gram of acid
    const names = { fromPH: 'milk.pH', toPH: 'targetPH', gPerL: 'gPerL' };
    const base = { composition, acid: pure, fromPH: composition.pH };
    const span = underContractNames(names, () => {
      if (targetPH !== undefined) {
        const { quick, slow } = acidToReachPH({ ...base, toPH: targetPH });
        return {
          gPerL: { quick: quick.gPerL * asSold, slow: slow.gPerL * asSold },
          mmolPerL: { quick: quick.mmolPerL, slow: slow.mmolPerL },
          pH: { quick: targetPH, slow: targetPH },
        };
      }
      const poured = gPerL ?? 0;
      const grams = poured / asSold;
      const mmol = (grams * 1000) / acidGPerMol(pure);
      return {
        gPerL: { quick: poured, slow: poured },
        mmolPerL: { quick: mmol, slow: mmol },
        pH: pHAfterAcid({ ...base, gPerL: grams }),
      };
    });
    const middle = (of: { quick: number; slow: number }): number => (of.quick + of.slow) / 2;
    return {
      result: { gPerL: middle(span.gPerL), mmolPerL: middle(span.mmolPerL), pH: middle(span.pH), span },
      cautions: [
        ...(targetPH === undefined
          ? []
          : [
              {
                severity: 'caution' as const,
                code: 'acid-four-fifths',
                fields: { gPerL: 0.8 * middle(span.gPerL) },
                source: 'our own rule: the model is good to 15 %',
              },
            ]),
        ...nearEdges({ validity: directAcidValidity, values: { toPH: targetPH }, names }),
      ],
      assumptions: [
        ...assumptions,
        ...(acid === 'vinegar' && input.vinegarPercent === undefined
          ? [`vinegar: ${VINEGAR_PERCENT} % acetic acid`]
          : []),
        'answer in the middle between quick, warm souring and slow, cold souring; 15 % uncertain beside that span',
      ],
      sources: [
        ...MILK_SOURCES,
        'Upreti, Buehlmann and Metzger (2006) J. Dairy Sci. 89:938, which groups buffer, abstract seen; contents and pK from memory',
      ],
    };
  },
});
