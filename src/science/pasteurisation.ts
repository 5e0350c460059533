/**
 * The legal time-and-temperature pairs for milk, as data, and whether a planned hold meets one.
 * The law judges holds, not lethality sums; nothing here turns a short hold into a pass. Measured curves:
 * `pasteurisation-hold.ts`; sums: `pasteurisation-lethality.ts`.
 */

export type PasteurisationRule = 'us' | 'eu';

/** The scale the thermometer is read in: the US text prints both, and its Fahrenheit figures are a shade lower. */
export type ThermometerScale = 'C' | 'F';

export interface LegalPair {
  readonly temperatureC: number;
  readonly seconds: number;
}

interface PrintedPair {
  readonly printedC: number;
  readonly printedF: number;
  readonly seconds: number;
}

// The two pairs that both texts print: 21 CFR 1240.61(b) and EU Reg. 853/2004 Annex III Section IX Chapter II (as quoted, seen)
const SHARED_PAIRS: readonly PrintedPair[] = [
  { printedC: 63, printedF: 145, seconds: 30 * 60 },
  { printedC: 72, printedF: 161, seconds: 15 },
];
// Further rows of 21 CFR 1240.61(b), seen; the EU text prints none
const US_PAIRS: readonly PrintedPair[] = [
  ...SHARED_PAIRS,
  { printedC: 89, printedF: 191, seconds: 1 },
  { printedC: 90, printedF: 194, seconds: 0.5 },
  { printedC: 94, printedF: 201, seconds: 0.1 },
  { printedC: 96, printedF: 204, seconds: 0.05 },
  { printedC: 100, printedF: 212, seconds: 0.01 },
];
export const RICHER_MILK_RISE_C = 3; // 21 CFR 1240.61(b), footnote: +5 °F (3 °C), there on the first two rows; on every row in Michigan MCL 288.697: the higher is taken; the EU prints none, added there too (our own choice)
const RICHER_MILK_RISE_F = 5; // same
export const RICH_FAT_PERCENT = 10; // same footnote
export const RICH_SOLIDS_PERCENT = 18; // same footnote as adopted by states, Texas 25 TAC 217.1

export const PASTEURISATION_SOURCE =
  '21 CFR 1240.61(b) and EU Reg. 853/2004 Annex III Section IX Chapter II (quoted texts seen)';

/** What the milk is, as far as its legal pair goes. */
export interface PasteurisedMilk {
  readonly fatPercent: number;
  readonly totalSolidsPercent?: number;
  readonly isSweetened?: boolean;
}

/** Whether a milk is rich, sweetened or thick enough for the higher temperatures of the footnote. */
export const needsMoreHeat = (milk: PasteurisedMilk): boolean =>
  milk.fatPercent >= RICH_FAT_PERCENT ||
  (milk.totalSolidsPercent ?? 0) >= RICH_SOLIDS_PERCENT ||
  milk.isSweetened === true;

/**
 * The legal pairs for a milk: temperature to be held, at least, without a break, for a time.
 * @param milk.fatPercent fat [% of mass]; 10 or more raises every temperature by 3 °C, as do solids of 18 % or sweetening
 * @param milk.rule whose law; left out, the two pairs that both texts print
 * @param milk.scale scale of the thermometer; on a Fahrenheit one the US prints 145 and 161 °F (62.8 and 71.7 °C)
 * @returns the pairs, longest hold first
 * Valid: milk and cream for cheese. Uncertainty: none; the thermometer's error is the caller's to subtract.
 * @source 21 CFR 1240.61(b) [seen]; EU Reg. 853/2004 Annex III Section IX Chapter II [seen as quoted]
 */
export function legalPairs(
  milk: PasteurisedMilk & { readonly rule?: PasteurisationRule; readonly scale?: ThermometerScale },
): readonly LegalPair[] {
  const isRich = needsMoreHeat(milk);
  const isFahrenheit = milk.scale === 'F' && milk.rule !== 'eu';
  return (milk.rule === 'us' ? US_PAIRS : SHARED_PAIRS).map(({ printedC, printedF, seconds }) => ({
    temperatureC: isFahrenheit
      ? (printedF + (isRich ? RICHER_MILK_RISE_F : 0) - 32) / 1.8
      : printedC + (isRich ? RICHER_MILK_RISE_C : 0),
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
