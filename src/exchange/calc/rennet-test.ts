import { z } from 'zod';
import { assayValidity, MAKES_CURD, rennetStrengthFromAssay } from '../../science/rennet-assay.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

const NAMES = { milkMl: 'milkML', rennetMl: 'rennetML', flocculationMin: 'flocculationMinutes' };
const DEFAULT_PH = 6.65;

/** How strong a rennet is, from a cup of milk and a clock. */
export const rennetTestCalc = defineCalculator({
  name: 'rennet-test',
  answers: 'How strong this rennet is, from the first flecks in a cup of milk',
  input: z.strictObject({
    milkML: z.number().positive(),
    rennetML: z.number().positive().optional().describe('undiluted; or drops'),
    drops: z.number().positive().optional(),
    temperatureC: z.number().min(-1).max(101),
    flocculationMinutes: z.number().positive(),
    pH: z.number().min(0).max(14).default(DEFAULT_PH),
  }),
  result: z.strictObject({
    strengthIMCUPerML: z.strictObject({ p5: z.number(), p50: z.number(), p95: z.number() }),
    makesCurd: z.enum(MAKES_CURD),
  }),
  example: { milkML: 200, drops: 1, temperatureC: 32, flocculationMinutes: 14 },
  run(input) {
    const { milkML, rennetML, drops, temperatureC, flocculationMinutes, pH } = input;
    const assay = {
      milkMl: milkML,
      temperatureC,
      flocculationMin: flocculationMinutes,
      pH,
      ...(rennetML === undefined ? {} : { rennetMl: rennetML }),
      ...(drops === undefined ? {} : { drops }),
    };
    const found = underContractNames(NAMES, () => rennetStrengthFromAssay(assay));
    return {
      result: { strengthIMCUPerML: found.strengthImcuPerMl, makesCurd: found.makesCurd },
      cautions: [
        ...nearEdges({ validity: assayValidity, values: { temperatureC, pH }, names: NAMES }),
        ...(found.makesCurd === 'yes'
          ? []
          : [
              {
                severity: 'caution' as const,
                code: 'rennet-weak-or-milk',
                fields: { strengthIMCUPerML: found.strengthImcuPerMl.p50 },
                source: 'common practice (no source)',
              },
            ]),
      ],
      assumptions: [
        `pH: ${pH}`,
        "cow's milk, pasteurised, no calcium added: high-heat and UHT milk make good rennet look weak",
        rennetML === undefined ? 'drops: 20 per mL, 10 to 30' : 'rennet measured undiluted',
        'flecks seen at the moment noted; clotting model before own calibration, a factor 1.5 either way',
      ],
      sources: [
        'Thom and Fisk (1918), seen',
        'Hill, university web notes, rennet activity, seen',
        'limits of "weak": our own',
      ],
    };
  },
});
