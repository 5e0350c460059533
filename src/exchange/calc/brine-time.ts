import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import { type Body, bodyVolumeM3, requireBody } from '../../science/body.ts';
import { saturationSaltFraction } from '../../science/brine.ts';
import { brineAfterBatch, saltToRestoreKg } from '../../science/brine-amounts.ts';
import { brined, equaliseDays, hoursToSalt, saltProfile } from '../../science/brine-bath.ts';
import type { Finding } from '../../science/finding.ts';
import { remark } from '../../science/remarks.ts';
import {
  cheeseDensityFromMoistureKgPerM3,
  SALTING_CHECKED_C,
  type SaltingInput,
  saltingValidity,
  SKIN_MM,
  WATER_PER_SALT,
} from '../../science/salting.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges } from './fields.ts';

/** A rind thinner than this is none: it holds nothing back, and its share in the model's roots would be lost in rounding. Our own choice. */
const THIN_MM = 1e-6;

type Habit = { readonly waterPerSalt: number; readonly skinMm: number };
const FRESH: Habit = { waterPerSalt: WATER_PER_SALT.stretched, skinMm: SKIN_MM.fresh };
const PRESSED: Habit = { waterPerSalt: WATER_PER_SALT.pressed, skinMm: SKIN_MM.pressed };
const LACTIC: Habit = { waterPerSalt: WATER_PER_SALT.lactic, skinMm: SKIN_MM.fresh };

/** How each family salts unless told otherwise: our own reading of the sources in `science/salting.ts`. */
const HABITS = {
  cheddar: PRESSED,
  stretched: FRESH,
  washed: PRESSED,
  fresh: LACTIC,
  lactic: LACTIC,
  bloomy: { ...PRESSED, skinMm: SKIN_MM.fresh },
  alpine: PRESSED,
  brined: { ...PRESSED, skinMm: SKIN_MM.fresh },
  cottage: LACTIC,
  whey: LACTIC,
} as const satisfies Record<string, Habit>;

const MOIST_PERCENT = 50; // our own choice: without a family, a moister cheese is taken for a fresh stretched one
const UPTAKE_SPREAD = 1.3; // salt taken, 90 % band before learning: our own choice from the published checks
const MASS_TOLERANCE = 0.15; // contract: mass and size may disagree by so much
const PROFILE_POINTS = 11;
const STRONG_PERCENT = 23; // our own choice, between the 18 % and the saturated brine that were compared
const LEAST_ABOVE_CHEESE = 2; // g per 100 g water a brine should stand above the cheese: book excerpt on white-brined cheese

const bandSchema = z.strictObject({ p5: z.number().nullable(), p50: z.number(), p95: z.number().nullable() });

const inputSchema = z
  .strictObject({
    shape: z.enum(['sphere', 'cylinder', 'brick']),
    mm: z.array(z.number().positive()).min(1).max(3).describe('diameter; diameter and height; or three edges'),
    moisturePercent: z.number().describe('water in the cheese as it goes in, percent of mass'),
    brinePercent: z.number().describe('strength of the brine, percent by mass'),
    temperatureC: z.number().describe('of brine and cheese'),
    hours: z.number().positive().optional(),
    targetSaltPercent: z.number().positive().optional().describe('salt wanted in the cheese, percent of mass'),
    massKg: z.number().positive().optional().describe('mass of one piece; checked against mm'),
    brineKg: z
      .number()
      .positive()
      .optional()
      .describe('mass of brine for one piece; default so much that it stays as it is'),
    stirred: z.boolean().default(true),
    family: z.enum(['cheddar', 'stretched', 'washed', 'fresh', 'lactic', 'bloomy', 'alpine', 'brined', 'cottage', 'whey']).optional(), // prettier-ignore
    waterPerSalt: z.number().nonnegative().optional().describe('grams of water out for each gram of salt in'),
    skinMm: z.number().nonnegative().optional().describe('rind, as so many mm of cheese'),
  })
  .refine((input) => (input.hours === undefined) !== (input.targetSaltPercent === undefined), {
    path: ['hours'],
    error: 'give either hours or targetSaltPercent',
  });

