import type { DayKit, Hold } from './day.ts';
import type { Resource } from './rules.ts';

/** What is held, before anybody says which of them it is. */
export type Want = Omit<Hold, 'unit'>;

/**
 * Says which burner, which kettle, whose hands: each want takes the one that its pot had last, else the first that is free.
 * As many are enough as are ever wanted at once (the wants are intervals, taken in the order of their start).
 */
export function withUnits(wants: readonly Want[], kit: DayKit): Hold[] {
  const until = new Map<Resource, number[]>();
  const lastOf = new Map<string, number>();
  return [...wants]
    .sort((a, b) => a.fromMin - b.fromMin || a.toMin - b.toMin)
    .map((want) => {
      const key = `${want.resource} ${want.potId}`;
      const free = until.get(want.resource) ?? [];
      const isFree = (unit: number | undefined): unit is number =>
        unit !== undefined && (free[unit] ?? Number.NEGATIVE_INFINITY) <= want.fromMin && isThere({ unit, want, kit });
      let unit = lastOf.get(key);
      if (!isFree(unit)) {
        // Who comes for a while is asked first: those who stay are wanted for what reaches beyond.
        const visitor = want.resource === 'hands' && kit.more !== undefined ? kit.hands : 0;
        const order = [...Array(MOST_UNITS - visitor).keys()]
          .map((nth) => nth + visitor)
          .concat([...Array(visitor).keys()]);
        unit =
          order.find((one) => (visitor === 0 || one < kit.hands + (kit.more?.hands ?? 0)) && isFree(one)) ?? MOST_UNITS;
      }
      free[unit] = want.toMin;
      until.set(want.resource, free);
      lastOf.set(key, unit);
      return { ...want, unit };
    });
}

const MOST_UNITS = 64; // no kitchen has more of anything: own choice, so that a search ends

/** Hands that come for a while can only take what begins and ends while they are there. */
function isThere(input: { readonly unit: number; readonly want: Want; readonly kit: DayKit }): boolean {
  const { unit, want, kit } = input;
  const { more } = kit;
  if (want.resource !== 'hands' || more === undefined || unit < kit.hands) return true;
  return want.fromMin >= more.fromMin && want.toMin <= more.toMin;
}
