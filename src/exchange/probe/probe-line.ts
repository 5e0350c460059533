import { convert } from '../../numbers/units.ts';

/** A value as a probe told it, in the canonical unit. */
export interface Heard {
  readonly quantity: 'temperatureC' | 'pH';
  readonly value: number;
}

/** Longer than any line a probe sends; what is longer is not one. */
const LONGEST_LINE = 200;
const NUMBER = '([-+\u2212]?\\d+(?:[.,]\\d+)?)';
const DEGREE = '(?:°|º|deg\\.?|degrees?)?\\s*(C|F|celsius|fahrenheit)';
const PH = new RegExp(`(?:^|[^a-z])pH\\s*[:=]?\\s*${NUMBER}(?![\\d.,])|${NUMBER}\\s*pH(?![a-z])`, 'i');
const WITH_UNIT = new RegExp(`${NUMBER}\\s*${DEGREE}(?![a-z])`, 'i');
const NAMED = new RegExp(`(?:^|[^a-z])(?:t|temp|temperature)\\s*(?:\\(?\\s*${DEGREE}\\s*\\)?)?\\s*[:=]\\s*${NUMBER}(?![\\d.,])`, 'i'); // prettier-ignore
const BARE = new RegExp(`^${NUMBER}$`);

/**
 * What one line of a probe's serial port says: `23.4`, `T=23.4 C`, `temp(F): 98.1`, `pH 6.42`, or a temperature and a
 * pH on one line. A bare number is a temperature in `bareUnit`. Anything else says nothing: an empty list.
 */
export function readProbeLine(line: string, bareUnit: 'C' | 'F' = 'C'): readonly Heard[] {
  const text = line.trim();
  if (text.length === 0 || text.length > LONGEST_LINE) return [];
  const heard: Heard[] = [];
  const pH = PH.exec(text);
  // What stands for the pH is not read again as a temperature.
  const rest = pH === null ? text : `${text.slice(0, pH.index)} ${text.slice(pH.index + pH[0].length)}`;
  const bare = BARE.exec(rest.trim());
  const unit = WITH_UNIT.exec(rest);
  const named = NAMED.exec(rest);
  if (bare !== null && pH === null) heard.push(temperature(bare[1], bareUnit));
  else if (unit !== null) heard.push(temperature(unit[1], unit[2]));
  else if (named !== null) heard.push(temperature(named[2], named[1] ?? bareUnit));
  if (pH !== null) heard.push({ quantity: 'pH', value: numberOf(pH[1] ?? pH[2]) });
  return heard.filter(({ value }) => Number.isFinite(value));
}

function temperature(digits: string | undefined, unit: string | undefined): Heard {
  const value = numberOf(digits);
  const isFahrenheit = (unit ?? 'C').toUpperCase().startsWith('F');
  const valueC = isFahrenheit ? convert({ value, from: 'F', to: 'C' }) : value;
  return { quantity: 'temperatureC', value: Math.round(valueC * 100) / 100 };
}

const numberOf = (digits: string | undefined): number =>
  digits === undefined ? Number.NaN : Number(digits.replace(',', '.').replace('\u2212', '-'));

/**
 * Cuts pieces as they arrive into lines. What has no end yet waits for the next piece; a line that never ends is
 * thrown away, so that a wrong baud rate cannot fill the memory.
 */
export function cutLines(before: string, piece: string): { readonly lines: readonly string[]; readonly rest: string } {
  const lines = (before + piece).split(/\r\n|\r|\n/);
  const rest = lines.at(-1) ?? '';
  return { lines: lines.slice(0, -1), rest: rest.length > 10 * LONGEST_LINE ? '' : rest };
}
