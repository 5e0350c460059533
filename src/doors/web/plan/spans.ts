import type { Spread } from '../../../numbers/stats.ts';
import { outward, type Writer, type Written } from '../../../exchange/written.ts';
import type { Say } from '../../../exchange/words.ts';

/** What every view of the plan is told with. */
export interface Telling {
  readonly say: Say;
  readonly write: Writer;
}

/** Two significant figures of the larger end: 1.18 is told in steps of 0.1, 43.7 in steps of 1. */
export const stepFor = (value: number): number => 10 ** (Math.floor(Math.log10(Math.max(Math.abs(value), 1e-6))) - 1);

/** "9 times in 10 between 0.9 and 1.2 kg": both ends rounded outward, the unit once where both have the same. */
export function nineInTen(input: {
  readonly spread: Spread;
  readonly step: number;
  readonly write: (value: number) => Written;
  readonly say: Say;
  /** Another sentence than the plain one. */
  readonly key?: string;
}): string {
  const { spread, step, write, say, key = 'plan:span.nineInTen' } = input;
  const { low, high } = outward({ low: spread.p5, high: spread.p95, step });
  const [from, to] = [plainly(write(low), Math.floor), plainly(write(high), Math.ceil)];
  return say(key, { low: from.unit === to.unit ? from.number : from.text, high: to.text });
}

export const isKnown = (spread: Spread | null): spread is Spread =>
  spread !== null && [spread.p5, spread.p50, spread.p95].every(Number.isFinite);

/**
 * An end of a span carries no noughts behind: "1.2 kg", not "1.20"; pH keeps its two places. Pounds and gallons are
 * rounded once more in their own figures, since the step was one of kilograms or litres.
 */
export function plainly(written: Written, rounding: (value: number) => number): Written {
  const { unit, number } = written;
  if (!/^(kg|g|mL|L|lb|gal|qt)$/.test(unit)) return written;
  const { whole, sign, decimals } = partsOf(number);
  const shown = /^(lb|gal|qt)$/.test(unit)
    ? inOwnSteps(Number(`${whole.replaceAll(/\D/g, '')}.${decimals}`), rounding).replace('.', sign)
    : number;
  const plain = decimals === '' ? shown : shown.replace(/0+$/, '').replace(/[.,]$/, '');
  return { ...written, number: plain, text: written.text.replace(number, plain) };
}

/** A figure as it is written; one or two places are decimals, three a thousand, whichever sign stands before them. */
function partsOf(number: string): { readonly whole: string; readonly sign: string; readonly decimals: string } {
  const [, whole = number, sign = '.', decimals = ''] = /^(.*)([.,])(\d{1,2})$/.exec(number) ?? [];
  return { whole, sign, decimals };
}

function inOwnSteps(value: number, rounding: (value: number) => number): string {
  const step = stepFor(value);
  return (rounding(value / step) * step).toFixed(Math.max(0, -Math.floor(Math.log10(step))));
}
