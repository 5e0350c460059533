import { z } from 'zod';
import {
  brineFreezingC,
  brineValidity,
  freezingValidity,
  saturationSaltFraction,
  sodiumChlorideWaterActivity,
} from '../../science/brine.ts';
import { brineToMake } from '../../science/brine-amounts.ts';
import { saltFractionFrom, STRENGTH_UNITS, strengthInEveryUnit } from '../../science/brine-strength.ts';
import type { Finding } from '../../science/finding.ts';
import { remark } from '../../science/remarks.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges } from './fields.ts';

/** Units in which a float is read, so that the temperature of the reading counts. */
const FLOATS: ReadonlySet<string> = new Set(['saturation-percent', 'baume', 'density']);
const NEAR_SATURATION = 0.95; // our own choice: from here on salt dissolves slowly

const inputSchema = z
  .strictObject({
    strength: z.number().nonnegative().describe('the number, in strengthUnit'),
    strengthUnit: z.enum(STRENGTH_UNITS).describe('what "18 %" means here; baume at modulus 145; density in kg per m3'),
    brineL: z.number().positive().describe('litres of brine wanted'),
    temperatureC: z.number().default(20).describe('temperature of the brine'),
    readAtC: z.number().optional().describe('temperature at which a float was read; default 60 °F for scales'),
  })
  .refine((input) => input.readAtC === undefined || FLOATS.has(input.strengthUnit), {
    path: ['readAtC'],
    error: 'only a float (saturation-percent, baume or density) is read at a temperature',
  });

/** A brine from its strength in any unit: what to weigh, and the same strength said in every way. */
export const brineCalc = defineCalculator({
  name: 'brine',
  answers: 'How much salt and water for a brine, and its strength in every unit',
  input: inputSchema,
  result: z.strictObject({
    saltKg: z.number(),
    waterKg: z.number(),
    percentByMass: z.number(),
    gPerLWater: z.number(),
    gPerLBrine: z.number(),
    saturationPercent: z.number(),
    baume: z.number(),
    densityKgPerM3: z.number(),
    freezingC: z.number().nullable(),
    waterActivity: z.number(),
  }),
  example: { strength: 18, strengthUnit: 'percent-by-mass', brineL: 10 },
  run({ strength, strengthUnit, brineL, temperatureC, readAtC }) {
    const saltFraction = saltFractionFrom({
      strength,
      strengthUnit,
      temperatureC,
      ...(readAtC === undefined ? {} : { readAtC }),
    });
    const said = strengthInEveryUnit({ saltFraction, temperatureC });
    const { saltKg, waterKg } = brineToMake({ volumeL: brineL, saltFraction, temperatureC });
    const saturated = saturationSaltFraction(temperatureC);
    const cautions: Finding[] = nearEdges({ validity: brineValidity, values: { temperatureC }, names: {} });
    if (saltFraction > NEAR_SATURATION * saturated) {
      cautions.push(
        remark({
          code: 'brine-near-saturation',
          fields: { percentByMass: 100 * saltFraction, saturatedPercent: 100 * saturated },
        }),
      );
    }
    const eutectic = freezingValidity['saltFraction']?.high ?? 0;
    const assumptions = [
      `strength read as ${strengthUnit}; volumes of brine at ${temperatureC} °C, of water at 20 °C`,
      'water activity at 25 °C; pure salt and water: an old brine holds more than salt and reads high',
    ];
    if (FLOATS.has(strengthUnit))
      assumptions.push(`read at ${readAtC ?? (strengthUnit === 'density' ? temperatureC : '60 °F (15.6)')} °C`);
    if (saltFraction > eutectic)
      assumptions.push('no freezing point: above 23.3 % salt, not ice, separates first (freezingC is null)');
    return {
      result: {
        saltKg,
        waterKg,
        ...said,
        freezingC: saltFraction > eutectic ? null : brineFreezingC({ saltFraction }),
        waterActivity: sodiumChlorideWaterActivity((100 * saltFraction) / (1 - saltFraction)),
      },
      cautions,
      assumptions,
      sources: [
        'density: our own fit to a handbook table (Poradnik fizykochemiczny 1974, seen)',
        'freezing: Melinder (2010), coefficients seen at second hand; saturation: salt trade association table, seen',
        'water activity: Pitzer & Mayorga (1973), from memory',
      ],
    };
  },
});
