/** Numbers of a sum as people read them: no more figures than the answer is sure of, and a unit of a sensible size. */
import { convert, UNITS, type UnitName } from '../../../numbers/units.ts';
import { outward, type Writer } from '../../../exchange/written.ts';
import type { FieldUnit } from './unit-of.ts';

export interface SaidNumber {
  readonly number: string;
  readonly unit: string;
}
export interface Ends {
  readonly low: number;
  readonly high: number;
}

const FIGURES = 3; // of a number without a span: our own choice

/**
 * A number with as many figures as it is worth, and its span rounded outward to the same digit.
 * @param input.value in the unit of the contract
 * @param input.ends of its span, in the same unit; null where there is none
 */
export function saidNumber(input: {
  readonly value: number;
  readonly ends: Ends | null;
  readonly unit: FieldUnit;
  readonly write: Writer;
}): { readonly said: SaidNumber; readonly low: SaidNumber | null; readonly high: SaidNumber | null } {
  const { value, ends, unit, write } = input;
  if (unit.house !== null && UNITS[unit.house].dimension === 'duration')
    return saidDuration({ ...input, house: unit.house });
  const shown = shownUnit({ value, unit, write });
  const turned = (number: number): number =>
    unit.house === null || shown.house === null
      ? number
      : convert({ value: number, from: unit.house, to: shown.house });
  const middle = turned(value);
  const span = ends === null ? null : { low: turned(ends.low), high: turned(ends.high) };
  const decimals = decimalsFor({ value: middle, span, unit });
  const text = (number: number): SaidNumber => ({
    number: write.number(noMinusZero(number, decimals), decimals),
    unit: shown.symbol,
  });
  if (span === null) return { said: text(middle), low: null, high: null };
  const wide = outward({ ...span, step: 10 ** -decimals });
  return { said: text(middle), low: text(wide.low), high: text(wide.high) };
}

const noMinusZero = (value: number, decimals: number): number => (Math.abs(value) < 0.5 * 10 ** -decimals ? 0 : value);

function decimalsFor(input: { readonly value: number; readonly span: Ends | null; readonly unit: FieldUnit }): number {
  const { value, span, unit } = input;
  if (unit.decimals !== null) return unit.decimals;
  const size = Math.abs(value);
  const byFigures = size === 0 ? 0 : FIGURES - 1 - Math.floor(Math.log10(size));
  const half = span === null ? 0 : (span.high - span.low) / 2;
  // A digit below a tenth of the half span says nothing.
  const bySpan = half > 0 ? -Math.floor(Math.log10(half)) + 1 : byFigures;
  return Math.max(0, Math.min(4, byFigures, bySpan));
}

function shownUnit(input: { readonly value: number; readonly unit: FieldUnit; readonly write: Writer }): {
  readonly house: UnitName | null;
  readonly symbol: string;
} {
  const { value, unit, write } = input;
  const us = write.units === 'us';
  const named = (house: UnitName): { house: UnitName; symbol: string } => ({
    house,
    symbol: UNITS[house].symbol.replace('US ', ''),
  });
  const size = Math.abs(value);
  switch (unit.house) {
    case null:
      return { house: null, symbol: unit.symbol };
    case 'C':
      return named(us ? 'F' : 'C');
    case 'rise-C':
      return named(us ? 'rise-F' : 'rise-C');
    case 'kg':
      return us && size >= 0.2 ? named('lb') : named(size >= 1 || size === 0 ? 'kg' : 'g');
    case 'g':
      return us && size >= 200 ? named('lb') : named(size >= 1000 ? 'kg' : 'g');
    case 'L':
      if (us && size >= 0.4) return named(size >= 3 ? 'us-gallon' : 'us-quart');
      return named(size >= 1 || size === 0 ? 'L' : 'mL');
    case 'mL':
      return named(size >= 1000 ? 'L' : 'mL');
    default:
      return named(unit.house);
  }
}

const SHORT_MIN = 2; // below it seconds are said
const LONG_MIN = 48 * 60;

function saidDuration(input: {
  readonly value: number;
  readonly ends: Ends | null;
  readonly house: UnitName;
  readonly write: Writer;
}): {
  readonly said: SaidNumber;
  readonly low: SaidNumber | null;
  readonly high: SaidNumber | null;
} {
  const { value, ends, house, write } = input;
  const minutes = (number: number): number => convert({ value: number, from: house, to: 'min' });
  const scale = minutes(value);
  const text = (of: number, round: (value: number) => number): SaidNumber => {
    if (Math.abs(scale) < SHORT_MIN) {
      const seconds = of * 60;
      return { number: write.number(seconds, Math.abs(seconds) < 2 ? 1 : 0), unit: 's' };
    }
    if (Math.abs(scale) >= LONG_MIN)
      return { number: write.number(of / 1440, Math.abs(of) < 14_400 ? 1 : 0), unit: 'd' };
    // "3 h 20 min" is one thing to the eye, number and units together.
    const whole = write.duration(round(of));
    const [number, unit] = whole.split('\u202F');
    return whole.includes(' ') || unit !== 'min' ? { number: whole, unit: '' } : { number: number ?? whole, unit };
  };
  if (ends === null) return { said: text(scale, Math.round), low: null, high: null };
  return {
    said: text(scale, Math.round),
    low: text(minutes(ends.low), Math.floor),
    high: text(minutes(ends.high), Math.ceil),
  };
}

/** A number and its unit as one text; the two never part. */
export const joined = (said: SaidNumber): string =>
  said.unit === '' ? said.number : `${said.number}\u202F${said.unit}`;

/** "4.5 to 8.2 mL": the unit once where both ends have the same. */
export function spanText(input: { readonly low: SaidNumber; readonly high: SaidNumber; readonly and: string }): string {
  const { low, high, and } = input;
  return low.unit === high.unit ? `${low.number} ${and} ${joined(high)}` : `${joined(low)} ${and} ${joined(high)}`;
}