/** How long in brine, or how salty after a time; what the cheese loses, and what the brine needs afterwards. */
export const brineTimeCalc = defineCalculator({
  name: 'brine-time',
  answers: 'How long a cheese lies in brine for a salt, or how salty it is after a time',
  input: inputSchema,
  result: z.strictObject({
    hours: z.number(),
    saltPercent: z.number(),
    saltInMoisturePercent: z.number(),
    massChangePercent: z.number(),
    moisturePercent: z.number(),
    profile: z.array(z.strictObject({ depthMm: z.number(), saltInMoisturePercent: z.number() })),
    brinePercentAfter: z.number(),
    saltToAddKg: z.number(),
    equaliseDays: z.number(),
    spans: z.strictObject({ hours: bandSchema, saltPercent: bandSchema, equaliseDays: bandSchema }),
  }),
  example: { shape: 'sphere', mm: [61], moisturePercent: 57, brinePercent: 18, temperatureC: 10, targetSaltPercent: 1 },
  run(input) {
    const body: Body = { shape: input.shape, mm: input.mm };
    requireBody(body);
    const { moisturePercent, brinePercent, temperatureC } = input;
    requireDissolved({ brinePercent, temperatureC });
    const massKg = pieceMass({ body, moisturePercent, massKg: input.massKg });
    const habit: Habit =
      input.family === undefined ? (moisturePercent >= MOIST_PERCENT ? FRESH : PRESSED) : HABITS[input.family];
    const waterPerSalt = input.waterPerSalt ?? habit.waterPerSalt;
    const rindMm = input.skinMm ?? habit.skinMm;
    const skinMm = rindMm > THIN_MM ? rindMm : 0;
    const salting: SaltingInput = {
      body,
      moisturePercent,
      brinePercent,
      temperatureC,
      waterPerSalt,
      skinMm,
      ...(input.brineKg === undefined ? {} : { brinePerCheese: input.brineKg / massKg }),
    };
    const { targetSaltPercent } = input;
    const hours = input.hours ?? hoursToSalt({ ...salting, targetSaltPercent: targetSaltPercent ?? 0 });
    const out = brined({ ...salting, hours });
    const saltTakenKg = massKg * out.saltTakenPerKg;
    const waterGivenKg = massKg * out.waterGivenPerKg;
    const brinePercentAfter =
      input.brineKg === undefined
        ? brinePercent
        : 100 *
          brineAfterBatch({
            brine: { massKg: input.brineKg, saltFraction: brinePercent / 100 },
            saltTakenKg,
            waterGivenKg,
          }).saltFraction;
    const days = equaliseDays({ body, moisturePercent, temperatureC });
    const cautions: Finding[] = [
      ...nearEdges({
        validity: saltingValidity,
        values: { moisturePercent, waterPerSalt: input.waterPerSalt },
        names: {},
      }),
      ...saltingRemarks({ salting, saltInMoisturePercent: out.saltInMoisturePercent, brinePercentAfter }),
    ];
    return {
      result: {
        hours,
        saltPercent: out.saltPercent,
        saltInMoisturePercent: out.saltInMoisturePercent,
        massChangePercent: out.massChangePercent,
        moisturePercent: out.moisturePercent,
        profile: [...saltProfile({ ...salting, hours, points: PROFILE_POINTS })],
        brinePercentAfter,
        saltToAddKg: saltToRestoreKg({ saltFraction: brinePercent / 100, saltTakenKg, waterGivenKg }),
        equaliseDays: days,
        spans: {
          hours: {
            p5: hoursOrNull({ salting, saltPercent: out.saltPercent / UPTAKE_SPREAD }),
            p50: hours,
            p95: hoursOrNull({ salting, saltPercent: out.saltPercent * UPTAKE_SPREAD }),
          },
          saltPercent: {
            p5: out.saltPercent / UPTAKE_SPREAD,
            p50: out.saltPercent,
            p95: out.saltPercent * UPTAKE_SPREAD,
          },
          equaliseDays: { p5: days / 2, p50: days, p95: days * 2 },
        },
      },
      cautions,
      assumptions: [
        `family: ${input.family ?? (moisturePercent >= MOIST_PERCENT ? 'not given, taken for a fresh stretched cheese' : 'not given, taken for a pressed cheese')}`,
        `waterPerSalt: ${waterPerSalt} g of water out for each g of salt in; skinMm: ${skinMm}`,
        `mass of a piece: ${massKg.toFixed(3)} kg${input.massKg === undefined ? ', from its size' : ''}`,
        input.brineKg === undefined
          ? 'brine: so much that its strength stays'
          : `brine: ${input.brineKg} kg for a piece`,
        `stirred: ${input.stirred} (turning and stirring keep all of the rind in brine; a still tub salts less, unmeasured)`,
        'cheese at the temperature of the brine all the time; evening out at that temperature too; no salt in it before',
      ],
      sources: [
        'diffusivity: our own fit to Floury et al. (2010) Dairy Sci. Technol. 90:477, Table II, first rows seen',
        'water out, rind: Chamba (1988) Lait 68:121, abstract seen; Guinee & Fox (1983); our own choice',
        'band of 30 % on the salt before anything was learned: our own choice from the published checks',
      ],
    };
  },
});

