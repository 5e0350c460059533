import { z } from 'zod';
import { calciumDose, calciumValidity } from '../../science/calcium.ts';
import type { Finding } from '../../science/finding.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

const LIMIT_SOURCE = '21 CFR 133.189, text read; the same limit in Codex, from memory';
const DEFAULT_G_PER_L = 0.1;

/** How much calcium chloride solution, and how near the legal limit. */
export const calciumCalc = defineCalculator({
  name: 'calcium',
  answers: 'How much calcium chloride solution to add',
  input: z.strictObject({
    milkL: z.number().positive(),
    solutionPercent: z.number().positive().max(100).describe('anhydrous calcium chloride, percent by mass'),
    gPerL: z.number().nonnegative().default(DEFAULT_G_PER_L).describe('anhydrous, per litre of milk'),
  }),
  result: z.strictObject({
    mL: z.number(),
    addedMM: z.number(),
    percentOfLegalMaximum: z.number(),
    anhydrousG: z.number(),
    dihydrateG: z.number(),
    pHFall: z.number(),
  }),
  example: { milkL: 12, solutionPercent: 33 },
  run(input) {
    const dose = underContractNames({}, () => calciumDose(input));
    const cautions: Finding[] = nearEdges({
      validity: calciumValidity,
      values: { solutionPercent: input.solutionPercent },
      names: {},
    });
    if (dose.percentOfLegalMaximum > 100 + 1e-9) {
      cautions.push({
        severity: 'caution',
        code: 'calcium-max',
        fields: { percentOfLegalMaximum: dose.percentOfLegalMaximum, gPerL: input.gPerL },
        source: LIMIT_SOURCE,
      });
    }
    return {
      result: {
        mL: dose.volumeMl,
        addedMM: dose.addedCalciumMM,
        percentOfLegalMaximum: dose.percentOfLegalMaximum,
        anhydrousG: dose.anhydrousG,
        dihydrateG: dose.dihydrateG,
        pHFall: dose.pHFall,
      },
      cautions,
      assumptions: [
        `dose: ${input.gPerL} g/L of anhydrous calcium chloride in the milk`,
        'milk weighs 1.03 kg/L; densities of the solution and the fall of pH are from memory',
      ],
      sources: [LIMIT_SOURCE],
    };
  },
});
