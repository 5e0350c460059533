import { z } from 'zod';
import type { Finding } from '../../science/finding.ts';
import { lacticMMFromPercent, listeriaIncrease, type ListeriaIncrease } from '../../science/listeria-growth.ts';
import {
  type ListeriaRule,
  listeriaVerdict,
  PH_ERROR,
  SHORT_LIFE_DAYS,
  WATER_ACTIVITY_ERROR,
} from '../../science/listeria.ts';
import { defineCalculator } from './calculator.ts';

const SOURCES = [
  'Codex CAC/GL 61-2007 and EU 2073/2005 Annex I 1.3 (as quoted, seen)',
  'Augustin et al. 2005, J. Appl. Microbiol. 99:1019 (parameters seen at second hand)',
  'Mejlholm and Dalgaard 2009, J. Food Prot. 72:2132 (equations seen at second hand)',
];
const RULES: Readonly<Record<ListeriaRule, string>> = {
  acid: 'acid: pH below 4.4 with its error (Codex CAC/GL 61-2007; EU 2073/2005 has 4.4 or below)',
  dry: 'dry: water activity below 0.92 with its error (Codex CAC/GL 61-2007; EU 2073/2005 has 0.92 or below)',
  'acid-and-dry':
    'acid and dry: pH below 5.0 and water activity below 0.94, both with their errors (Codex CAC/GL 61-2007)',
  frozen: 'frozen: no growth at -18 °C or below, but it survives (Codex CAC/GL 61-2007)',
  'surface-ripened': 'surface-ripened: a mould or smear rind loses its acid, so no limit counts',
  doubt: 'a limit is met as read, but not with the error of the reading: counted as growing',
  none: 'no limit is met',
};
const RIPE_RIND_PH = 7.1; // best for growth in the model; rinds of bloomy cheese reach 7.2 to 7.7, seen at second hand
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
    log10IncreaseAtWorstReading: z.number().describe('the p95 with the errors of pH and water activity counted too'),
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
    const lactic =
      input.lacticInMoisturePercent === undefined
        ? {}
        : { lacticMM: lacticMMFromPercent(input.lacticInMoisturePercent) };
    const grown = (habitat: { pH: number; waterActivity: number }): ListeriaIncrease =>
      listeriaIncrease({ temperatureC, days, ...habitat, ...lactic });
    // Frozen cheese stands below the models' range, and the texts say what holds there: it survives and does not grow.
    const isFrozen = verdict.rule === 'frozen';
    const rindPH = input.surfaceRipened ? Math.max(pH, RIPE_RIND_PH) : pH;
    const p50 = isFrozen ? 0 : grown({ pH, waterActivity }).p50;
    const p95 = isFrozen ? 0 : grown({ pH: rindPH, waterActivity }).p95;
    const worst = isFrozen
      ? 0
      : grown({
          pH: Math.max(rindPH, Math.min(RIPE_RIND_PH, pH + input.pHError)),
          waterActivity: Math.min(1, waterActivity + input.waterActivityError),
        }).p95;
    const cautions: Finding[] = [];
    if (verdict.canGrow) {
      const isLong = days > SHOWN_FROM_DAYS || worst >= 1;
      const fields = { days, log10P95: worst };
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
        log10Increase: { p50, p95 },
        log10IncreaseAtWorstReading: worst,
        category: verdict.category,
        rule: RULES[verdict.rule],
      },
      cautions,
      assumptions: [
        `pHError: ${input.pHError}`,
        `waterActivityError: ${input.waterActivityError}`,
        `surfaceRipened: ${input.surfaceRipened}`,
        ...(input.lacticInMoisturePercent === undefined
          ? ['lacticInMoisturePercent: none credited, because none was measured']
          : []),
        ...(input.surfaceRipened ? ['high end at the pH of a ripe rind, whatever the middle is'] : []),
        ...(days < SHORT_LIFE_DAYS
          ? ['EU law puts foods of less than 5 days of life in the category by itself; nothing here is milder for it']
          : []),
        'from one cell in 25 g to 7.8 steps a gram at most',
        'no lag and no competition; warmest, least acid and moistest of its whole life',
      ],
      sources: SOURCES,
    };
  },
});
