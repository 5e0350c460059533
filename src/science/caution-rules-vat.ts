/** Rules of caution at the vat and for the finished cheese: acid, hands, chilling, dating, brine, label. */
import { type CautionRule, isLabelled, isSold, PRACTICE } from './caution-rule.ts';

/** While milk and curd are in work. */
export const VAT_RULES: readonly CautionRule[] = [
  {
    code: 'hands-sick',
    severity: 'stop',
    when: [{ fact: 'isMakerSick', is: true }],
    fields: [],
    source: PRACTICE,
  },
  {
    code: 'wash-water',
    severity: 'caution',
    when: [{ fact: 'isWashWaterPotable', is: false }],
    fields: [],
    source: `Zehren & Zehren (1968) J. Dairy Sci.: the toxic vats were infected after pasteurising; ${PRACTICE}`,
  },
  {
    code: 'acid-slow',
    severity: 'caution',
    when: [{ fact: 'isLateByForecast', is: true }],
    fields: ['elapsedHours', 'lateEndHours'],
    source: `this culture's own forecast, and 6 to 8 hours: ${PRACTICE}`,
  },
  {
    code: 'acid-dead',
    severity: 'caution',
    when: [
      { fact: 'elapsedMin', above: 180 },
      { fact: 'pH', above: 5.4 },
      { fact: 'pHDropIn2H', below: 0.1 },
    ],
    fields: ['pHDropIn2H'],
    source: 'penicillin, phage or a dead culture as causes: J. Dairy Sci. abstracts; the 0.1 is our own choice',
  },
  ...(['stop', 'info'] as const).map((severity): CautionRule => ({
    code: 'acid-staph-3',
    severity,
    when: [
      { fact: 'staphLogs', atLeast: 3 },
      { fact: 'pH', above: 5.4, orUnknown: true },
      { fact: 'isAcidSeen', isNot: true, orUnknown: true },
      ...(severity === 'stop' ? [{ fact: 'isLateByForecast', is: true } as const] : []),
    ],
    fields: ['staphLogs'],
    source:
      'Fujikawa & Morozumi (2006); Medveďová et al. (2019); Zehren & Zehren (1968): 56 of 143 slow vats toxic, 0 of 230 normal',
  })),
  ...(['caution', 'info'] as const).map((severity): CautionRule => ({
    code: 'acid-staph-2',
    severity,
    when: [
      { fact: 'staphLogs', atLeast: 2 },
      { fact: 'staphLogs', below: 3 },
      { fact: 'pH', above: 5.4, orUnknown: true },
      { fact: 'isAcidSeen', isNot: true, orUnknown: true },
      ...(severity === 'caution' ? [{ fact: 'isLateByForecast', is: true } as const] : []),
    ],
    fields: ['staphLogs'],
    source:
      'Fujikawa & Morozumi (2006); Medveďová et al. (2019); Zehren & Zehren (1968): 56 of 143 slow vats toxic, 0 of 230 normal',
  })),
  {
    code: 'ph24',
    severity: 'stop',
    when: [
      { fact: 'elapsedMin', atLeast: 1440 },
      { fact: 'pH', above: 5.3 },
    ],
    fields: ['elapsedHours'],
    source: `${PRACTICE}: pH 5.3 or less by 24 hours for every cheese with a starter`,
  },
  {
    code: 'ph24',
    severity: 'caution',
    when: [
      { fact: 'elapsedMin', atLeast: 1440 },
      { fact: 'pH', isUnknown: true },
      { fact: 'isAcidSeen', isNot: true, orUnknown: true },
    ],
    fields: ['elapsedHours'],
    source: `${PRACTICE}: pH 5.3 or less by 24 hours for every cheese with a starter`,
  },
  ...(
    [
      { fact: 'waterC', atLeast: 60 },
      { fact: 'curdC', atLeast: 50 },
    ] as const
  ).map((heat): CautionRule => ({
    code: 'stretch-hands',
    severity: 'caution',
    when: [{ fact: 'isHandWorked', is: true }, heat],
    fields: ['hotC', 'secondsToBlister', 'secondsToDeepBurn'],
    source: 'Moritz & Henriques (1947), seen at second hand; above 60 °C a standards discussion of 1997',
  })),
  {
    code: 'stretch-zone',
    severity: 'caution',
    when: [{ fact: 'warmCurdMin', above: 240 }],
    fields: ['warmCurdHours'],
    source: 'ICMSF 1996 limits of S. aureus, as quoted; four hours: our own choice',
  },
];

