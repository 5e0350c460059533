/**
 * The whey of a make: when it comes, how much, how sour, and what it is still good for. A whey that is drawn before the curd
 * is washed is another whey than the one that drains an hour later, so each is told by itself.
 */
import type { Spread } from '../numbers/stats.ts';
import type { Plan, PlannedStep } from '../make/plan.ts';
import type { Band, Forecast } from './forecast.ts';

/** Above it whey is called sweet, below the other sour; between the two it is on its way. A food science society's page on brown whey cheese (seen) */
const SWEET_FROM_PH = 5.6;
const SOUR_BELOW_PH = 5.1;
/** Below it few flocs rise when whey is heated; a dairy course text on whey curd (seen), which heats at pH 5.9 to 6.1. */
const CURD_FROM_PH = 6.0;
const CURD_WITHIN_MIN = 120; // the same course text: within one to two hours of draining
const BROWN_WITHIN_MIN = 120; // common practice (no source): boiled fresh, or it tastes sharp
const KITCHEN_WITHIN_MIN = 3 * 1440; // common practice (no source): cooled to the fridge within two hours of draining
const FEED_WITHIN_MIN = 1440; // common practice (no source): the same day, fresh each time
const BRINE_WITHIN_MIN = 120; // common practice (no source): salted and boiled while it is sweet
/** kg of whey curd from 100 kg of bovine whey; two published yields (seen): 4.39 and 5.93 %. Our range is theirs. */
const CURD_PER_WHEY = { low: 0.044, high: 0.059 } as const;
/** kg of brown cheese from 100 kg of whey, 5 to 8; Vatside's own balance against a home recipe that got 5. */
const BROWN_PER_WHEY = { low: 0.05, high: 0.08 } as const;
const WORTH_BOILING_L = 4; // our own choice: less whey burns on before it thickens
const WORTH_HEATING_L = 2; // our own choice: less gives a spoonful of curd
const WHEY_KG_PER_L = 1.024; // at 30 °C, Vatside's own densities
const DILUTED_BY = 0.15; // our own choice: more water than that in it, and it is told of as washed

const LEAST_PH = 3.5; // no whey is sourer by itself; where the forecast does not follow it, the curd's pH stands for it

export type WheyTaste = 'sweet' | 'turning' | 'sour' | 'unknown';

/** What a whey can become, best first; `drain` is the last, and always stands. */
export const WHEY_USES = ['whey-curd', 'brown-cheese', 'brine', 'kitchen', 'feed', 'drain'] as const;
export type WheyUse = (typeof WHEY_USES)[number];

/** Why a use does not fit, or fits only just. */
export type WheyDoubt =
  'too-sour' | 'may-be-sour' | 'unread' | 'no-protein' | 'diluted' | 'little' | 'too-late' | 'salted';

export interface WheyOption {
  readonly use: WheyUse;
  readonly fits: boolean;
  readonly doubts: readonly WheyDoubt[];
  /** How long after it came off it must be begun [min]; null for the drain. */
  readonly withinMin: number | null;
  /** What it gives [kg]; left out where it gives no weight. */
  readonly givesKg?: { readonly low: number; readonly high: number };
  readonly source: string;
}

/** One whey: what one step lets off. */
export interface WheyPortion {
  readonly stepId: string;
  readonly stepName: string;
  /** When it is off, minutes since zero: the likeliest. */
  readonly offMin: number;
  readonly litres: Spread | null;
  /** Of the whey as it comes off; null where the forecast does not follow it. */
  readonly pH: Pick<Spread, 'p5' | 'p50' | 'p95'> | null;
  readonly taste: WheyTaste;
  /** Wash water stands in it. */
  readonly isWashed: boolean;
  readonly options: readonly WheyOption[];
}

/**
 * Every whey that a make lets off, in the order in which it comes.
 * @param input.minutesSince how long each has been standing, by the id of its step [min]; nothing where it is still to come
 * @param input.readPH what was read in the whey of a step, by its id; it counts before the forecast
 * @returns nothing where a make has no whey (heat-set whey curd, boiled whey)
 */
