import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { legalPairs, needsMoreHeat, PASTEURISATION_SOURCE } from '../../science/pasteurisation.ts';
import {
  coldestPlausible,
  type CreditedHold,
  judgedHold,
  THERMOMETER_ERROR_C,
  usualMaxGapMinutes,
} from '../../science/pasteurisation-hold.ts';
import { lethalityMinutes, secondsAt72C } from '../../science/pasteurisation-lethality.ts';
import { defineCalculator } from './calculator.ts';

const percent = z.number().min(0).max(100);
const LEGAL_MINUTES_AT_63 = 30; // 21 CFR 1240.61(b), seen
const GAP_SOURCE = 'common practice (no source): readings at most five minutes, or a sixth of the hold, apart';
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
    sweetened: z.boolean().default(false),
    totalSolidsPercent: percent.optional(),
    thermometerErrorC: z.number().min(0).max(10).optional(),
    maxGapMinutes: z.number().positive().max(120).optional(),
    approvedEquipment: z.boolean().default(false),
    rule: z.enum(['us', 'eu']).default('us'),
    thermometerScale: z
      .enum(['C', 'F'])
      .default('C')
      .describe('a Fahrenheit thermometer is held to 145 and 161 °F under us'),
  }),
  result: z.strictObject({
    meetsMinimum: z.boolean(),
    minimum: z.strictObject({ temperatureC: z.number(), seconds: z.number() }),
    longestHoldSeconds: z.number(),
    lethalityMinutesAt63C: z.number(),
    lethalitySecondsAt72C: z.number(),
    conservativeLethalityMinutesAt63C: z.number(),
    asReadLethalityMinutesAt63C: z.number(),
    holdFromMinute: z.number().nullable(),
    holdToMinute: z.number().nullable(),
    shortBySeconds: z.number(),
  }),
  example: {
    readings: [0, 5, 10, 15, 20, 25, 30, 35].map((minute) => ({ minute, temperatureC: 64.5 })),
    thermometerErrorC: 0.5,
  },
  run(input) {
    const fatPercent = input.fatPercent ?? WHOLE_MILK_FAT_PERCENT;
    const thermometerErrorC = input.thermometerErrorC ?? THERMOMETER_ERROR_C.unchecked;
    const readings = input.readings.map(({ minute, temperatureC, probe }) => ({
      minute,
      temperatureC,
      ...(probe === undefined ? {} : { probe }),
    }));
    const curves = coldestPlausible({ readings, thermometerErrorC });
    const milk = {
      fatPercent,
      ...(input.totalSolidsPercent === undefined ? {} : { totalSolidsPercent: input.totalSolidsPercent }),
      isSweetened: input.sweetened,
    };
    const pairs = legalPairs({ ...milk, rule: input.rule, scale: input.thermometerScale });
    const { hold, meetsMinimum } = judgedHold({
      curves,
      pairs,
      ...(input.maxGapMinutes === undefined ? {} : { maxGapMinutes: input.maxGapMinutes }),
    });
    const best = lethalityMinutes({ curves });
    const cautions = holdRemarks({ hold, meetsMinimum, isApproved: input.approvedEquipment });
    if (!meetsMinimum && best >= LEGAL_MINUTES_AT_63) {
      const fields = { minutesAt63C: best };
      cautions.push({ severity: 'info', code: 'past-single-pair', fields, source: PASTEURISATION_SOURCE });
    }
    if (input.thermometerErrorC === undefined) {
      cautions.push({
        severity: 'caution',
        code: 'thermometer-unchecked',
        fields: {},
        source: 'common practice (no source)',
      });
    }
    return {
      result: {
        meetsMinimum,
        minimum: hold.pair,
        longestHoldSeconds: hold.creditedSeconds,
        lethalityMinutesAt63C: best,
        lethalitySecondsAt72C: secondsAt72C(best),
        conservativeLethalityMinutesAt63C: lethalityMinutes({ curves, isConservative: true }),
        asReadLethalityMinutesAt63C: lethalityMinutes({
          curves: coldestPlausible({ readings, thermometerErrorC: 0 }),
        }),
        holdFromMinute: hold.fromMinute,
        holdToMinute: hold.toMinute,
        shortBySeconds: meetsMinimum ? 0 : hold.pair.seconds - hold.creditedSeconds,
      },
      cautions,
      assumptions: [
        ...(input.fatPercent === undefined ? [`fatPercent: ${fatPercent} (whole milk)`] : []),
        ...(input.thermometerErrorC === undefined
          ? [`thermometerErrorC: ${thermometerErrorC} (a thermometer not checked within six months)`]
          : []),
        `maxGapMinutes: ${hold.maxGapMinutes} (${input.maxGapMinutes === undefined ? 'five minutes, or a sixth of the hold' : 'as given'})`,
        `rule: ${input.rule}, thermometerScale: ${input.thermometerScale}, sweetened: ${input.sweetened}, approvedEquipment: ${input.approvedEquipment}`,
        ...(input.totalSolidsPercent === undefined ? ['totalSolidsPercent: not given, taken for under 18 %'] : []),
        ...(input.rule === 'eu' && needsMoreHeat(milk)
          ? ['3 °C more for rich, sweetened or thick milk: EU law sets no figure; the US and Codex do']
          : []),
        ...(curves.length === 1
          ? ['one thermometer: its readings must come from the coldest place of a stirred pot, or they show nothing']
          : []),
        'every reading lowered by the thermometer error; of several probes the coldest; the law judges the hold, never the sum',
      ],
      sources: [PASTEURISATION_SOURCE, 'sum: z of 4.33 K, which makes the two legal pairs equal (derived)'],
    };
  },
});

/** What the hold itself has to say: whether it meets the law, the kit it was done in, and the gaps. */
function holdRemarks(input: { hold: CreditedHold; meetsMinimum: boolean; isApproved: boolean }): Finding[] {
  const { hold, meetsMinimum, isApproved } = input;
  const { temperatureC, seconds } = hold.pair;
  const findings: Finding[] = [];
  const fields = { temperatureC, seconds, heldSeconds: Math.floor(hold.creditedSeconds) };
  if (!meetsMinimum) {
    findings.push({ severity: 'stop', code: 'past-not-met', fields, source: PASTEURISATION_SOURCE });
  } else if (isApproved) {
    findings.push({
      severity: 'info',
      code: 'past-airspace',
      fields: { airspaceC: temperatureC + 3 },
      source: 'California 3 CCR 584(b): air above the milk 5 °F (3 °C) hotter than the minimum, seen',
    });
  } else {
    findings.push({ severity: 'caution', code: 'past-home-kit', fields, source: PASTEURISATION_SOURCE });
  }
  const isWide = hold.widestGapMinutes > usualMaxGapMinutes(hold.pair) + 1e-9;
  if (hold.isBrokenByGap || isWide) {
    const gap = { maxGapMinutes: usualMaxGapMinutes(hold.pair) };
    findings.push(
      hold.isBrokenByGap && !meetsMinimum
        ? { severity: 'stop', code: 'past-gap', fields: gap, source: GAP_SOURCE }
        : { severity: 'caution', code: 'past-gap', fields: gap, source: GAP_SOURCE },
    );
  }
  return findings;
}