function requireDissolved(input: { brinePercent: number; temperatureC: number }): void {
  const { brinePercent, temperatureC } = input;
  if (!(temperatureC >= -21.1 && temperatureC <= 100)) return; // the model's own range speaks
  const saturatedPercent = 100 * saturationSaltFraction(temperatureC);
  if (brinePercent <= saturatedPercent + 0.005) return;
  throw new InputError([
    {
      code: 'impossible',
      field: 'brinePercent',
      value: brinePercent,
      unit: '% by mass',
      expected: `at most ${saturatedPercent.toFixed(1)} % by mass, saturated at ${temperatureC} °C`,
      remedy:
        'If the number counts grams of salt for the water alone, turn it into percent by mass with the brine calculator.',
      source: 'salt trade association, solubility table',
    },
  ]);
}

function pieceMass(input: { body: Body; moisturePercent: number; massKg: number | undefined }): number {
  const fromSize = bodyVolumeM3(input.body) * cheeseDensityFromMoistureKgPerM3(input.moisturePercent);
  const { massKg } = input;
  if (massKg === undefined) return fromSize;
  if (Math.abs(massKg / fromSize - 1) <= MASS_TOLERANCE) return massKg;
  throw new InputError([
    {
      code: 'contradiction',
      field: 'massKg',
      value: massKg,
      unit: 'kg',
      expected: `about ${fromSize.toPrecision(3)} kg for a cheese of this size (within 15 %)`,
      remedy: 'Check sizes (millimetres, diameter not radius) and mass against each other.',
    },
  ]);
}

function hoursOrNull(input: { salting: SaltingInput; saltPercent: number }): number | null {
  try {
    return hoursToSalt({ ...input.salting, targetSaltPercent: input.saltPercent });
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}

function saltingRemarks(input: {
  salting: SaltingInput;
  saltInMoisturePercent: number;
  brinePercentAfter: number;
}): Finding[] {
  const { brinePercent, temperatureC, moisturePercent } = input.salting;
  const remarks: Finding[] = [];
  if (temperatureC < SALTING_CHECKED_C.low || temperatureC > SALTING_CHECKED_C.high)
    remarks.push(remark({ code: 'salting-unchecked-temperature', fields: { temperatureC } }));
  const brineInWaterPercent = (100 * input.brinePercentAfter) / (100 - input.brinePercentAfter);
  if (brineInWaterPercent < input.saltInMoisturePercent + LEAST_ABOVE_CHEESE) {
    const { saltInMoisturePercent } = input;
    remarks.push(remark({ code: 'brine-weaker-than-cheese', fields: { brineInWaterPercent, saltInMoisturePercent } }));
  }
  if (brinePercent > STRONG_PERCENT && moisturePercent >= MOIST_PERCENT)
    remarks.push(remark({ code: 'brine-strong-rind', fields: { brinePercent } }));
  if (brinePercent - input.brinePercentAfter > 0.5)
    remarks.push(remark({ code: 'brine-drops', fields: { brinePercent, brinePercentAfter: input.brinePercentAfter } }));
  return remarks;
}
