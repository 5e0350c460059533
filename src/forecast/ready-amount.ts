/** How much to have ready: which need of the forecast an amount of the plan is, and its generous end. */
import type { Amount, Plan, PlannedStep } from '../make/plan.ts';
import type { Preparation } from '../make/step.ts';
import type { Spread } from '../numbers/stats.ts';
import type { Forecast, Needs } from './forecast.ts';

type Foreseen = Pick<Forecast, 'needs'> | null;

/** The need that each amount of a plan is, by `Amount.id`, in the amount's own unit; water weighs its litres. */
const NEEDS: Readonly<Record<string, (needs: Needs) => Spread | null>> = {
  'whey-drawn': (needs) => needs.wheyDrawnL,
  'wash-water': (needs) => needs.washWaterL,
  'stretch-water': (needs) => needs.stretchWaterKg,
  ice: (needs) => needs.iceKg,
  brine: (needs) => needs.brineKg,
  salt: (needs) => needs.brineSaltKg,
};

/** Heated, frozen or mixed beforehand: too little of it stops the make, and too much costs a little fuel or salt. */
const MADE_AHEAD: ReadonlySet<string> = new Set(['wash-water', 'stretch-water', 'ice', 'brine', 'salt']);

/** Which computed amount a preparation carries: `preparationSchema.amount` to `Amount.id`. */
const PREPARED: Readonly<Record<Preparation['amount'], string | null>> = {
  'renneted-water': 'rennet-water',
  'wash-water': 'wash-water',
  'stretch-water': 'stretch-water',
  'ice-bath': 'ice',
  brine: 'brine',
  acid: 'acid',
  'dry-salt': 'dry-salt',
  cream: 'cream',
  none: null,
};

/** An amount as it is made ready or bought. */
export interface ReadyAmount {
  /** `Amount.id`. */
  readonly id: string;
  readonly unit: Amount['unit'];
  /** Of what is made ahead, enough for 19 such makes in 20, rounded up to two figures; of the rest, the plan's amount. */
  readonly value: number;
  /** What such makes use of it, where it is made ahead and foreseen; null otherwise. */
  readonly used: Spread | null;
}

/** True of what is heated, frozen or mixed before its step: water, ice, brine and the salt in it. */
export const isMadeAhead = ({ id }: Pick<Amount, 'id'>): boolean => MADE_AHEAD.has(id);

/** What such makes take of an amount, in its own unit; null where the forecast has no figure for it. */
export function neededOf(input: { readonly amount: Pick<Amount, 'id' | 'part'>; readonly forecast: Foreseen }): Spread | null {
  const { amount, forecast } = input;
  const needed = forecast === null ? null : (NEEDS[amount.id]?.(forecast.needs) ?? null);
  if (needed === null || ![needed.p5, needed.p50, needed.p95].every(Number.isFinite)) return null;
  const { part } = amount;
  if (part === undefined) return needed;
  const { p5, p25, p50, p75, p95 } = needed;
  return { p5: part * p5, p25: part * p25, p50: part * p50, p75: part * p75, p95: part * p95 };
} // prettier-ignore

/**
 * How much of an amount to have ready. Half of all makes would run short of the likeliest amount, so of what is made
 * ahead it is the generous end: 19 such makes in 20 use no more. Until there is a forecast, the plan's own upper end.
 */
export function readyAmount(input: { readonly amount: Amount; readonly forecast: Foreseen }): ReadyAmount {
  const { amount } = input;
  const { id, unit } = amount;
  if (!isMadeAhead(amount)) return { id, unit, value: amount.value, used: null };
  const used = neededOf(input);
  return { id, unit, value: roundedUp(used?.p95 ?? amount.high ?? amount.value), used };
}

/** How much a preparation is of; null where it is of nothing measured, or the plan has no such amount. */
export function preparedAmount(input: {
  readonly plan: Pick<Plan, 'amounts'>;
  readonly forecast: Foreseen;
  /** The step that the preparation belongs to. */
  readonly step: Pick<PlannedStep, 'id'>;
  readonly preparation: Pick<Preparation, 'amount'>;
}): ReadyAmount | null {
  const { plan, forecast, step, preparation } = input;
  const id = PREPARED[preparation.amount];
  // An acid goes by its kind: `acid-citric`.
  const found = plan.amounts.filter((amount) => amount.id === id || (id === 'acid' && amount.id.startsWith('acid-')));
  const amount = found.find(({ stepId }) => stepId === step.id) ?? found[0];
  if (amount === undefined) return null;
  // What is made ready is made ready at once, for every step that takes of it.
  const { part = 1, ...whole } = amount;
  return readyAmount({ amount: { ...whole, value: whole.value / part }, forecast });
}

/** Up to two figures: 2.37 becomes 2.4, 11.2 becomes 12. The hair keeps 3.6 from becoming 3.7 by binary rounding. */
function roundedUp(value: number): number {
  const places = 1 - Math.floor(Math.log10(value));
  return Number((Math.ceil(value * 10 ** places - 1e-9) / 10 ** places).toPrecision(12));
}
