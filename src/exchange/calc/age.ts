import { z } from 'zod';
import { InputError } from '../../numbers/validity.ts';
import {
  ageingValidity,
  agedMassKg,
  dryingDrivePa,
  filmPermeance,
  RIND_HABITS,
  RINDS,
  SURFACE_WATER_ACTIVITY,
} from '../../science/ageing.ts';
import { ageingCurve, learnedLeak } from '../../science/ageing-learn.ts';
import { type Body, bodyVolumeM3, requireBody } from '../../science/body.ts';
import type { Finding } from '../../science/finding.ts';
import { cheeseDensityFromMoistureKgPerM3 } from '../../science/salting.ts';
import { defineCalculator } from './calculator.ts';
import { nearEdges } from './fields.ts';

const MOST_POINTS = 60; // our own choice: enough for a curve on any screen
const SIZE_REMARK = 0.15; // mass and sizes may disagree by so much without a word, as in brine-time
const SIZE_SLIP = 2; // our own choice: further apart than this one of them is in the wrong unit
const DRY_ROOM_PERCENT = { mould: 85, washed: 90 } as const; // university page on ripening rooms, seen

/** What a cheese weighs as it ages, and what its weighings say about its rind. */
export const ageCalc = defineCalculator({
  name: 'age',
  answers: 'How much a cheese loses as it ages, from its size, rind and room, and from its own weighings',
  input: z.strictObject({
    massKg: z.number().positive().describe('at the start, day 0'),
    shape: z.enum(['sphere', 'cylinder', 'brick']),
    mm: z.array(z.number().positive()).min(1).max(3).describe('diameter; diameter and height; or three edges'),
    moisturePercent: z.number().min(0).max(100).describe('at the start, percent of mass'),
    temperatureC: z.number().describe('of the room'),
    relativeHumidityPercent: z.number().min(0).max(100).describe('of the room'),
    days: z.number().nonnegative(),
    rind: z.enum(RINDS).default('bare'),
    weighings: z
      .array(z.strictObject({ day: z.number().nonnegative(), massKg: z.number().positive() }))
      .max(1000)
      .default([])
      .describe('the later the better; one beside the mass of day 0 makes two'),
    waterActivity: z.number().positive().max(1).default(SURFACE_WATER_ACTIVITY).describe('of the surface'),
    film: z
      .strictObject({
        gPerM2PerDay: z.number().min(0.01).max(100_000),
        measuredAtC: z.number().min(0).max(60),
        humidityDifferencePercent: z.number().min(1).max(100),
      })
      .optional()
      .describe('a film over the rind, with the conditions its rate was measured at'),
  }),
  result: z.strictObject({
    massKg: z.number(),
    lossPercent: z.number(),
    lossPercentSpan: z.strictObject({ p5: z.number(), p95: z.number() }),
    moisturePercent: z.number(),
    leakFactor: z.number(),
    curve: z.array(z.strictObject({ day: z.number(), massKg: z.number(), p5: z.number(), p95: z.number() })),
  }),
  example: {
    massKg: 4,
    shape: 'cylinder',
    mm: [220, 100],
    moisturePercent: 42,
    temperatureC: 13,
    relativeHumidityPercent: 85,
    days: 60,
  },
  run(input) {
    const { massKg, moisturePercent, temperatureC, relativeHumidityPercent, days, rind, weighings, waterActivity } =
      input;
    const body: Body = { shape: input.shape, mm: input.mm };
    requireBody(body);
    const sizedKg = bodyVolumeM3(body) * cheeseDensityFromMoistureKgPerM3(moisturePercent);
    requireLikeSize({ massKg, sizedKg });
    const cheese = {
      massKg,
      body,
      moisturePercent,
      temperatureC,
      relativeHumidityPercent,
      rind,
      waterActivity,
      ...(input.film === undefined ? {} : { film: filmPermeance(input.film) }),
    };
    agedMassKg({ ...cheese, days });
    for (const { day } of weighings) agedMassKg({ ...cheese, days: day });
    const steps = Math.max(1, Math.min(MOST_POINTS, Math.ceil(days)));
    const daysShown = days === 0 ? [0] : Array.from({ length: steps + 1 }, (_, i) => (days * i) / steps);
    const curve = ageingCurve({ ...cheese, weighings, days: daysShown });
    const end = curve.at(-1) ?? { day: 0, massKg, p5: massKg, p95: massKg };
    const lost = (kg: number): number => (100 * (massKg - kg)) / massKg;
    const solidsKg = massKg * (1 - moisturePercent / 100);
    const cautions: Finding[] = [
      ...nearEdges({ validity: ageingValidity, values: { moisturePercent, temperatureC }, names: {} }),
      ...roomRemarks({
        rind,
        relativeHumidityPercent,
        drivePa: dryingDrivePa(cheese),
        isWeighed: weighings.length > 0,
      }),
    ];
    const sizeShare = sizedKg / massKg;
    if (Math.abs(sizeShare - 1) > SIZE_REMARK) {
      cautions.push({
        severity: 'caution',
        code: 'age-size',
        fields: { massKg, sizedKg },
        source: 'mass of a body of this size',
      });
    }
    return {
      result: {
        massKg: end.massKg,
        lossPercent: lost(end.massKg),
        lossPercentSpan: { p5: lost(end.p95), p95: lost(end.p5) },
        moisturePercent: 100 * Math.max(0, 1 - solidsKg / end.massKg),
        leakFactor: learnedLeak({ ...cheese, weighings }).factor,
        curve: [...curve],
      },
      cautions,
      assumptions: [
        `rind: ${rind} (${RIND_HABITS[rind].source})`,
        `waterActivity: ${waterActivity} at the surface, all along`,
        weighings.length === 0
          ? `weighings: none, so the loss is known to a factor of ${RIND_HABITS[rind].bandFactor} either way`
          : 'weighings: the leakiness of this rind is learned from them, ±10 % of the loss at best; from the last one on the curve starts from it',
        'still air, steady room, the size of the start; only water is lost',
      ],
      sources: [
        'loss that slows with the square root of time: Cheddar (1954), abstract seen; a bare rind from the water diffusivity of Mahón, seen at second hand',
        'mould, washed, waxed and vacuum: common practice (no source)',
      ],
    };
  },
});

