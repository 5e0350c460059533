import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CAUTION_CODES, cautionsFor, isHeld, type Situation } from './cautions.ts';
import type { Finding } from './finding.ts';

const codes = (situation: Situation): string[] => cautionsFor(situation).map(({ code }) => code);
const one = (code: string, situation: Situation): Finding | undefined =>
  cautionsFor(situation).find((finding) => finding.code === code);

/** A make like those of most days: bought milk, kitchen pot, no meter, on time, eaten fresh. */
const typical: Situation = {
  isForSale: false,
  isClass: false,
  hasChildren: false,
  nameNeedsPasteurised: true,
  needsRennetCurd: true,
  plannedAgeDays: 1,
  milkTreatment: 'pasteurised',
  volumeL: 12,
  addedCalciumGPerKg: 0.2,
  thermometerErrorC: null,
  potKg: null,
  waterC: 80,
  hotWaterL: 4,
  curdC: 57,
  isHandWorked: true,
  isWashWaterPotable: true,
  elapsedMin: 290,
  pH: null,
  isAcidSeen: true,
  forecastPH54P50Min: 250,
  forecastPH54P95Min: 380,
  milkC: 38,
  staphLogs: 3.6,
  warmCurdMin: 70,
  expectedFinalPH: 5.2,
  moisturePercent: 57,
  sinceFormingMin: 60,
  coreC: 20,
  chilledAfterMin: 240,
  useByDays: 5,
  brinePercent: 18,
  brineC: 11,
};

describe('a typical make without a meter', () => {
  it('ends with no stop and at most three cautions', () => {
    const findings = cautionsFor(typical);
    expect(isHeld(findings)).toBe(false);
    expect(
      findings
        .filter(({ severity }) => severity === 'caution')
        .map(({ code }) => code)
        .sort(),
    ).toEqual(['stretch-hands', 'thermometer-unchecked']);
  });

  it('hears of the growth count only as information while its acid is on time', () => {
    const waiting = { ...typical, isAcidSeen: false, elapsedMin: 240 };
    expect(one('acid-staph-3', waiting)?.severity).toBe('info');
    expect(one('acid-staph-2', { ...waiting, staphLogs: 2.4 })?.severity).toBe('info');
    expect(codes(waiting)).not.toContain('acid-slow');
  });

  it('has fewer still with a checked thermometer, and nothing at all to say about nothing', () => {
    expect(codes({ ...typical, thermometerErrorC: 0.3, thermometerCheckedMonthsAgo: 1 })).not.toContain(
      'thermometer-unchecked',
    );
    expect(cautionsFor({})).toEqual([]);
  });
});

describe('slow acid', () => {
  const late: Situation = { ...typical, isAcidSeen: false, elapsedMin: 400, staphLogs: 2.5 };

  it('is late by this culture’s own forecast, and the growth count then weighs more', () => {
    expect(one('acid-slow', late)?.severity).toBe('caution');
    expect(one('acid-staph-2', late)?.severity).toBe('caution');
    expect(one('acid-staph-3', { ...late, staphLogs: 3.1 })?.severity).toBe('stop');
    expect(codes({ ...late, pH: 5.2 })).not.toContain('acid-slow');
    expect(codes({ ...late, isAcidSeen: true })).not.toContain('acid-slow');
  });

  it('is late after eight hours whatever the forecast had hoped', () => {
    expect(codes({ ...late, forecastPH54P95Min: 900, elapsedMin: 485, pH: 5.8 })).toContain('acid-slow');
    expect(codes({ ...late, forecastPH54P95Min: 900, elapsedMin: 470, pH: 5.8 })).not.toContain('acid-slow');
    expect(codes({ ...typical, forecastPH54P50Min: 500 })).toContain('plan-slow-acid');
  });

  it('after a day is a stop where it was measured, and unmeasured is no milder than a caution', () => {
    expect(one('ph24', { ...late, elapsedMin: 1440, pH: 5.6 })?.severity).toBe('stop');
    expect(one('ph24', { ...late, elapsedMin: 1500, pH: null })?.severity).toBe('caution');
    expect(one('ph24', { ...late, elapsedMin: 1500, pH: 5.2 })).toBeUndefined();
    expect(one('ph24', { ...typical, elapsedMin: 1500 })).toBeUndefined();
  });
});