export function wheyLeft(input: {
  readonly plan: Pick<Plan, 'steps' | 'setup' | 'make'>;
  readonly forecast: Forecast;
  readonly minutesSince?: ReadonlyMap<string, number>;
  readonly readPH?: ReadonlyMap<string, number>;
}): WheyPortion[] {
  const { plan, forecast } = input;
  const drawnL = forecast.needs.wheyDrawnL;
  let washL = 0;
  let leftL = forecast.outcome.wheyL;
  const portions: WheyPortion[] = [];
  for (const [index, step] of plan.steps.entries()) {
    if (step.verb === 'wash') washL += forecast.needs.washWaterL?.p50 ?? 0;
    if (!LETS_OFF.has(step.verb)) continue;
    const litres = step.verb === 'drawWhey' && drawnL !== null ? drawnL : leftL;
    if (step.verb === 'drawWhey' && drawnL !== null) leftL = less(leftL, drawnL);
    const isLast = step.verb !== 'drawWhey' || !plan.steps.slice(index + 1).some(({ verb }) => LETS_OFF.has(verb));
    portions.push(portionOf({ ...input, step, litres: isLast ? leftOr(litres, leftL) : litres, washL }));
    if (step.verb !== 'drawWhey') break;
  }
  return portions;
}

/** Verbs by which whey leaves the vat; curd that is ladled lets it off in the cloth, over hours. */
const LETS_OFF: ReadonlySet<PlannedStep['verb']> = new Set(['drawWhey', 'drain', 'scoop']);

const leftOr = (litres: Spread, leftL: Spread): Spread => (Number.isFinite(leftL.p50) ? leftL : litres);

/** What is left of one spread when the middle of another has gone; the ends move with it. */
const less = (all: Spread, gone: Spread): Spread => ({
  p5: Math.max(0, all.p5 - gone.p50),
  p25: Math.max(0, all.p25 - gone.p50),
  p50: Math.max(0, all.p50 - gone.p50),
  p75: Math.max(0, all.p75 - gone.p50),
  p95: Math.max(0, all.p95 - gone.p50),
});

function portionOf(
  input: Parameters<typeof wheyLeft>[0] & {
    readonly step: PlannedStep;
    readonly litres: Spread;
    readonly washL: number;
  },
): WheyPortion {
  const { plan, forecast, step, litres, washL, minutesSince, readPH } = input;
  const foreseen = forecast.steps.find(({ stepId }) => stepId === step.id);
  const read = readPH?.get(step.id);
  const pH =
    read === undefined ? pHAt(forecast, foreseen?.startMin.p50 ?? Number.NaN) : { p5: read, p50: read, p95: read };
  const isWashed = washL > DILUTED_BY * litres.p50;
  const known = Number.isFinite(litres.p50) ? litres : null;
  const whey: Whey = {
    pH,
    litres: known?.p50 ?? null,
    isWashed,
    isSalted: plan.steps
      .slice(0, plan.steps.indexOf(step))
      .some(({ verb, set }) => verb === 'drySalt' || set.ingredient === 'salt'),
    hasProtein: !plan.steps.some(({ verb }) => verb === 'heatWithAcid'),
    standingMin: minutesSince?.get(step.id) ?? null,
  };
  return {
    stepId: step.id,
    stepName: step.name,
    offMin: foreseen?.endMin.p50 ?? Number.NaN,
    litres: known,
    pH,
    taste: tasteOf(pH),
    isWashed,
    options: WHEY_USES.map((use) => optionOf(use, whey)),
  };
}

/** The whey's own pH; before the curd is cut the milk's, which is the same liquid. */
function pHAt(forecast: Forecast, atMin: number): WheyPortion['pH'] {
  const after = forecast.gridMin.findIndex((minutes) => minutes > atMin);
  const at = (after === -1 ? forecast.gridMin.length : after) - 1;
  const cut = (band: Band): WheyPortion['pH'] => {
    const [p5, p50, p95] = [band.p5[at], band.p50[at], band.p95[at]];
    return p5 === undefined || p50 === undefined || p95 === undefined || !Number.isFinite(p50)
      ? null
      : { p5, p50, p95 };
  };
  const whey = cut(forecast.bands.wheyPH);
  return whey !== null && whey.p50 > LEAST_PH ? whey : cut(forecast.bands.pH);
}

