/** Rules of caution for a plan: milk, name, heat, kit and people. */
import { type CautionRule, isMake, isRaw, isSold, PRACTICE } from './caution-rule.ts';

/** Before the burner is lit: milk, name, heat, kit, people. */
export const PLAN_RULES: readonly CautionRule[] = [
  {
    code: 'raw-name-barred',
    severity: 'stop',
    when: [isRaw, { fact: 'nameNeedsPasteurised', is: true }, { fact: 'region', is: 'us' }],
    fields: [],
    source: '21 CFR 133.155, 133.156, 133.160',
  },
  ...(['stop', 'caution'] as const).map((severity): CautionRule => ({
    code: 'raw-fresh',
    severity,
    when: [isRaw, { fact: 'plannedAgeDays', below: 60, orUnknown: true }, ...(severity === 'stop' ? [isSold] : [])],
    fields: [],
    source: '21 CFR 133.182, 133.187; US advice of 2005 against unripened raw-milk soft cheese',
  })),
  {
    code: 'raw-risk-groups',
    severity: 'caution',
    when: [isRaw],
    fields: [],
    source: 'CDC advice to consumers on Listeria',
  },
  {
    // Milder, and shown for soft cheese of pasteurised milk too.
    code: 'raw-risk-groups',
    severity: 'info',
    when: [{ fact: 'isSoft', is: true }],
    fields: [],
    source: 'UK trade code of practice 5.3 on advice in pregnancy; CDC advice to consumers on Listeria',
  },
  {
    code: 'class-no-tasting',
    severity: 'caution',
    when: [isRaw, { fact: 'isClass', is: true }],
    fields: [],
    source: PRACTICE,
  },
  {
    code: 'milk-no-curd',
    severity: 'stop',
    when: [
      { fact: 'milkTreatment', is: 'uht' },
      { fact: 'needsRennetCurd', is: true },
    ],
    fields: [],
    source: PRACTICE,
  },
  {
    code: 'milk-stood-warm',
    severity: 'stop',
    when: [isRaw, { fact: 'milkWarmMin', above: 240 }],
    fields: [],
    source: '7 CFR 58.439 (two hours above 7 °C); four hours: our own choice',
  },
  {
    code: 'milk-stood-warm',
    severity: 'caution',
    when: [{ fact: 'milkWarmMin', above: 120 }],
    fields: [],
    source: '7 CFR 58.439',
  },
  {
    code: 'milk-stood-warm',
    severity: 'caution',
    when: [isRaw, isMake, { fact: 'milkWarmMin', isUnknown: true }],
    fields: [],
    source: '7 CFR 58.439',
  },
  ...[
    { age: 48, stored: [] },
    { age: 36, stored: [{ fact: 'milkStoredC', above: 4, orUnknown: true } as const] },
  ].map(({ age, stored }): CautionRule => ({
    code: 'milk-old',
    severity: 'caution',
    when: [isRaw, { fact: 'milkAgeH', above: age }, ...stored],
    fields: ['milkAgeH'],
    source: 'UK SI 1995/1086 (revoked), hours for raw milk at 4 and 6 °C',
  })),
  {
    code: 'past-plan',
    severity: 'stop',
    when: [
      { fact: 'isPasteuriseStep', is: true },
      { fact: 'meetsLegalPair', isNot: true },
    ],
    fields: ['heatC', 'legalC', 'legalMinutes'],
    source: '21 CFR 1240.61(b); EU Reg. 853/2004 Annex III Section IX Chapter II',
  },
  {
    code: 'thermise-is-raw',
    severity: 'caution',
    when: [
      { fact: 'heatC', atLeast: 57 },
      { fact: 'heatC', below: 72 },
      { fact: 'isPasteuriseStep', isNot: true, orUnknown: true },
      { fact: 'meetsLegalPair', is: false },
    ],
    fields: ['heatC'],
    source: 'UK SI 1995/1086 Schedule 5 (revoked), thermised milk',
  },
  {
    code: 'no-starter-fresh',
    severity: 'caution',
    when: [
      { fact: 'isStarterFree', is: true },
      { fact: 'expectedFinalPH', above: 5.4, orUnknown: true },
      { fact: 'isHeatCurdled', isNot: true, orUnknown: true }, // which has its own
      { fact: 'moisturePercent', atLeast: 25, orUnknown: true }, // drier is a paste of milk sugar: our own choice
    ],
    fields: [],
    source: 'Genigeorgis et al. (1991) J. Food Prot.',
  },
  {
    code: 'plan-slow-acid',
    severity: 'caution',
    when: [
      { fact: 'forecastPH54P50Min', above: 480 },
      { fact: 'isSlowByKind', isNot: true, orUnknown: true },
    ],
    fields: ['medianHours'],
    source: `${PRACTICE}: pH 5.4 within 6 to 8 hours of the culture`,
  },
  {
    code: 'plan-vacuum',
    severity: 'stop',
    when: [
      { fact: 'isAirtightPacked', is: true },
      { fact: 'useByDays', above: 10, orUnknown: true },
      { fact: 'storedC', above: 3, orUnknown: true },
      { fact: 'expectedFinalPH', above: 5.0, orUnknown: true },
      { fact: 'saltInMoisturePercent', below: 3.5, orUnknown: true },
    ],
    fields: [],
    source: 'UK Food Standards Agency fact sheet on vacuum packing (10 days at 3 to 8 °C)',
  },
  {
    code: 'hot-lift',
    severity: 'stop',
    when: [
      { fact: 'massKg', above: 23 },
      { fact: 'isLiftedAlone', is: true },
    ],
    fields: ['massKg'],
    source: 'NIOSH lifting equation, load constant 23 kg',
  },
  {
    code: 'hot-lift',
    severity: 'caution',
    when: [{ fact: 'massKg', above: 16 }],
    fields: ['massKg'],
    source: 'UK manual handling filter, 16 kg (from memory); NIOSH lifting equation, 23 kg',
    isUnconfirmed: true,
  },
  {
    code: 'hot-lift',
    severity: 'caution',
    when: [
      { fact: 'hotWaterL', above: 10 },
      { fact: 'waterC', above: 60 },
    ],
    fields: ['massKg'],
    source: `${PRACTICE}: never carry more than 10 L above 60 °C by hand`,
  },
  {
    code: 'hot-water-people',
    severity: 'caution',
    when: [
      { fact: 'hasChildren', is: true },
      { fact: 'waterC', atLeast: 60 },
    ],
    fields: ['waterC', 'secondsForChild'],
    source: `Moritz & Henriques (1947), seen at second hand; a quarter of the time for children: ${PRACTICE}`,
  },
  ...(['stop', 'caution'] as const).map((severity): CautionRule => ({
    code: 'calcium-max',
    severity,
    when: [
      { fact: 'percentOfLegalMaximum', above: 100.5 }, // half a percent for rounding of the dose, our own choice
      ...(severity === 'stop' ? [isSold, { fact: 'region', is: 'us' } as const] : []),
    ],
    fields: ['percentOfLegalMaximum'],
    source: '21 CFR 133.182(b), 0.2 g anhydrous CaCl2 per kg milk',
  })),
  ...(
    [
      { fact: 'thermometerErrorC', isUnknown: true },
      { fact: 'thermometerOffC', above: 1 },
      { fact: 'thermometerCheckedMonthsAgo', above: 6 },
    ] as const
  ).map((trouble): CautionRule => ({
    code: 'thermometer-unchecked',
    severity: 'caution',
    when: [isMake, trouble],
    fields: [],
    source: `Canadian dairy inspection manual, chapter 18 (every 6 months); an error of 1 °C assumed: ${PRACTICE}`,
  })),
];