describe('raw milk', () => {
  const raw: Situation = { ...typical, milkTreatment: 'raw', milkWarmMin: 30, milkAgeH: 10, region: 'us' };

  it('in a fresh cheese is a caution at home and a stop for sale', () => {
    expect(one('raw-fresh', raw)?.severity).toBe('caution');
    expect(one('raw-fresh', { ...raw, isForSale: true })?.severity).toBe('stop');
    expect(one('raw-fresh', { ...raw, plannedAgeDays: 90 })).toBeUndefined();
    expect(one('raw-risk-groups', raw)?.severity).toBe('caution');
    expect(one('raw-risk-groups', typical)?.severity).toBe('info');
  });

  it('may not carry a name that the law keeps for pasteurised milk', () => {
    expect(one('raw-name-barred', raw)?.severity).toBe('stop');
    expect(one('raw-name-barred', { ...raw, region: 'eu' })).toBeUndefined();
  });

  it('of which nobody knows how it was kept counts against', () => {
    expect(codes(raw)).not.toContain('milk-stood-warm');
    const { milkWarmMin, ...unasked } = raw;
    expect(milkWarmMin).toBe(30);
    expect(codes(unasked)).toContain('milk-stood-warm');
    expect(one('milk-stood-warm', { ...raw, milkWarmMin: 300 })?.severity).toBe('stop');
    expect(codes({ ...raw, milkAgeH: 40, milkStoredC: 3 })).not.toContain('milk-old');
    expect(codes({ ...raw, milkAgeH: 40, milkStoredC: null })).toContain('milk-old');
  });

  it('stays raw when it is only warmed to 62 °C', () => {
    expect(codes({ ...raw, heatC: 62, heatHoldSeconds: 60 })).toContain('thermise-is-raw');
    expect(codes({ ...raw, heatC: 63, heatHoldSeconds: 1800, fatPercent: 3.6 })).not.toContain('thermise-is-raw');
    expect(one('past-plan', { ...raw, heatC: 63, heatHoldSeconds: 1200, isPasteuriseStep: true })?.severity).toBe(
      'stop',
    );
    expect(
      one('past-plan', { ...raw, heatC: 63, heatHoldSeconds: 1800, fatPercent: 12, isPasteuriseStep: true }),
    ).toBeDefined();
  });
});