function tasteOf(pH: WheyPortion['pH']): WheyTaste {
  if (pH === null) return 'unknown';
  return pH.p50 > SWEET_FROM_PH ? 'sweet' : pH.p50 < SOUR_BELOW_PH ? 'sour' : 'turning';
}

interface Whey {
  readonly pH: WheyPortion['pH'];
  readonly litres: number | null;
  readonly isWashed: boolean;
  readonly isSalted: boolean;
  /** Curd by acid and heat has taken the whey's protein with it. */
  readonly hasProtein: boolean;
  readonly standingMin: number | null;
}

const RULED_OUT: ReadonlySet<WheyDoubt> = new Set(['too-sour', 'no-protein', 'little', 'too-late', 'salted']);

function optionOf(use: WheyUse, whey: Whey): WheyOption {
  const rule = RULES[use];
  const doubts = [...rule.doubts(whey), ...late(rule.withinMin, whey)];
  const fits = !doubts.some((doubt) => RULED_OUT.has(doubt));
  const kg = whey.litres === null ? null : whey.litres * WHEY_KG_PER_L;
  return {
    use,
    fits,
    doubts,
    withinMin: rule.withinMin,
    source: rule.source,
    ...(rule.gives === undefined || kg === null || !fits
      ? {}
      : { givesKg: { low: kg * rule.gives.low * (whey.isWashed ? 0.7 : 1), high: kg * rule.gives.high } }), // common practice (no source): washed whey gives less, a third at most
  };
}

const late = (withinMin: number | null, { standingMin }: Whey): WheyDoubt[] =>
  withinMin !== null && standingMin !== null && standingMin > withinMin ? ['too-late'] : [];

/** Sour for a use that wants sweet whey: surely, perhaps, or nobody knows. */
function* souring(pH: WheyPortion['pH'], from: number): Generator<WheyDoubt> {
  if (pH === null) yield 'unread';
  else if (pH.p50 < from) yield 'too-sour';
  else if (pH.p5 < from) yield 'may-be-sour';
}

interface Rule {
  readonly withinMin: number | null;
  readonly doubts: (whey: Whey) => Iterable<WheyDoubt>;
  readonly gives?: { readonly low: number; readonly high: number };
  readonly source: string;
}

const RULES: Readonly<Record<WheyUse, Rule>> = {
  'whey-curd': {
    withinMin: CURD_WITHIN_MIN,
    gives: CURD_PER_WHEY,
    source: 'a dairy course text on whey curd (seen): pH 5.9 to 6.1 at heating, within 1 to 2 h of draining',
    *doubts(whey) {
      if (!whey.hasProtein) yield 'no-protein';
      if (whey.isSalted) yield 'salted';
      if (whey.litres !== null && whey.litres < WORTH_HEATING_L) yield 'little';
      if (whey.isWashed) yield 'diluted';
      yield* souring(whey.pH, CURD_FROM_PH);
    },
  },
  'brown-cheese': {
    withinMin: BROWN_WITHIN_MIN,
    gives: BROWN_PER_WHEY,
    source:
      'Thom & Fisk 1918, The Book of Cheese, section 281 (seen); sweet whey above pH 5.6: a food science society page (seen)',
    *doubts(whey) {
      if (whey.isSalted) yield 'salted';
      if (whey.litres !== null && whey.litres < WORTH_BOILING_L) yield 'little';
      if (whey.isWashed) yield 'diluted';
      yield* souring(whey.pH, SWEET_FROM_PH);
    },
  },
  brine: {
    withinMin: BRINE_WITHIN_MIN,
    source:
      'common practice (no source); salt is taken up more slowly from it: Chamba 1988, Lait 68:121 (abstract seen)',
    *doubts(whey) {
      if (whey.isWashed) yield 'diluted';
    },
  },
  kitchen: {
    withinMin: KITCHEN_WITHIN_MIN,
    source: 'common practice (no source)',
    *doubts(whey) {
      if (whey.isSalted) yield 'salted';
    },
  },
  feed: {
    withinMin: FEED_WITHIN_MIN,
    source: 'common practice (no source); local rules on feeding decide',
    *doubts(whey) {
      if (whey.isSalted) yield 'salted';
    },
  },
  drain: {
    withinMin: null,
    source: 'common practice (no source); local rules on waste water decide',
    doubts: () => [],
  },
};
