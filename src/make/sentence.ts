import { convert, type UnitName } from '../numbers/units.ts';
import { usVolume } from '../numbers/us-volume.ts';
import type { UnitSystem } from './quantity.ts';

/**
 * Temperatures, litres and kilograms inside a sentence, in the reader's units: "36.5 to 37.5 °C" becomes "98 to 100 °F",
 * "more than 10 L" becomes "more than 2.6 gal". Sentences are written in °C, L and kg only, so that there is one figure
 * and no rounded second column. A difference is written with both, "1 °C (1.8 °F)", because it converts without the 32;
 * the reader gets the one of the two that is theirs. A figure for each of something ("g/L", "kg per 100 kg") stays.
 */
export function sentenceInUnits(input: { readonly text: string; readonly units: UnitSystem }): string {
  const text = input.text.replace(DIFFERENCE, input.units === 'us' ? '$2' : '$1');
  if (input.units !== 'us') return text;
  return text
    .replace(SPAN_C, (...[, low, joint, high]: string[]) => joined({ low, joint, high, ...fahrenheit }))
    .replace(SPAN_L, (...found: string[]) => amount(found, gallons))
    .replace(SPAN_KG, (...found: string[]) => amount(found, pounds));
}

const DIFFERENCE = /(\d+(?:[.,]\d+)? °C) \((\d+(?:[.,]\d+)? °F)\)/g;
// Both decimal signs, and the words between two figures in every language that makes are told in.
const FIGURES = '(\\d+(?:[.,]\\d+)?)(?:( to | or | and | a | o | y |-)(\\d+(?:[.,]\\d+)?))?';
const SPAN_C = new RegExp(`${FIGURES}[ \u00A0]°C`, 'g');
const NOT_EACH = '(?![\\w/]|[ \u00A0](?:per|of \\w+ per|for each|a kg|in 100|por|de \\w+ por)\\b)';
const SPAN_L = new RegExp(`(\\bper )?${FIGURES}[ \u00A0]L${NOT_EACH}`, 'g');
const SPAN_KG = new RegExp(`(\\bper )?${FIGURES}[ \u00A0]kg${NOT_EACH}`, 'g');

interface Turned {
  readonly unit: string;
  readonly turn: (figure: string) => string;
}

const figureOf = (text: string | undefined): number => Number(text?.replace(',', '.'));

const fahrenheit: Turned = {
  unit: '°F',
  turn: (celsius) => convert({ value: figureOf(celsius), from: 'C', to: 'F' }).toFixed(0),
};

/** Both ends of a span in the unit of its larger one. */
const gallons = (largest: string | undefined): Turned => turned('L', usVolume(figureOf(largest))?.unit ?? 'mL');
const pounds = (largest: string | undefined): Turned => turned('kg', figureOf(largest) >= 0.2 ? 'lb' : 'g');

const SYMBOLS: Readonly<Partial<Record<UnitName, string>>> = { 'us-gallon': 'gal', 'us-quart': 'qt' };

const turned = (from: UnitName, to: UnitName): Turned => ({
  unit: SYMBOLS[to] ?? to,
  turn: (figure) => {
    const value = figureOf(figure);
    const turnedTo = String(Number(convert({ value, from, to }).toPrecision(2 + Number(value >= 100))));
    return figure.includes(',') ? turnedTo.replace('.', ',') : turnedTo;
  },
});

/** A volume or mass turned, unless it is one for each of something. */
function amount(found: readonly (string | undefined)[], into: (largest: string | undefined) => Turned): string {
  const [whole = '', per, low, joint, high] = found;
  return per === undefined ? joined({ low, joint, high, ...into(high ?? low) }) : whole;
}

function joined(input: Turned & Readonly<Record<'low' | 'joint' | 'high', string | undefined>>): string {
  const { low, joint, high, turn, unit } = input;
  if (low === undefined) return '';
  return high === undefined || joint === undefined
    ? `${turn(low)} ${unit}`
    : `${turn(low)}${joint}${turn(high)} ${unit}`;
}