/** From the form to the label. */
export const FINISHED_RULES: readonly CautionRule[] = [
  {
    code: 'chilled-late',
    severity: 'caution',
    when: [
      { fact: 'sinceFormingMin', atLeast: 360 },
      { fact: 'coreC', above: 5, orUnknown: true },
    ],
    fields: [],
    source: 'FSANZ cooling rule: to 21 °C in 2 hours, to 5 °C in 4 more',
  },
  {
    code: 'chilled-late',
    severity: 'caution',
    when: [{ fact: 'chilledAfterMin', above: 360 }],
    fields: [],
    source: 'FSANZ cooling rule: to 21 °C in 2 hours, to 5 °C in 4 more',
  },
  ...(['stop', 'caution'] as const).map((severity): CautionRule => ({
    code: 'date-7',
    severity,
    when: [
      { fact: 'useByDays', above: 6 },
      { fact: 'moisturePercent', atLeast: 50, orUnknown: true },
      ...(severity === 'stop' ? [{ fact: 'isFoodService', is: true } as const] : []),
    ],
    fields: ['useByDays'],
    source: 'US Food Code 3-501.17 (Minn. R. 4626.0400): 7 days at 5 °C, day of making the first',
  })),
  {
    code: 'out-4',
    severity: 'stop',
    when: [{ fact: 'outMin', atLeast: 240 }],
    fields: ['outHours'],
    source: 'FSANZ 2-hour/4-hour rule',
  },
  {
    code: 'out-2',
    severity: 'caution',
    when: [
      { fact: 'outMin', atLeast: 120 },
      { fact: 'outMin', below: 240 },
    ],
    fields: ['outHours'],
    source: 'FSANZ 2-hour/4-hour rule',
  },
  ...(
    [
      [{ fact: 'storedC', above: 7 }],
      [
        { fact: 'storedC', above: 5 },
        { fact: 'storedWarmMin', above: 120 },
      ],
    ] as const
  ).map((when): CautionRule => ({
    code: 'fridge-warm',
    severity: 'caution',
    when: [...when],
    fields: ['storedC'],
    source: 'US Food Code 3-501.16: 5 °C; 7 °C and two hours: our own choice',
  })),
  {
    code: 'bulge-gas',
    severity: 'stop',
    when: [{ fact: 'isPackSwollen', is: true }],
    fields: [],
    source: PRACTICE,
  },
  {
    code: 'brine-warm-weak',
    severity: 'stop',
    when: [
      { fact: 'brinePercent', below: 10 },
      { fact: 'brineC', above: 10, orUnknown: true },
    ],
    fields: ['brinePercent'],
    source: 'growth limits of ICMSF 1996, as tabulated; our own derivation',
  },
  ...(
    [
      { fact: 'brineUses', above: 20 },
      { fact: 'brineDays', above: 30 },
      { fact: 'brinePercent', below: 15 },
    ] as const
  ).map((trouble): CautionRule => ({
    code: 'brine-age',
    severity: 'caution',
    when: [{ fact: 'brinePercent', atLeast: 10 }, trouble],
    fields: ['brinePercent'],
    source: `Larson, Johnson & Nelson (1999) J. Dairy Sci. 82:1860; numbers of uses and days: ${PRACTICE}`,
  })),
  {
    code: 'label-claim',
    severity: 'stop',
    when: [{ fact: 'forbiddenClaim', isKnown: true }],
    fields: ['forbiddenClaim'],
    source: '21 CFR 1240.61(b) for "pasteurised"; otherwise our own rule: no tool and no label can promise this',
  },
  {
    code: 'allergen-missing',
    severity: 'stop',
    when: [isLabelled, isSold, { fact: 'isAllergenAnswered', isNot: true, orUnknown: true }],
    fields: [],
    source: 'EU Reg. 1169/2011 Annex II point 7',
  },
  ...(
    [
      { fact: 'lotText', isUnknown: true },
      { fact: 'milkLots', above: 1 },
    ] as const
  ).map((trouble): CautionRule => ({
    code: 'lot-missing',
    severity: 'stop',
    when: [isLabelled, isSold, trouble],
    fields: [],
    source: 'US food traceability list: fresh soft cheese needs lot records',
  })),
];
