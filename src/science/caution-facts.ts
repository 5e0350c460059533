/**
 * What a caution can be about: the situation as the maker's record or plan has it, and the plain facts drawn from it.
 * Law and trade figures are in `caution-rules-*.ts`; nothing is judged here.
 */
import { legalPairs, meetsLegalPair } from './pasteurisation.ts';
import { scaldTimes } from './scald.ts';
import { staphRateKernel } from './staph.ts';

/**
 * A situation to be looked at. Every field is optional: what is left out was not asked at this moment, `null` means that it
 * was asked and nobody knows. Unknown never makes a verdict milder.
 */
export interface Situation {
  // Who and where
  readonly region?: 'us' | 'eu' | 'uk' | 'au' | 'nz' | 'ca' | 'other' | null;
  readonly isForSale?: boolean | null;
  readonly isFoodService?: boolean | null;
  readonly isClass?: boolean | null;
  readonly hasChildren?: boolean | null;
  readonly isMakerSick?: boolean | null;
  // The make
  /** The name (by law of the region) may only be given to cheese of pasteurised milk. */
  readonly nameNeedsPasteurised?: boolean | null;
  readonly needsRennetCurd?: boolean | null;
  readonly isStarterFree?: boolean | null;
  readonly plannedAgeDays?: number | null;
  /** Hottest that milk or whey in the pot is made [°C]. */
  readonly heatedC?: number | null;
  readonly isBoiledDown?: boolean | null;
  /** Curdled by heat and acid. */
  readonly isHeatCurdled?: boolean | null;
  /** The milk sours and sets standing at the warmth of a room. */
  readonly isRoomSet?: boolean | null;
  /** Souring through the night belongs to it: set at room warmth, or cooked hot. */
  readonly isSlowByKind?: boolean | null;
  readonly isSurfaceRipened?: boolean | null;
  /** It ages with its rind to the air. */
  readonly isOpenRind?: boolean | null;
  readonly acidKind?: 'citric' | 'vinegar' | 'lemon' | 'lactic' | null;
  // Milk
  readonly milkTreatment?: 'raw' | 'pasteurised' | 'high-heat' | 'uht' | null;
  readonly volumeL?: number | null;
  readonly fatPercent?: number | null;
  readonly milkAgeH?: number | null;
  readonly milkStoredC?: number | null;
  /** Minutes that the milk stood above 7 °C between receipt (or heating) and setting. */
  readonly milkWarmMin?: number | null;
  readonly addedCalciumGPerKg?: number | null;
  /** A heating of the milk that is planned, and whether it is meant to be pasteurisation. */
  readonly heatC?: number | null;
  readonly heatHoldSeconds?: number | null;
  readonly isPasteuriseStep?: boolean | null;
  // Kit
  /** Error found at the last check in ice [°C]; null where it was never checked. */
  readonly thermometerErrorC?: number | null;
  readonly thermometerCheckedMonthsAgo?: number | null;
  /** The empty pot [kg]; left out, a usual pot is assumed. */
  readonly potKg?: number | null;
  readonly isLiftedAlone?: boolean | null;
  // Heat and hands
  /** Hottest water handled [°C], and how much of it is carried [L]. */
  readonly waterC?: number | null;
  readonly hotWaterL?: number | null;
  readonly curdC?: number | null;
  readonly isHandWorked?: boolean | null;
  readonly isWashWaterPotable?: boolean | null;
  // Acid
  /** Minutes since the culture went in. */
  readonly elapsedMin?: number | null;
  readonly pH?: number | null;
  /** Fall of the pH over the last two hours. */
  readonly pHDropIn2H?: number | null;
  /** What was seen without a meter has shown the curd to be acid: it stretched, or tasted so. */
  readonly isAcidSeen?: boolean | null;
  /** This culture's own forecast: minutes after the culture until pH 5.4, median and late end. */
  readonly forecastPH54P50Min?: number | null;
  readonly forecastPH54P95Min?: number | null;
  readonly milkC?: number | null;
  readonly staphLogs?: number | null;
  /** Minutes that curd above 10 °C and above pH 5.3 lay off the vat. */
  readonly warmCurdMin?: number | null;
  // Finished cheese
  readonly expectedFinalPH?: number | null;
  readonly moisturePercent?: number | null;
  readonly saltInMoisturePercent?: number | null;
  readonly coreC?: number | null;
  readonly sinceFormingMin?: number | null;
  /** Forecast: minutes from forming until the core is at 5 °C. */
  readonly chilledAfterMin?: number | null;
  /** Days from making to the use-by on the label; the day of making is 0. */
  readonly useByDays?: number | null;
  readonly isAirtightPacked?: boolean | null;
  readonly isPackSwollen?: boolean | null;
  readonly storedC?: number | null;
  readonly storedWarmMin?: number | null;
  /** Minutes between 5 and 60 °C, all outings together. */
  readonly outMin?: number | null;
  readonly isLabelling?: boolean | null;
  readonly labelText?: string | null;
  readonly lotCode?: string | null;
  readonly milkLots?: number | null;
  readonly isAllergenAnswered?: boolean | null;
  // Brine
  readonly brinePercent?: number | null;
  readonly brineC?: number | null;
  readonly brineUses?: number | null;
  readonly brineDays?: number | null;
}

