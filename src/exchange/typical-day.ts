/** A make on an ordinary day: how long it takes with so much of the milk it asks for, before anybody has planned it. */
import { simulate } from '../forecast/simulate.ts';
import type { DayLength } from '../make/choosing.ts';
import type { Make, Treatment } from '../make/make.ts';
import { planMake } from '../make/planning.ts';
import { dayLength } from './schedule.ts';

/** A day and the litres it is of. */
export interface DayOf extends DayLength {
  readonly milkL: number;
}

const LITRES = [5, 25] as const; // our own choice: a small pot, and a boiler
const MEMBERS = 24; // our own choice: enough for a whole quarter of an hour
const ROUND_MIN = 5;

/**
 * How long the day of a make is with five and with twenty-five litres of the milk it asks for, from its forecast, in steps of
 * five minutes.
 * @returns nothing for a size at which its curd is not seen to get ready
 */
export function typicalDays(make: Make): DayOf[] {
  const treatment: Treatment = make.milk.treatments.includes('pasteurised') ? 'pasteurised' : (make.milk.treatments[0] ?? 'pasteurised'); // prettier-ignore
  return LITRES.flatMap((milkL) => {
    const plan = planMake({ make, answers: { milk: { volumeL: milkL, treatment } } });
    const day = dayLength({ plan, forecast: simulate({ plan, members: MEMBERS }) });
    return day === null ? [] : [{ milkL, likelyMin: rounded(day.likelyMin), keptMin: rounded(day.keptMin) }];
  });
}

/**
 * The day with another amount of milk: heating takes as much longer as there is more of it, so in between it is a straight
 * line; beyond the ends it is as long as there, because a larger vat has a larger burner.
 * @param input.days in the order of their litres
 * @returns null where no day is known
 */
export function dayWith(input: { readonly days: readonly DayOf[]; readonly milkL: number }): DayLength | null {
  const { days, milkL } = input;
  const [first] = days;
  const last = days.at(-1);
  if (first === undefined || last === undefined) return null;
  const above = days.findIndex((day) => day.milkL >= milkL);
  const high = above === -1 ? last : (days[above] ?? last);
  const low = above > 0 ? (days[above - 1] ?? high) : high;
  const share = high.milkL > low.milkL ? (milkL - low.milkL) / (high.milkL - low.milkL) : 0;
  const between = (a: number, b: number): number => rounded(a + (b - a) * share);
  return { likelyMin: between(low.likelyMin, high.likelyMin), keptMin: between(low.keptMin, high.keptMin) };
}

const rounded = (minutes: number): number => Math.round(minutes / ROUND_MIN) * ROUND_MIN;
