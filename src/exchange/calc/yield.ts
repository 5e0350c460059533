import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { milkCompositionKernel, milkDensityKernel } from '../../science/milk.ts';
import { CHEESE_FAMILIES, YIELD_FAMILIES } from '../../science/yield-families.ts';
import { DEFAULT_SALT_PERCENT, yieldForecast, yieldValidity } from '../../science/yield.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges, underContractNames } from './fields.ts';
import { NAME_ASSUMPTION, NAME_SOURCES, nameSchema, namesOf } from './name-fields.ts';

const JUST_MISSED_POINTS = 5; // our own choice: further off, nobody thinks of the name

const percent = z.number().min(0).max(100);
const band = z.strictObject({ p5: z.number(), p95: z.number() });

/** How much cheese, what is in it, and which names that composition allows. */
export const yieldCalc = defineCalculator({
  name: 'yield',
  answers: 'How much cheese this milk gives, and which names its composition allows',
  input: z.strictObject({
    fatPercent: percent.describe('of the milk'),
    caseinPercent: percent.describe('of the milk'),
    moisturePercent: percent.describe('of the cheese'),
    form: z.enum(['van-slyke', 'general']).optional(),
    fatRecovery: z.number().min(0).max(1).optional(),
    caseinRecovery: z.number().min(0).max(1).optional(),
    solidsFactor: z.number().positive().optional(),
    saltPercent: percent.default(DEFAULT_SALT_PERCENT),
    family: z.enum(CHEESE_FAMILIES).default('cheddar'),
  }),
  result: z.strictObject({
    kgPer100kg: z.number(),
    kgPer100L: z.number(),
    span: z.strictObject({ kgPer100kg: band, kgPer100L: band }),
    fatInDryMatterPercent: z.number(),
    moistureInFatFreePercent: z.number(),
    names: z.array(nameSchema),
    namesJustMissed: z.array(nameSchema),
  }),
  example: { fatPercent: 3.7, caseinPercent: 2.6, moisturePercent: 54, family: 'stretched' },
  run(input) {
    const { fatPercent, caseinPercent, moisturePercent, saltPercent, family } = input;
    const asked = {
      fatPercent,
      caseinPercent,
      moisturePercent,
      saltPercent,
      family,
      ...(input.form === undefined ? {} : { form: input.form }),
      ...(input.fatRecovery === undefined ? {} : { fatRecovery: input.fatRecovery }),
      ...(input.caseinRecovery === undefined ? {} : { caseinRecovery: input.caseinRecovery }),
      ...(input.solidsFactor === undefined ? {} : { solidsFactor: input.solidsFactor }),
    };
    const forecast = underContractNames({}, () => yieldForecast(asked));
    const { solidsNotFatPercent } = milkCompositionKernel({ species: 'cow', fatPercent, caseinPercent });
    const kgPerL = milkDensityKernel({ fatPercent, solidsNotFatPercent, temperatureC: 20 }) / 1000;
    const low = 1 - forecast.bandPercent / 100;
    const high = 1 + forecast.bandPercent / 100;
    const { kgPer100kg } = forecast;
    const kgPer100L = kgPer100kg * kgPerL;
    const row = YIELD_FAMILIES[family];
    const cautions: Finding[] = nearEdges({
      validity: yieldValidity,
      values: { caseinPercent, moisturePercent },
      names: {},
    });
    cautions.push({
      severity: 'info',
      code: 'yield-fat-over-credited',
      fields: {},
      source: 'laboratory Cheddar study, J. Dairy Sci. 82:2287 (1999), abstract seen',
    });
    const { meets, misses } = namesOf({
      cheese: { moisturePercent, fatPercent: (forecast.fatInDryMatterPercent * (100 - moisturePercent)) / 100 },
      withinPoints: JUST_MISSED_POINTS,
    });
    return {
      result: {
        kgPer100kg,
        kgPer100L,
        span: {
          kgPer100kg: { p5: kgPer100kg * low, p95: kgPer100kg * high },
          kgPer100L: { p5: kgPer100L * low, p95: kgPer100L * high },
        },
        fatInDryMatterPercent: forecast.fatInDryMatterPercent,
        moistureInFatFreePercent: forecast.moistureInFatFreePercent,
        names: meets,
        namesJustMissed: misses,
      },
      cautions,
      assumptions: [
        `family: ${family} (${row.source})`,
        `form: ${forecast.form}`,
        `fat kept ${input.fatRecovery ?? row.fatRecovery}, casein kept ${forecast.form === 'van-slyke' ? 'all but 0.1 kg per 100 kg of milk' : (input.caseinRecovery ?? row.caseinRecovery)}`,
        forecast.form === 'general' ? `salt in the cheese: ${saltPercent} %` : 'salt and whey solids by one factor',
        `band ±${forecast.bandPercent} % of the yield`,
        `milk weighs ${kgPerL.toFixed(3)} kg/L at 20 °C`,
        NAME_ASSUMPTION,
        `namesJustMissed: those missed by ${JUST_MISSED_POINTS} points at most`,
      ],
      sources: [
        'Hill, university web notes, yield prediction (Van Slyke and Price), seen',
        row.source,
        'band: our own, from the published checks',
        ...NAME_SOURCES,
      ],
    };
  },
});