/** Facts drawn from a situation, beside its own fields. */
export interface DrawnFacts {
  /** The heaviest filled pot: milk, or hot water, and the pot [kg]. */
  readonly massKg: number | null;
  readonly percentOfLegalMaximum: number | null;
  readonly meetsLegalPair: boolean | null;
  readonly legalC: number | null;
  readonly legalMinutes: number | null;
  /** The hotter of water and curd that hands go into [°C]. */
  readonly hotC: number | null;
  readonly secondsToBlister: number | null;
  readonly secondsToDeepBurn: number | null;
  readonly secondsForChild: number | null;
  readonly thermometerOffC: number | null;
  readonly elapsedHours: number | null;
  readonly lateEndHours: number | null;
  readonly medianHours: number | null;
  readonly isLateByForecast: boolean | null;
  readonly staphMinLeft: number | null;
  readonly isSoft: boolean | null;
  readonly outHours: number | null;
  readonly warmCurdHours: number | null;
  readonly chilledAfterHours: number | null;
  readonly forbiddenClaim: string | null;
  readonly lotText: string | null;
}

export type Facts = Omit<Situation, keyof DrawnFacts> & DrawnFacts;
export type FactName = keyof Facts;

const MILK_KG_PER_L = 1.03; // whole milk at 20 °C: CY 1.2, to two figures
const POT_KG_PER_L = 0.3; // kitchen pots 0.25 to 0.35 kg a litre, common practice (no source)
export const CALCIUM_LIMIT_G_PER_KG = 0.2; // anhydrous CaCl2: 21 CFR 133.182(b), 0.02 % of the milk [seen]
const TRADE_LATE_MIN = 8 * 60; // common practice (no source): pH 5.4 within 6 to 8 hours of the culture
const SOFT_MOISTURE_PERCENT = 50; // FDA programme manual 1999: semisoft cheese has less [seen]
const STAPH_CAUTION_LOGS = 2; // our own choice: 100 per mL, one step by concentration, two of growth reach 100,000 per g

const CLAIMS: readonly RegExp[] = [
  /\bsafe(?:ty)?\b/i,
  /\bpathogen[- ]?free\b/i,
  /\bfree (?:of|from) (?:pathogens|germs|bacteria|listeria)\b/i,
  /\b(?:germ|listeria|bacteria)[- ]free\b/i,
];
const PASTEURISED = /\bpasteuri[sz]ed\b/i;

const has = (value: number | null | undefined): value is number => typeof value === 'number' && Number.isFinite(value);
const hours = (minutes: number | null | undefined): number | null => (has(minutes) ? minutes / 60 : null);

/** Rounded down to one figure: 16.9 -> 10, 4.2 -> 4, 0.75 -> 0.7. Times of burns are never rounded up. */
function downToOneFigure(value: number): number {
  if (!(value > 0)) return 0;
  const size = 10 ** Math.floor(Math.log10(value));
  return Number((Math.floor(value / size + 1e-9) * size).toPrecision(1));
}

