/**
 * The legal time-and-temperature pairs for milk, as data, and whether a planned or measured hold meets one.
 * The law judges holds, not lethality sums; nothing here turns a short hold into a pass.
 */

export type PasteurisationRule = 'us' | 'eu';

export interface LegalPair {
  readonly temperatureC: number;
  readonly seconds: number;
}

/** 21 CFR 1240.61(b) and EU Reg. 853/2004 Annex III Sect. IX Ch. II: the two pairs both texts print, in the printed °C. */
const LEGAL_PAIRS: readonly LegalPair[] = [
  { temperatureC: 63, seconds: 30 * 60 }, // 145 °F, 30 min
  { temperatureC: 72, seconds: 15 }, // 161 °F, 15 s
];
const RICHER_MILK_RISE_C = 3; // 21 CFR 1240.61(b), footnote: +5 °F (3 °C); the EU prints none, added there too (our own choice)
const RICH_FAT_PERCENT = 10; // same footnote
const RICH_SOLIDS_PERCENT = 18; // same footnote as adopted by states, Texas 25 TAC 217.1

export const PASTEURISATION_SOURCE =
  '21 CFR 1240.61(b) and EU Reg. 853/2004 Annex III Section IX Chapter II (quoted texts seen)';

/** What the milk is, as far as its legal pair goes. */
export interface PasteurisedMilk {
  readonly fatPercent: number;
  readonly totalSolidsPercent?: number;
  readonly isSweetened?: boolean;
}

/**
 * The legal pairs for a milk: temperature to be held, at least, without a break, for a time.
 * @param milk.fatPercent fat [% of mass]; 10 or more raises every temperature by 3 °C, as do solids of 18 % or sweetening
 * @returns the pairs, longest hold first
 * Valid: milk and cream for cheese. Uncertainty: none; the thermometer's error is the caller's to subtract.
 * @source 21 CFR 1240.61(b) [seen]; EU Reg. 853/2004 Annex III Section IX Chapter II [seen as quoted]
 */
export function legalPairs(milk: PasteurisedMilk): readonly LegalPair[] {
  const isRich =
    milk.fatPercent >= RICH_FAT_PERCENT ||
    (milk.totalSolidsPercent ?? 0) >= RICH_SOLIDS_PERCENT ||
    milk.isSweetened === true;
  return LEGAL_PAIRS.map(({ temperatureC, seconds }) => ({
    temperatureC: temperatureC + (isRich ? RICHER_MILK_RISE_C : 0),
    seconds,
  }));
}

/**
 * Whether one hold meets a legal pair: as hot as the pair or hotter, for as long or longer.
 * @param input.temperatureC coldest reading of the hold, less the thermometer's error [°C]
 * @param input.holdSeconds unbroken time at or above it [s]
 * @param input.milk the milk
 * @returns true or false; a hold between the pairs is judged by the colder pair's time
 * Valid: any. Uncertainty: none.
 * @source as `legalPairs`
 */
export function meetsLegalPair(input: {
  readonly temperatureC: number;
  readonly holdSeconds: number;
  readonly milk: PasteurisedMilk;
}): boolean {
  return legalPairs(input.milk).some(
    ({ temperatureC, seconds }) => input.temperatureC >= temperatureC - 1e-9 && input.holdSeconds >= seconds - 1e-9,
  );
}
