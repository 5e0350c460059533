/** Numbers of a sum as people read them: no more figures than the answer is sure of, and a unit of a sensible size. */
import { convert, UNITS, type UnitName } from '../../numbers/units.ts';
import { usVolume } from '../../numbers/us-volume.ts';
import { outward, type Writer } from '../written.ts';
import { symbolOf, type FieldUnit } from './unit-of.ts';

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
  const { value, unit, write } = input;
  const ends = input.ends === null || input.ends.low === input.ends.high ? null : input.ends;
  if (unit.house !== null && UNITS[unit.house].dimension === 'duration')
    return saidDuration({ value, ends, house: unit.house, write });
  const shown = shownUnit({ value, unit, write });
  const turned = (number: number): number =>
    unit.house === null || shown.house === null
      ? number
      : convert({ value: number, from: unit.house, to: shown.house });
  const middle = turned(value);
  const span = ends === null ? null : { low: turned(ends.low), high: turned(ends.high) };
  const decimals = decimalsFor({ value: middle, span, unit });
  const text = (number: number, digits = decimals): SaidNumber => ({
    number: write.number(noMinusZero(number, digits), digits).replace('-', '\u2212'),
    unit: write.unit(shown.symbol),
  });
  if (span === null)
    return { said: text(middle, unit.decimals ?? withoutZeros(middle, decimals)), low: null, high: null };
  const wide = outward({ ...span, step: 10 ** -decimals });
  return { said: text(middle), low: text(wide.low), high: text(wide.high) };
}

const noMinusZero = (value: number, decimals: number): number => (Math.abs(value) < 0.5 * 10 ** -decimals ? 0 : value);

/** A number that needs fewer decimals gets fewer: 45 and not 45.0. */
function withoutZeros(value: number, decimals: number): number {
  const isWhole = (digits: number): boolean => Math.abs(value * 10 ** digits - Math.round(value * 10 ** digits)) < 1e-6 * 10 ** digits; // prettier-ignore
  let digits = decimals;
  while (digits > 0 && isWhole(digits - 1)) digits -= 1;
  return digits;
}

function decimalsFor(input: { readonly value: number; readonly span: Ends | null; readonly unit: FieldUnit }): number {
  const { value, span, unit } = input;
  if (unit.decimals !== null) return unit.decimals;
  const size = Math.abs(value);
  const byFigures = size === 0 ? 0 : FIGURES - 1 - Math.floor(Math.log10(size));
  const half = span === null ? 0 : (span.high - span.low) / 2;
  // A digit below a tenth of the half span says nothing.
  const bySpan = half > 0 ? -Math.floor(Math.log10(half)) + 1 : byFigures;
  return Math.max(0, Math.min(unit.symbol === '%' ? 2 : 4, byFigures, bySpan));
}

function shownUnit(input: { readonly value: number; readonly unit: FieldUnit; readonly write: Writer }): {
  readonly house: UnitName | null;
  readonly symbol: string;
} {
  const { value, unit, write } = input;
  const us = write.units === 'us';
  const named = (house: UnitName): { house: UnitName; symbol: string } => ({
    house,
    symbol: symbolOf(house),
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
      return named((us ? usVolume(size)?.unit : undefined) ?? (size >= 1 || size === 0 ? 'L' : 'mL'));
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
    if (scale === 0 && house === 'd') return { number: '0', unit: write.unit(symbolOf('d')) };
    if (Math.abs(scale) < SHORT_MIN) {
      const seconds = of * 60;
      if (seconds === 0) return { number: '0', unit: 'min' };
      return { number: write.number(seconds, Math.abs(seconds) < 2 ? 1 : 0), unit: 's' };
    }
    if (Math.abs(scale) >= LONG_MIN)
      return { number: write.number(of / 1440, Math.abs(of) < 14_400 ? 1 : 0), unit: write.unit(symbolOf('d')) };
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

/** What stands between a number and its unit: a thin space before a sign, a full one before a word. */
export const gapBefore = (unit: string): string => (/^\p{Ll}{4}/u.test(unit) ? '\u00A0' : '\u202F');

/** A number and its unit as one text; the two never part. */
export const joined = (said: SaidNumber): string =>
  said.unit === '' ? said.number : `${said.number}${gapBefore(said.unit)}${said.unit}`;

/** "4.5 to 8.2 mL": the unit once where both ends have the same. */
export function spanText(input: { readonly low: SaidNumber; readonly high: SaidNumber; readonly and: string }): string {
  const { low, high, and } = input;
  return low.unit === high.unit ? `${low.number} ${and} ${joined(high)}` : `${joined(low)} ${and} ${joined(high)}`;
}

/** A span in words, "4.5 to 8.2 mL"; one number where its ends are one. */
export function saidSpan(input: Parameters<typeof saidNumber>[0] & { readonly and: string }): string {
  const { said, low, high } = saidNumber(input);
  return low === null || high === null ? joined(said) : spanText({ low, high, and: input.and });
}
