/** A bottle in words: what the test said, how long ago, what is left. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { DAYS_PER_MONTH } from '../../../record/lot-answers.ts';
import type { Bottle } from './bottles.ts';
import { joined, saidNumber, spanText, type SaidNumber } from '../../../exchange/told/rounding.ts';
import { unitOfField } from '../../../exchange/told/unit-of.ts';

const STRENGTH = unitOfField('strengthIMCUPerML');

export interface Strength {
  readonly p5: number;
  readonly p50: number;
  readonly p95: number;
}

/** "150 IMCU/mL" and "70 and 310 IMCU/mL". */
export function strengthWords(input: { readonly strength: Strength; readonly say: Say; readonly write: Writer }): {
  readonly said: SaidNumber;
  readonly middle: string;
  readonly between: string;
} {
  const { strength, say, write } = input;
  const ends = { low: strength.p5, high: strength.p95 };
  const { said, low, high } = saidNumber({ value: strength.p50, ends, unit: STRENGTH, write });
  const between = low === null || high === null ? '' : spanText({ low, high, and: say('bench:and') });
  return { said, middle: joined(said), between };
}

/** How long ago, in days or months. */
export function ageWords(input: { readonly months: number; readonly say: Say }): string {
  const days = Math.floor(input.months * DAYS_PER_MONTH);
  if (days < 1) return input.say('bench:bottles.today');
  if (days < 60) return input.say('bench:bottles.days', { count: days });
  return input.say('bench:bottles.months', { count: Math.round(input.months) });
}

/** One line for one bottle, its name before what is known of it. */
export function bottleLine(input: { readonly bottle: Bottle; readonly say: Say; readonly write: Writer }): string {
  return input.say('bench:bottles.line', { name: input.bottle.name, known: bottleKnown(input) });
}

/** What the test said, how long ago, and what is left; or that there is no test that tells. */
export function bottleKnown(input: { readonly bottle: Bottle; readonly say: Say; readonly write: Writer }): string {
  const { bottle, say, write } = input;
  const { test, monthsSince, keptFraction } = bottle;
  if (test === null) return say(`bench:bottles.${bottle.isTestedInVain ? 'inVain' : 'untested'}`);
  const { middle } = strengthWords({ strength: test.strengthImcuPerMl, say, write });
  const now = saidNumber({ value: test.strengthImcuPerMl.p50 * keptFraction, ends: { low: test.strengthImcuPerMl.p5, high: test.strengthImcuPerMl.p95 }, unit: STRENGTH, write }).said; // prettier-ignore
  const age = ageWords({ months: monthsSince, say });
  const tested = say('bench:bottles.tested', { strength: middle, day: write.day(test.at), age });
  return `${tested}; ${say('bench:bottles.now', { strength: joined(now) })}`;
}

/** The bottles to choose from, after the one that is on no list. */
export const bottleOptions = (input: {
  readonly bottles: readonly Bottle[];
  readonly none: string;
}): { readonly value: string; readonly label: string }[] => [
  { value: '', label: input.none },
  ...input.bottles.map(({ lotId, name }) => ({ value: lotId, label: name })),
];