describe('the rules', () => {
  // Each case: a code, a situation that calls it, and one that only just does not.
  const edges: readonly (readonly [string, Situation, Situation])[] = [
    [
      'milk-no-curd',
      { milkTreatment: 'uht', needsRennetCurd: true },
      { milkTreatment: 'high-heat', needsRennetCurd: true },
    ],
    ['hot-lift', { volumeL: 14, potKg: 2 }, { volumeL: 12, potKg: 3 }],
    ['hot-lift', { hotWaterL: 11, waterC: 80, potKg: 1 }, { hotWaterL: 10, waterC: 80, potKg: 1 }],
    ['hot-water-people', { hasChildren: true, waterC: 60 }, { hasChildren: true, waterC: 59 }],
    ['calcium-max', { addedCalciumGPerKg: 0.25 }, { addedCalciumGPerKg: 0.2 }],
    ['thermometer-unchecked', { volumeL: 5, thermometerErrorC: -1.2 }, { volumeL: 5, thermometerErrorC: -1 }],
    ['stretch-hands', { isHandWorked: true, curdC: 50 }, { isHandWorked: true, curdC: 49 }],
    ['stretch-zone', { warmCurdMin: 241 }, { warmCurdMin: 240 }],
    ['chilled-late', { sinceFormingMin: 360, coreC: 6 }, { sinceFormingMin: 360, coreC: 5 }],
    ['chilled-late', { chilledAfterMin: 361 }, { chilledAfterMin: 360 }],
    ['date-7', { useByDays: 7, moisturePercent: 57 }, { useByDays: 6, moisturePercent: 57 }],
    ['date-7', { useByDays: 7, moisturePercent: null }, { useByDays: 7, moisturePercent: 48 }],
    ['out-2', { outMin: 120 }, { outMin: 119 }],
    ['out-4', { outMin: 240 }, { outMin: 239 }],
    ['fridge-warm', { storedC: 7.1 }, { storedC: 7 }],
    ['fridge-warm', { storedC: 6, storedWarmMin: 121 }, { storedC: 6, storedWarmMin: 60 }],
    ['brine-warm-weak', { brinePercent: 9, brineC: 11 }, { brinePercent: 9, brineC: 8 }],
    ['brine-age', { brinePercent: 18, brineUses: 21 }, { brinePercent: 18, brineUses: 20 }],
    ['label-claim', { labelText: 'Safe for all' }, { labelText: 'Soft stretched cheese' }],
    [
      'label-claim',
      { labelText: 'Made with pasteurised milk', milkTreatment: 'raw' },
      { labelText: 'Made with pasteurised milk', milkTreatment: 'pasteurised' },
    ],
    [
      'lot-missing',
      { isLabelling: true, isForSale: true, lotCode: ' ' },
      { isLabelling: true, isForSale: true, lotCode: '250601-1', milkLots: 1 },
    ],
    ['lot-missing', { isLabelling: true, isForSale: true }, { isLabelling: true, isForSale: false }],
    [
      'allergen-missing',
      { isLabelling: true, isForSale: true, isAllergenAnswered: null },
      { isLabelling: true, isForSale: true, isAllergenAnswered: true },
    ],
    ['acid-dead', { elapsedMin: 200, pH: 6.2, pHDropIn2H: 0.05 }, { elapsedMin: 200, pH: 6.2, pHDropIn2H: 0.2 }],
    ['hot-curdling', { heatedC: 75 }, { heatedC: 74 }],
    ['boil-over', { isBoiledDown: true }, { isBoiledDown: false }],
    ['heat-acid-fresh', { isHeatCurdled: true, isStarterFree: true }, { isHeatCurdled: true, isStarterFree: false }],
    ['room-acid', { isRoomSet: true }, { isRoomSet: false }],
    ['aged-raw', { milkTreatment: 'raw', plannedAgeDays: 60 }, { milkTreatment: 'raw', plannedAgeDays: 59 }],
    ['soft-ripened', { isSurfaceRipened: true, moisturePercent: 52 }, { isSurfaceRipened: true, moisturePercent: 36 }],
    ['acid-handling', { acidKind: 'lactic' }, { acidKind: 'vinegar' }],
    ['acid-handling', { acidKind: 'citric' }, { acidKind: 'lemon' }],
    ['rind-stray', { isOpenRind: true, plannedAgeDays: 5 }, { isOpenRind: true, plannedAgeDays: 4 }],
    ['plan-slow-acid', { forecastPH54P50Min: 500 }, { forecastPH54P50Min: 500, isSlowByKind: true }],
    ['hands-sick', { isMakerSick: true }, { isMakerSick: false }],
    ['wash-water', { isWashWaterPotable: false }, { isWashWaterPotable: true }],
    ['bulge-gas', { isPackSwollen: true }, { isPackSwollen: false }],
    ['class-no-tasting', { isClass: true, milkTreatment: 'raw' }, { isClass: true, milkTreatment: 'pasteurised' }],
    ['no-starter-fresh', { isStarterFree: true, expectedFinalPH: 5.8 }, { isStarterFree: false, expectedFinalPH: 5.8 }],
    [
      'plan-vacuum',
      { isAirtightPacked: true, useByDays: 20, storedC: 4, expectedFinalPH: 5.3, saltInMoisturePercent: 2 },
      { isAirtightPacked: true, useByDays: 20, storedC: 4, expectedFinalPH: 5.3, saltInMoisturePercent: 4 },
    ],
  ];

  it.each(edges)('%s speaks at its limit and not before', (code, called, notCalled) => {
    expect(codes(called)).toContain(code);
    expect(codes(notCalled)).not.toContain(code);
  });

  it('are each called by some test here', () => {
    const elsewhere = [
      'raw-name-barred',
      'raw-fresh',
      'raw-risk-groups',
      'milk-stood-warm',
      'milk-old',
      'past-plan',
      'thermise-is-raw',
      'plan-slow-acid',
      'acid-slow',
      'acid-staph-3',
      'acid-staph-2',
      'ph24',
    ];
    expect([...new Set([...edges.map(([code]) => code), ...elsewhere])].sort()).toEqual([...CAUTION_CODES].sort());
  });

  it('stop a lift only where one person says to lift it alone, and calcium only where it is sold in the US', () => {
    expect(one('hot-lift', { volumeL: 22, potKg: 4 })?.severity).toBe('caution');
    expect(one('hot-lift', { volumeL: 22, potKg: 4, isLiftedAlone: true })?.severity).toBe('stop');
    expect(one('calcium-max', { addedCalciumGPerKg: 0.25, isForSale: true, region: 'us' })?.severity).toBe('stop');
    expect(one('calcium-max', { addedCalciumGPerKg: 0.25 })?.fields['percentOfLegalMaximum']).toBeCloseTo(125, 9);
    expect(one('date-7', { useByDays: 9, isFoodService: true })?.severity).toBe('stop');
  });

  it('give burn times rounded down, never up', () => {
    const hands = one('stretch-hands', { isHandWorked: true, curdC: 57 });
    expect(hands?.fields).toEqual({ hotC: 57, secondsToBlister: 8, secondsToDeepBurn: 10 });
    // What the sentence says of a child holds from 60 °C up.
    expect(one('hot-water-people', { hasChildren: true, waterC: 60 })?.fields['secondsForChild']).toBe(0.7);
  });

  it('put stops first, and never say a code twice', () => {
    fc.assert(
      fc.property(
        fc.record({
          milkTreatment: fc.constantFrom('raw' as const, 'pasteurised' as const, 'uht' as const, null),
          isForSale: fc.option(fc.boolean()),
          volumeL: fc.option(fc.double({ min: 1, max: 60, noNaN: true })),
          waterC: fc.option(fc.double({ min: 20, max: 110, noNaN: true })),
          curdC: fc.option(fc.double({ min: 20, max: 70, noNaN: true })),
          isHandWorked: fc.option(fc.boolean()),
          hasChildren: fc.option(fc.boolean()),
          elapsedMin: fc.option(fc.double({ min: 0, max: 2000, noNaN: true })),
          pH: fc.option(fc.double({ min: 4.6, max: 6.7, noNaN: true })),
          staphLogs: fc.option(fc.double({ min: 0, max: 9, noNaN: true })),
          useByDays: fc.option(fc.integer({ min: 0, max: 40 })),
          brinePercent: fc.option(fc.double({ min: 1, max: 26, noNaN: true })),
          isLabelling: fc.option(fc.boolean()),
          labelText: fc.option(fc.constantFrom('', 'safe', 'pasteurised')),
        }),
        (situation) => {
          const findings = cautionsFor(situation);
          const order = { stop: 0, caution: 1, info: 2 };
          const severities = findings.map(({ severity }) => order[severity]);
          expect(severities).toEqual([...severities].sort((a, b) => a - b));
          expect(new Set(findings.map(({ code }) => code)).size).toBe(findings.length);
          // No sentence may have an empty place, whatever is unknown.
          for (const finding of findings) {
            expect(Object.values(finding.fields)).not.toContain('?');
            for (const value of Object.values(finding.fields)) expect(value).not.toBeNaN();
          }
        },
      ),
      { seed: 20261125, numRuns: 600 },
    );
  });
});
