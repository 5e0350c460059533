/**
 * How moist the air of a box is, from what can be seen: how far its lid stands open, a towel in it, drops under its lid. A
 * hygrometer in a closed box is often wrong by more than this; the words are a place's first-class reading.
 */
import { saturationPressurePa } from './properties.ts';

export type BoxLid = 'shut' | 'finger' | 'hand' | 'open';
export type BoxTowel = 'none' | 'dry' | 'damp';
export type BoxDroplets = 'none' | 'mist' | 'drops' | 'pool';

export interface BoxSeen {
  readonly lid?: BoxLid | null;
  readonly towel?: BoxTowel | null;
  readonly droplets?: BoxDroplets | null;
  /** Inside the box [°C]; 8 where nobody read it. */
  readonly temperatureC?: number | null;
}

/** The likely relative humidity [%], and what of the seen decided it. */
export interface LikelyHumidity {
  readonly low: number;
  readonly high: number;
  readonly because: 'drops' | 'lid-and-towel' | 'nothing-seen';
}

const USUAL_C = 8; // common practice (no source): the warm shelf of a household fridge
const LID_COLDER_K = { mist: 0.5, drops: 1 } as const; // our own choice: a fridge's air swings by 1 to 2 K, and the lid follows it before the cheese does
const STILL_DRY_K = 1.5; // our own choice: without any drop in a whole swing the dew point lies further below

/** Range by lid and towel before anything else is seen, percent: common practice (no source); a fridge's own air is 30 to 60. */
const BY_LID: Readonly<Record<BoxLid, { readonly low: number; readonly high: number }>> = {
  shut: { low: 90, high: 99 },
  finger: { low: 82, high: 94 },
  hand: { low: 70, high: 86 },
  open: { low: 35, high: 70 },
};
const BY_TOWEL: Readonly<Record<BoxTowel, number>> = { none: 0, dry: -5, damp: 4 }; // percentage points, common practice (no source)
const MOST = 99; // percent; our own choice: air at its dew point needs drops to show it

/** The humidity at which a surface so much colder is just wet: p_s(T - d) / p_s(T), percent (kernel). */
export const dewHumidityKernel = (input: { readonly temperatureC: number; readonly colderK: number }): number =>
  (100 * saturationPressurePa(Math.max(0, input.temperatureC - input.colderK))) /
  saturationPressurePa(input.temperatureC);

/**
 * The likely humidity of the air in a box.
 *
 * Lid and towel give a range by custom. Drops under the lid say that the air is moister than p_s(T - d) / p_s(T), d the cold of
 * the lid; their absence says that it is drier than that for a larger d.
 *
 * @param input what was seen; all may be left out
 * @returns low and high [%], 9 times in 10, and what decided
 * Valid: a box of plastic or glass in a fridge or a cool room, 1 to 25 °C. Uncertainty: the returned range; the customs have no
 * source, the swing of the fridge is our own choice.
 * @source vapour pressure of water (as `saturationPressurePa`); lid and towel: common practice (no source)
 */
export function boxHumidity(input: BoxSeen): LikelyHumidity {
  const { lid = null, towel = null, droplets = null } = input;
  const temperatureC = Math.min(25, Math.max(1, input.temperatureC ?? USUAL_C));
  const custom = lid === null ? { low: 60, high: MOST } : BY_LID[lid];
  const shift = towel === null ? 0 : BY_TOWEL[towel];
  const base = { low: custom.low + shift, high: Math.min(MOST, custom.high + shift) };
  const dew = (colderK: number): number => dewHumidityKernel({ temperatureC, colderK });
  switch (droplets) {
    case 'pool':
    case 'drops':
      return { low: Math.max(base.low, dew(LID_COLDER_K.drops)), high: 100, because: 'drops' };
    case 'mist':
      return { low: Math.max(Math.min(base.low, 92), dew(2 * LID_COLDER_K.drops)), high: Math.min(98, dew(LID_COLDER_K.mist) + 1), because: 'drops' }; // prettier-ignore
    case 'none': {
      const high = Math.min(base.high, dew(STILL_DRY_K) + 3);
      return { low: Math.min(base.low, high - 5), high, because: 'drops' };
    }
    case null:
      return { ...base, because: lid === null && towel === null ? 'nothing-seen' : 'lid-and-towel' };
  }
}

/** One change to the box, the gentlest first. */
export type BoxAdvice = 'as-it-is' | 'wipe-and-open' | 'open-a-finger' | 'dry-towel' | 'damp-towel' | 'close-more';

/**
 * What to do with a box for the humidity a cheese wants.
 * @param input.wanted  low and high [%]
 * @returns one change; look again the next day
 * @source common practice (no source)
 */
export function boxAdvice(input: {
  readonly likely: LikelyHumidity;
  readonly seen: BoxSeen;
  readonly wanted: { readonly low: number; readonly high: number };
}): BoxAdvice {
  const { likely, seen, wanted } = input;
  if (seen.droplets === 'pool') return 'wipe-and-open';
  const middle = (likely.low + likely.high) / 2;
  if (middle > wanted.high || (seen.droplets === 'drops' && wanted.high < 95)) return seen.lid === 'shut' ? 'open-a-finger' : 'dry-towel'; // prettier-ignore
  if (middle < wanted.low) return seen.lid === 'shut' || seen.lid === 'finger' ? 'damp-towel' : 'close-more';
  return 'as-it-is';
}
