/** Rules of caution that only some families of cheese call for: hot milk and whey, boiling, acid, room warmth, age, rinds. */
import { type CautionRule, isRaw, PRACTICE } from './caution-rule.ts';

export const FAMILY_RULES: readonly CautionRule[] = [
  {
    code: 'hot-curdling',
    severity: 'caution',
    when: [{ fact: 'heatedC', atLeast: 75 }],
    fields: ['heatedC'],
    source: `Moritz & Henriques (1947), seen at second hand; ${PRACTICE}`,
  },
  {
    code: 'boil-over',
    severity: 'caution',
    when: [{ fact: 'isBoiledDown', is: true }],
    fields: [],
    source: PRACTICE,
  },
  {
    code: 'heat-acid-fresh',
    severity: 'caution',
    when: [
      { fact: 'isHeatCurdled', is: true },
      { fact: 'isStarterFree', is: true },
    ],
    fields: [],
    source: 'FSANZ cooling rule: to 21 °C in 2 hours, to 5 °C in 4 more; US Food Code 3-501.17: 7 days at 5 °C',
  },
  {
    code: 'room-acid',
    severity: 'caution',
    when: [{ fact: 'isRoomSet', is: true }],
    fields: [],
    source: 'Zehren & Zehren (1968) J. Dairy Sci.: 56 of 143 slow vats toxic, 0 of 230 normal; a day: our own choice',
  },
  {
    code: 'aged-raw',
    severity: 'caution',
    when: [isRaw, { fact: 'plannedAgeDays', atLeast: 60 }],
    fields: ['plannedAgeDays'],
    source: '21 CFR 133.182, 133.187; 7 CFR 58.439: 60 days at 35 °F (1.7 °C) or warmer',
  },
  {
    code: 'soft-ripened',
    severity: 'caution',
    when: [
      { fact: 'isSurfaceRipened', is: true },
      { fact: 'moisturePercent', atLeast: 39, orUnknown: true },
    ],
    fields: [],
    source: 'CDC advice to consumers on Listeria; UK trade code of practice 5.3 on advice in pregnancy',
  },
  ...(
    [
      ['caution', 'lactic'],
      ['info', 'citric'],
    ] as const
  ).map(([severity, kind]): CautionRule => ({
    code: 'acid-handling',
    severity,
    when: [{ fact: 'acidKind', is: kind }],
    fields: [],
    source: PRACTICE,
  })),
  {
    code: 'rind-stray',
    severity: 'info',
    when: [
      { fact: 'isOpenRind', is: true },
      { fact: 'plannedAgeDays', atLeast: 5 },
    ],
    fields: [],
    source: PRACTICE,
  },
];