/** All facts of a situation: its own fields, and what follows from them by arithmetic. */
export function factsOf(situation: Situation): Facts {
  const { volumeL, potKg, addedCalciumGPerKg, heatC, heatHoldSeconds, elapsedMin, pH } = situation;
  const { forecastPH54P95Min, staphLogs, milkC, moisturePercent } = situation;
  const contentL = Math.max(volumeL ?? 0, situation.hotWaterL ?? 0);
  const milk = { fatPercent: situation.fatPercent ?? 0 };
  const pair = legalPairs(milk)[0];
  const hot = [situation.waterC, situation.curdC].filter(has);
  const hotC = hot.length === 0 ? null : Math.max(...hot);
  // Steam and slips of the pen burn no less than boiling water.
  const scald = hotC === null || hotC < 0 ? null : scaldTimes({ waterC: Math.min(hotC, 100) });
  const down = (seconds: number | null | undefined): number | null => (has(seconds) ? downToOneFigure(seconds) : null);
  const isNotAcid = has(pH) ? pH > 5.4 : situation.isAcidSeen !== true;
  const lateFrom =
    situation.isSlowByKind === true && has(forecastPH54P95Min)
      ? forecastPH54P95Min
      : Math.min(has(forecastPH54P95Min) ? forecastPH54P95Min : TRADE_LATE_MIN, TRADE_LATE_MIN);
  const staphPerMin = has(milkC) ? staphRateKernel(milkC) / (60 * Math.LN10) : 0;
  return {
    ...situation,
    massKg: contentL > 0 ? MILK_KG_PER_L * contentL + (potKg ?? POT_KG_PER_L * contentL) : null,
    percentOfLegalMaximum: has(addedCalciumGPerKg) ? (100 * addedCalciumGPerKg) / CALCIUM_LIMIT_G_PER_KG : null,
    meetsLegalPair: has(heatC)
      ? meetsLegalPair({ temperatureC: heatC, holdSeconds: heatHoldSeconds ?? 0, milk })
      : null,
    legalC: pair?.temperatureC ?? null,
    legalMinutes: pair === undefined ? null : pair.seconds / 60,
    hotC,
    secondsToBlister: down(scald?.secondsToBlister),
    secondsToDeepBurn: down(scald?.secondsToDeepBurn),
    secondsForChild: down(scald?.secondsToBlisterForChildren),
    thermometerOffC: has(situation.thermometerErrorC) ? Math.abs(situation.thermometerErrorC) : null,
    elapsedHours: hours(elapsedMin),
    lateEndHours: lateFrom / 60,
    medianHours: hours(situation.forecastPH54P50Min),
    isLateByForecast: has(elapsedMin) ? isNotAcid && elapsedMin > lateFrom : null,
    staphMinLeft:
      has(staphLogs) && staphPerMin > 0 ? Math.max(0, (STAPH_CAUTION_LOGS - staphLogs) / staphPerMin) : null,
    isSoft: has(moisturePercent) ? moisturePercent >= SOFT_MOISTURE_PERCENT : null,
    outHours: hours(situation.outMin),
    warmCurdHours: hours(situation.warmCurdMin),
    chilledAfterHours: hours(situation.chilledAfterMin),
    forbiddenClaim: forbiddenClaim(situation),
    lotText: situation.lotCode?.trim() === '' ? null : (situation.lotCode ?? null),
  };
}

/** The first word on a label that is not the maker's to say; "pasteurised" stands where the milk was bought so. */
function forbiddenClaim({ labelText, milkTreatment, isPasteuriseStep }: Situation): string | null {
  if (labelText === undefined || labelText === null) return null;
  for (const claim of CLAIMS) {
    const found = claim.exec(labelText);
    if (found !== null) return found[0];
  }
  const isBoughtPasteurised =
    milkTreatment === 'pasteurised' || milkTreatment === 'high-heat' || milkTreatment === 'uht';
  const found = PASTEURISED.exec(labelText.replaceAll(/\bun-?pasteuri[sz]ed\b/gi, ''));
  return found === null || (isBoughtPasteurised && isPasteuriseStep !== true) ? null : found[0];
}
