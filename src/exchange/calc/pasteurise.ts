import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { legalPairs, PASTEURISATION_SOURCE } from '../../science/pasteurisation.ts';
import { coldestPlausible, judgedHold, THERMOMETER_ERROR_C } from '../../science/pasteurisation-hold.ts';
import { lethalityMinutes, secondsAt72C } from '../../science/pasteurisation-lethality.ts';
import { defineCalculator } from './calculator.ts';

const percent = z.number().min(0).max(100);
const WHOLE_MILK_FAT_PERCENT = 4; // common practice (no source): below the 10 % from which the law asks for more heat

/** Whether a logged heating shows the law's time and temperature, on the coldest plausible reading. */
export const pasteuriseCalc = defineCalculator({
  name: 'pasteurise',
  answers: 'Whether a logged heating shows the legal time and temperature, and what it adds up to',
  input: z.strictObject({
    readings: z
      .array(
        z.strictObject({
          minute: z.number().min(-10_000).max(10_000),
          temperatureC: z.number().min(-5).max(110),
          probe: z.string().max(40).optional(),
        }),
      )
      .min(2)
      .max(5000),
    fatPercent: percent.optional(),
    sweetened: z.boolean().optional(),
    totalSolidsPercent: percent.optional(),
    thermometerErrorC: z.number().min(0).max(10).optional(),
    maxGapMinutes: z.number().positive().max(120).optional(),
    approvedEquipment: z.boolean().default(false),
    rule: z.enum(['us', 'eu']).default('us'),
  }),
  result: z.strictObject({
    meetsMinimum: z.boolean(),
    minimum: z.strictObject({ temperatureC: z.number(), seconds: z.number() }),
    longestHoldSeconds: z.number(),
    lethalityMinutesAt63C: z.number(),
    lethalitySecondsAt72C: z.number(),
    conservativeLethalityMinutesAt63C: z.number(),
  }),
  example: {
    readings: [0, 5, 10, 15, 20, 25, 30, 35].map((minute) => ({ minute, temperatureC: 64.5 })),
    thermometerErrorC: 0.5,
  },
  run(input) {
    const fatPercent = input.fatPercent ?? WHOLE_MILK_FAT_PERCENT;
    const thermometerErrorC = input.thermometerErrorC ?? THERMOMETER_ERROR_C.unchecked;
    const curves = coldestPlausible({
      readings: input.readings.map(({ minute, temperatureC, probe }) => ({
        minute,
        temperatureC,
        ...(probe === undefined ? {} : { probe }),
      })),
      thermometerErrorC,
    });
    const pairs = legalPairs({
      fatPercent,
      rule: input.rule,
      ...(input.totalSolidsPercent === undefined ? {} : { totalSolidsPercent: input.totalSolidsPercent }),
      ...(input.sweetened === undefined ? {} : { isSweetened: input.sweetened }),
    });
    const { hold, meetsMinimum } = judgedHold({
      curves,
      pairs,
      ...(input.maxGapMinutes === undefined ? {} : { maxGapMinutes: input.maxGapMinutes }),
    });
    const best = lethalityMinutes({ curves });
    const cautions: Finding[] = [];
    const short = {
      temperatureC: hold.pair.temperatureC,
      seconds: hold.pair.seconds,
      heldSeconds: Math.floor(hold.creditedSeconds),
    };
    if (!meetsMinimum) {
      cautions.push({ severity: 'stop', code: 'past-not-met', fields: short, source: PASTEURISATION_SOURCE });
    } else if (!input.approvedEquipment) {
      cautions.push({ severity: 'caution', code: 'past-home-kit', fields: short, source: PASTEURISATION_SOURCE });
    }
    if (hold.isBrokenByGap) {
      const fields = { maxGapMinutes: hold.maxGapMinutes };
      cautions.push({ severity: 'caution', code: 'past-gap', fields, source: 'common practice (no source)' });
    }
    return {
      result: {
        meetsMinimum,
        minimum: hold.pair,
        longestHoldSeconds: hold.creditedSeconds,
        lethalityMinutesAt63C: best,
        lethalitySecondsAt72C: secondsAt72C(best),
        conservativeLethalityMinutesAt63C: lethalityMinutes({ curves, isConservative: true }),
      },
      cautions,
      assumptions: [
        ...(input.fatPercent === undefined ? [`fatPercent: ${fatPercent} (whole milk)`] : []),
        ...(input.thermometerErrorC === undefined
          ? [`thermometerErrorC: ${thermometerErrorC} (a thermometer not checked within six months)`]
          : []),
        `maxGapMinutes: ${hold.maxGapMinutes} (${input.maxGapMinutes === undefined ? 'five minutes, or a sixth of the hold' : 'as given'})`,
        'every reading lowered by the thermometer error; of several probes the coldest; the law judges the hold, never the sum',
      ],
      sources: [PASTEURISATION_SOURCE, 'sum: z of 4.33 K, which makes the two legal pairs equal (derived)'],
    };
  },
});
