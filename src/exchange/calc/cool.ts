import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import { cheeseThermal, CURD_MOISTURE_PERCENT } from '../../science/cheese-thermal.ts';
import {
  cheeseAfter,
  iceKg,
  minutesToCore,
  pieceKg,
  STILL_BATH_W_PER_M2_K,
  STIRRED_BATH_W_PER_M2_K,
} from '../../science/cooling.ts';
import type { Finding } from '../../science/finding.ts';
import { defineCalculator } from './calculator.ts';
import { underContractNames } from './fields.ts';

const BATH_L_PER_KG = 3; // our own choice: three litres of water a kilogram of cheese
const TAP_C = 15; // common practice (no source)

/** A shaped cheese in cold water. */
export const coolCalc = defineCalculator({
  name: 'cool',
  answers: 'How long a shaped cheese takes to cool in water, how warm it is inside, and how much ice that takes',
  input: z.strictObject({
    shape: z.enum(['sphere', 'cylinder', 'brick']),
    mm: z.array(z.number().positive()).min(1).max(3).describe('diameter; diameter and height; three edges'),
    fromC: z.number().min(-1).max(100),
    bathC: z.number().min(-20).max(100),
    targetCoreC: z.number().min(-20).max(100).optional(),
    minutes: z.number().nonnegative().optional(),
    hWPerM2K: z.number().positive().optional(),
    stirred: z.boolean().default(false),
    bathL: z.number().nonnegative().optional(),
    bathStartC: z.number().min(0).max(100).optional(),
    pieces: z.int().positive().default(1),
    moisturePercent: z.number().min(0).max(100).default(CURD_MOISTURE_PERCENT),
    fatPercent: z.number().min(0).max(100).optional(),
  }),
  result: z.strictObject({
    minutes: z.number(),
    coreC: z.number(),
    meanC: z.number(),
    surfaceC: z.number(),
    iceKg: z.number(),
  }),
  example: { shape: 'sphere', mm: [61], fromC: 58, bathC: 1, targetCoreC: 20, pieces: 8 },
  run(input) {
    const { fromC, bathC, targetCoreC, moisturePercent, fatPercent, hWPerM2K, stirred, pieces } = input;
    if ((targetCoreC === undefined) === (input.minutes === undefined)) {
      throw new InputError([
        {
          code: targetCoreC === undefined ? 'missing' : 'contradiction',
          field: 'targetCoreC',
          value: targetCoreC,
          expected: 'one of targetCoreC or minutes',
          remedy: targetCoreC === undefined ? 'Give one of them.' : 'Leave one of them out.',
        },
      ]);
    }
    const thermal = underContractNames({ temperatureC: 'fromC' }, () =>
      cheeseThermal({
        moisturePercent,
        ...(fatPercent === undefined ? {} : { fatPercent }),
        temperatureC: Math.max((fromC + bathC) / 2, 0),
      }),
    );
    const body = { shape: input.shape, mm: input.mm };
    const asked = { body, fromC, bathC, thermal, isStirred: stirred, ...(hWPerM2K === undefined ? {} : { hWPerM2K }) };
    const minutes = input.minutes ?? minutesToCore({ ...asked, targetCoreC: targetCoreC ?? bathC });
    const after = cheeseAfter({ ...asked, minutes });
    const cheeseKg = pieces * pieceKg({ body, densityKgPerM3: thermal.densityKgPerM3 });
    const bathL = input.bathL ?? BATH_L_PER_KG * cheeseKg;
    const bathStartC = input.bathStartC ?? Math.max(TAP_C, bathC);
    const ice = underContractNames({ cheeseKg: 'pieces' }, () =>
      iceKg({
        cheeseKg,
        cheeseKJPerKgK: thermal.specificHeatKJPerKgK,
        fromC,
        toMeanC: after.meanC,
        bathC,
        bathL,
        bathStartC,
        minutes,
      }),
    );
    const cautions: Finding[] = [];
    if (bathC < 0) {
      cautions.push({
        severity: 'info',
        code: 'cool-brine-ice',
        fields: { bathC },
        source: 'below 0 °C only brine stays liquid; melting ice thins it',
      });
    }
    return {
      result: { minutes, ...after, iceKg: ice },
      cautions,
      assumptions: [
        hWPerM2K === undefined
          ? `surface: ${stirred ? `stirred, ${STIRRED_BATH_W_PER_M2_K}` : `still, ${STILL_BATH_W_PER_M2_K}`} W/(m2 K)`
          : `hWPerM2K: ${hWPerM2K}`,
        `moisturePercent: ${moisturePercent}; fatPercent: ${fatPercent ?? 'half of the solids'}`,
        `pieces: ${pieces}, together ${cheeseKg.toFixed(2)} kg, not touching`,
        `bathL: ${bathL.toFixed(1)}, bathStartC: ${bathStartC}; bath held at ${bathC} °C by ice, room 20 °C`,
        'times within 15 %; wet ice carries water, take a quarter more',
      ],
      sources: [
        'Çengel, Heat Transfer, Table 4-2 (seen); Choi and Okos (1986), seen at second hand',
        'Marschoun et al. (2001) and Sweat and Parmelee (1978): conductivities of cheese, 12 % apart',
      ],
    };
  },
});
