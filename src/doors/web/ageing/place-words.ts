/** A place in a line: what was read there, or what the box shows and what that likely means. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { PlaceRecord } from '../../../record/place-record.ts';
import { type BoxAdvice, boxAdvice, boxHumidity, type BoxSeen } from '../../../science/box-humidity.ts';

/** Whether its air is judged by eye: a box, or any place where somebody did so and read no meter. */
export const isJudged = (place: PlaceRecord): boolean =>
  place.humidityPercent === null && (place.told?.kind === 'box' || place.box !== null || place.droplets != null);

export const seenOf = (place: PlaceRecord): BoxSeen => ({ ...place.box, droplets: place.droplets ?? null, temperatureC: place.temperatureC }); // prettier-ignore

/** "12.0 °C, 84 %", or "lid a finger open, mist under it: likely 92 to 98 %". */
export function placeLine(input: { readonly place: PlaceRecord; readonly say: Say; readonly write: Writer }): string {
  const { place, say, write } = input;
  const { temperatureC, humidityPercent, box, droplets } = place;
  const warmth = temperatureC === null ? [] : [write.temperature(temperatureC).text];
  if (!isJudged(place)) {
    const moist = humidityPercent === null ? [] : [say('ageing:place.humidity', { percent: write.percent(humidityPercent).text })]; // prettier-ignore
    return [...warmth, ...moist].join(', ');
  }
  const { low, high } = boxHumidity(seenOf(place));
  const seen = [
    ...(box === null ? [] : [say(`ageing:lid.${box.lid}`), ...(box.towel === 'none' ? [] : [say(`ageing:towel.${box.towel}`)])]),
    ...(droplets == null ? [] : [say(`ageing:droplets.${droplets}`)]),
  ]; // prettier-ignore
  const likely = say('ageing:place.likely', { low: write.number(Math.floor(low), 0), high: write.percent(Math.ceil(high)).text }); // prettier-ignore
  return [...warmth, ...seen, likely].join(', ');
}

/** What to do with the box for the humidity that the cheeses in it want; null where it fits or nobody asks. */
export function placeAdvice(input: {
  readonly place: PlaceRecord;
  /** What the stays of its cheeses ask for, percent. */
  readonly wanted: readonly number[];
}): Exclude<BoxAdvice, 'as-it-is'> | null {
  const { place, wanted } = input;
  if (!isJudged(place) || wanted.length === 0) return null;
  const low = Math.min(...wanted) - WANTED_EITHER_WAY;
  const high = Math.max(...wanted) + WANTED_EITHER_WAY;
  const advice = boxAdvice({ likely: boxHumidity(seenOf(place)), seen: seenOf(place), wanted: { low, high } });
  return advice === 'as-it-is' ? null : advice;
}
const WANTED_EITHER_WAY = 4; // our own choice: nobody holds a box closer