function requireLikeSize({ massKg, sizedKg }: { massKg: number; sizedKg: number }): void {
  if (sizedKg < massKg * SIZE_SLIP && massKg < sizedKg * SIZE_SLIP) return;
  throw new InputError([
    {
      code: 'contradiction',
      field: 'mm',
      value: sizedKg,
      unit: 'kg',
      expected: `sizes of a cheese of about ${massKg} kg`,
      remedy: 'These sizes make a cheese of that many kg; give them in millimetres, and the mass in kg.',
    },
  ]);
}

function roomRemarks(input: {
  rind: (typeof RINDS)[number];
  relativeHumidityPercent: number;
  drivePa: number;
  isWeighed: boolean;
}): Finding[] {
  const { rind, relativeHumidityPercent, drivePa, isWeighed } = input;
  const findings: Finding[] = [];
  if (drivePa === 0) {
    findings.push({
      severity: 'caution',
      code: 'age-no-drying',
      fields: { relativeHumidityPercent },
      source: 'the cheese cannot dry in air as moist as itself',
    });
  }
  if ((rind === 'mould' || rind === 'washed') && relativeHumidityPercent < DRY_ROOM_PERCENT[rind]) {
    findings.push({
      severity: 'caution',
      code: 'age-room-dry',
      fields: { relativeHumidityPercent, leastPercent: DRY_ROOM_PERCENT[rind] },
      source: 'university page on ripening rooms: washed 90 to 95 %, mould 85 to 90 %, seen',
    });
  }
  if (!isWeighed) {
    findings.push({
      severity: 'info',
      code: 'age-weigh',
      fields: {},
      source: 'our own choice: ±50 % before two weighings, ±10 % after',
    });
  }
  return findings;
}
