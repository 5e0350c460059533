import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { lacticMMFromPercent, listeriaIncrease } from '../../science/listeria-growth.ts';
import { listeriaVerdict, PH_ERROR, WATER_ACTIVITY_ERROR } from '../../science/listeria.ts';
import { defineCalculator } from './calculator.ts';

const SOURCES = [
  'Codex CAC/GL 61-2007 and EU 2073/2005 Annex I 1.3 (as quoted, seen)',
  'Augustin et al. 2005, J. Appl. Microbiol. 99:1019 (parameters seen at second hand)',
  'Mejlholm and Dalgaard 2009, J. Food Prot. 72:2132 (equations seen at second hand)',
];
const SHOWN_FROM_DAYS = 7; // Food Code 3-501.17, seen at second hand: ready-to-eat food is dated within seven days

/** The legal category of a cheese for Listeria, and how far it could grow: an estimate, never a test. */
export const listeriaCalc = defineCalculator({
  name: 'listeria',
  answers: 'Which legal category for Listeria a cheese is in, and how far it could grow: an estimate, not a test',
  input: z.strictObject({
    temperatureC: z.number().min(-40).max(60),
    pH: z.number().min(0).max(14),
    waterActivity: z.number().min(0).max(1),
    lacticInMoisturePercent: z.number().min(0).max(10).optional(),
    days: z.number().min(0).max(3650),
    pHError: z.number().min(0).max(2).default(PH_ERROR),
    waterActivityError: z.number().min(0).max(0.2).default(WATER_ACTIVITY_ERROR),
    surfaceRipened: z.boolean().default(false),
  }),
  result: z.strictObject({
    canGrow: z.boolean(),
    log10Increase: z.strictObject({ p50: z.number(), p95: z.number() }),
    category: z.enum(['cannot-support', 'supports', 'unknown']),
    rule: z.string(),
  }),
  example: { temperatureC: 5, pH: 5.2, waterActivity: 0.985, days: 7 },
  run(input) {
    const { temperatureC, pH, waterActivity, days } = input;
    const verdict = listeriaVerdict({
      temperatureC,
      pH,
      waterActivity,
      pHError: input.pHError,
      waterActivityError: input.waterActivityError,
      isSurfaceRipened: input.surfaceRipened,
    });
    // Frozen cheese stands below the models' range, and the texts say what holds there: it survives and does not grow.
    const increase =
      verdict.rule === 'frozen'
        ? { p50: 0, p95: 0 }
        : listeriaIncrease({
            temperatureC,
            pH,
            waterActivity,
            days,
            ...(input.lacticInMoisturePercent === undefined
              ? {}
              : { lacticMM: lacticMMFromPercent(input.lacticInMoisturePercent) }),
          });
    const cautions: Finding[] = [];
    if (verdict.canGrow) {
      const isLong = days > SHOWN_FROM_DAYS || increase.p95 >= 1;
      const fields = { days, log10P95: increase.p95 };
      cautions.push(
        isLong
          ? { severity: 'caution', code: 'listeria-supports', fields, source: SOURCES[0] ?? '' }
          : { severity: 'info', code: 'listeria-supports', fields, source: SOURCES[0] ?? '' },
      );
    } else {
      const fields = { rule: verdict.rule };
      cautions.push({ severity: 'info', code: 'listeria-category', fields, source: SOURCES[0] ?? '' });
    }
    return {
      result: {
        canGrow: verdict.canGrow,
        log10Increase: { p50: increase.p50, p95: increase.p95 },
        category: verdict.category,
        rule: verdict.rule,
      },
      cautions,
      assumptions: [
        `pHError: ${input.pHError}`,
        `waterActivityError: ${input.waterActivityError}`,
        `surfaceRipened: ${input.surfaceRipened}`,
        ...(input.lacticInMoisturePercent === undefined
          ? ['lacticInMoisturePercent: none credited, because none was measured']
          : []),
        'no lag and no competition; warmest, least acid and moistest of its whole life',
      ],
      sources: SOURCES,
    };
  },
});
