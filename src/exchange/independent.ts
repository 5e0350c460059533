import type { History } from '../make/history.ts';

/**
 * Of one instrument's pH the forecast is told one value in so long, minutes. The forecast weighs each value as if its error were
 * its own; yet an electrode left in the vat repeats its offset, and the sums' own error of pH lasts for hours (it grows back over
 * some three of them, acidification notes 5.5 rule 2). Three times the pace of noting; our own choice, checked against nothing.
 */
export const PH_EVERY_MIN = 30;

/** A thermometer set right by the ice test names itself; what the hand reads stays as it is. */
const BY_HAND = 'thermometer';

/**
 * What the forecast is told of readings in time order: everything but the crowd of pH values that one instrument gives of one
 * thing. Its first stays, then one in every half hour, and always its newest, which says where the vat is now.
 */
export function independent(readings: History['readings']): History['readings'] {
  const keyOf = (reading: History['readings'][number]): string | null => {
    const { quantity, instrumentId, sample } = reading;
    return quantity !== 'pH' || instrumentId === undefined || instrumentId.startsWith(BY_HAND) ? null : `${sample} ${instrumentId}`; // prettier-ignore
  };
  const newest = new Map(readings.map((reading) => [keyOf(reading), reading]));
  const keptMin = new Map<string, number>();
  return readings.filter((reading) => {
    const key = keyOf(reading);
    if (key === null) return true;
    const isDue = reading.elapsedMin - (keptMin.get(key) ?? -Infinity) >= PH_EVERY_MIN;
    if (isDue) keptMin.set(key, reading.elapsedMin);
    return isDue || newest.get(key) === reading;
  });
}
