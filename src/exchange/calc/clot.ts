import { z } from 'zod';
import { clottingTime, clottingValidity, HEAT_TREATMENTS } from '../../science/coagulation.ts';
import type { Finding } from '../../science/finding.ts';
import { MILK_SPECIES } from '../../science/milk.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';

const NAMES = { doseImcuPerL: 'doseIMCUPerL' };

/** When the first flecks will be seen after rennet. */
export const clotCalc = defineCalculator({
  name: 'clot',
  answers: 'How long from rennet to the first flecks',
  input: z.strictObject({
    doseIMCUPerL: z.number().positive(),
    temperatureC: z.number().min(-1).max(101),
    pH: z.number().min(0).max(14).describe('of the milk when the rennet goes in, after culture and calcium'),
    addedCalciumMM: z.number().nonnegative().default(0),
    caseinPercent: z.number().positive().max(100).optional(),
    heatTreatment: z.enum(HEAT_TREATMENTS).default('pasteurised'),
    species: z.enum(MILK_SPECIES).default('cow'),
    homogenised: z.boolean().default(false),
    makerFactor: z.number().positive().optional(),
  }),
  result: z.strictObject({
    flocculationMinutes: z.strictObject({ p5: z.number(), p50: z.number(), p95: z.number() }),
  }),
  example: { doseIMCUPerL: 45, temperatureC: 36, pH: 6.5, addedCalciumMM: 0.9 },
  run(input) {
    const { doseIMCUPerL, temperatureC, pH, addedCalciumMM, heatTreatment, species, makerFactor } = input;
    const asked = {
      doseImcuPerL: doseIMCUPerL,
      temperatureC,
      pH,
      addedCalciumMM,
      heatTreatment,
      species,
      ...(makerFactor === undefined ? {} : { makerFactor }),
    };
    const flocculationMinutes = underContractNames(NAMES, () => clottingTime(asked));
    const cautions: Finding[] = nearEdges({
      validity: clottingValidity,
      values: { doseImcuPerL: doseIMCUPerL, temperatureC, pH },
      names: NAMES,
    });
    if (heatTreatment === 'high-heat') {
      cautions.push({
        severity: 'caution',
        code: 'clot-high-heat',
        fields: {},
        source: 'Ustunol and Brown (1985) J. Dairy Sci. 68:526, abstract seen',
      });
    }
    if (input.homogenised) {
      cautions.push({
        severity: 'caution',
        code: 'clot-homogenised',
        fields: {},
        source:
          'paper on curd tension, J. Dairy Sci., abstract seen; an instrument saw the opposite (Guinee et al. 1997)',
      });
    }
    return {
      result: { flocculationMinutes },
      cautions,
      assumptions: [
        `added calcium: ${addedCalciumMM} mmol/L`,
        `heat treatment: ${heatTreatment}`,
        `species: ${species}${species === 'cow' ? '' : ' (size of the difference from memory)'}`,
        'casein and homogenising do not move the time, only the firmness',
        makerFactor === undefined
          ? 'own factor not known: 1, and a factor 1.5 either way; note your flocculation times and the band narrows'
          : `own factor: ${makerFactor}, a factor 1.2 either way`,
      ],
      sources: [
        'Hill, university web notes, rennet activity, seen',
        'Thom and Fisk (1918) The Book of Cheese, activity over temperature, seen',
        'J. Dairy Sci. 41:61 (1958), added calcium, abstract seen',
        'Bittante et al. (2022) J. Dairy Sci. 105:2132, species, abstract seen',
      ],
    };
  },
});
