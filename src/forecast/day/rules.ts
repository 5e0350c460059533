import type { Step, Verb } from '../../make/step.ts';

/** What the day's plan goes by, as data: what steps want of the kit, how surely it is kept for them, what can wait. */

/** Starts are planned to five minutes: nobody lights a burner at 8:53. Our own choice. */
export const GRID_MIN = 5;

/**
 * Kit is kept from when 1 make in 5 comes early until 4 in 5 are through, so that most pots that run ahead or behind still
 * find their burner free; but never longer than this on either side of the likeliest time, or one slow culture would keep a
 * burner from all other pots for hours. Our own choice, with the
 * quantiles in `offsets.ts`; the day is over when 18 makes in 20 are, as on one make's own clock.
 */
export const KEPT_AT_MOST_MIN = 30;

/** Things of which there are only so many. Hands are people; burners, kettles and the rest stand in the kitchen. */
export const RESOURCES = ['hands', 'burner', 'kettle', 'bowl', 'press', 'bath', 'brine-tub', 'fridge'] as const;
export type Resource = (typeof RESOURCES)[number];

/** Which of them each word of a step's kit means; a pot, a form, a colander belong to the make itself. */
const OF_KIT: Readonly<Record<Step['kit'][number], Resource | null>> = {
  burner: 'burner',
  bowl: 'bowl',
  bath: 'bath',
  'brine-tub': 'brine-tub',
  fridge: 'fridge',
  pot: null,
  form: null,
  colander: null,
  'second-pot': null,
  press: 'press',
  cloth: null,
  box: null,
};

/** What a verb takes that its kit has no word for. */
const OF_VERB: Readonly<Partial<Record<Verb, Resource>>> = { press: 'press' };

/** The kit that a step keeps from its start to its end, each once. */
export function kitOf(step: { readonly verb: Verb; readonly kit: Step['kit'] }): readonly Resource[] {
  const own = OF_VERB[step.verb];
  const words = step.kit.flatMap((word) => OF_KIT[word] ?? []);
  return [...new Set(own === undefined ? words : [...words, own])];
}

/**
 * How long a make may stand before a step without harm, min: cut curd and settled curd lie under their whey, a set gel gets a little firmer,
 * cheese in cold water, in the press or on its shelf is in no hurry. All else goes on at once. Common practice (no source).
 */
const WAITS_BEFORE_MIN: Readonly<Partial<Record<Verb, number>>> = {
  cook: 15,
  cut: 5,
  drawWhey: 10,
  drain: 10,
  press: 10,
  brine: 30,
  dry: 30,
  store: 60,
};

/** How long the make may wait before a step, min; 0 where it may not. */
export const waitBeforeMin = (step: { readonly verb: Verb }): number => WAITS_BEFORE_MIN[step.verb] ?? 0;

/** Hot water may be ready so long before it is wanted, under its lid and some degrees hotter. Common practice (no source). */
export const WATER_STANDS_MIN = 15;
/** Hands for a preparation that only has to be laid out, measured or cleaned. Common practice (no source). */
export const LAY_OUT_MIN = 5;
/** Begun so long before, it is the work of the evening before, as on one make's own clock. Our own choice. */
export const EVENING_LEAD_MIN = 360;
/** What it takes to bring kept curd from the fridge back to where it can be worked, in warm water. Common practice (no source). */
export const REWARM_MIN = 20;
/** Curd kept cold: at least so long in the fridge to be cold, at most until it has gone too far. Common practice (no source). */
export const KEPT_COLD_MIN = { least: 60, most: 1440 } as const;

/** A kettle where nobody has said what it holds: common practice (no source), as sold for kitchens. */
export const USUAL_KETTLE = { litres: 1.7, watts: 2000 } as const;
/** Share of a kettle's power that ends up in its water. Common practice (no source). */
export const KETTLE_SHARE = 0.9;
/** Pouring out and filling again, for each kettle after the first. Common practice (no source). */
export const REFILL_MIN = 1;
/** Water from the tap. Common practice (no source). */
export const TAP_WATER_C = 15;
export const WATER_KJ_PER_KG_K = 4.19; // specific heat at 15 to 80 °C, from memory
