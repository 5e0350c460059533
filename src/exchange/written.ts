/**
 * Quantities as people read them: rounding, unit and clock of the reader, always a number and a unit that stay
 * together. Inside, everything is in canonical units; this is the last step before eyes.
 */
import { convert } from '../numbers/units.ts';
import { usVolume } from '../numbers/us-volume.ts';
import { PLAIN_BOOK, type Book } from './book.ts';
import type { Language } from './words.ts';

export type UnitSystem = 'metric' | 'us';

/** A number and its unit, to be set on one line. `text` joins them with a narrow no-break space. */
export interface Written {
  readonly number: string;
  readonly unit: string;
  readonly text: string;
}

/** How one reader sees quantities. */
export interface Writer {
  readonly language: Language;
  readonly units: UnitSystem;
  readonly temperature: (temperatureC: number) => Written;
  /** A whole-degree temperature: the sentence does not need the tenth. */
  readonly degrees: (temperatureC: number) => Written;
  readonly litres: (volumeL: number) => Written;
  readonly millilitres: (volumeMl: number) => Written;
  readonly grams: (massG: number) => Written;
  readonly kilograms: (massKg: number) => Written;
  readonly depth: (depthCm: number) => Written;
  readonly percent: (percent: number, digits?: number) => Written;
  readonly pH: (pH: number) => Written;
  readonly duration: (minutes: number) => string;
  readonly clock: (atMs: number) => string;
  readonly day: (atMs: number) => string;
  /** The date with its year, as a label carries it: "12 November 2026". */
  readonly date: (atMs: number) => string;
  /** The date as it names a batch among others: "12 Nov". */
  readonly shortDate: (atMs: number) => string;
  readonly number: (value: number, digits: number) => string;
  /** A unit that is a word, `days` or `drops`, in the reader's language. */
  readonly unit: (unit: string) => string;
  /** A figure as it was typed or reckoned, with the reader's decimal sign. */
  readonly typed: (text: string) => string;
}

const NARROW = '\u202F';
const written = (number: string, unit: string): Written => ({
  number,
  unit,
  text: unit === '' ? number : `${number}${NARROW}${unit}`,
});

/**
 * A writer for one reader.
 * @param input.language decides the decimal sign, the clock (24 h or am/pm) and the names of days
 * @param input.units metric, or US customary for milk, temperatures, large weights and depths; grams and mL of small
 *   amounts stay as they are, because scales and syringes show them
 * @param input.timeZone IANA name; the device's own where left out
 */
export function openWriter(input: {
  readonly language: Language;
  readonly units: UnitSystem;
  readonly timeZone?: string;
  /** What units that are words are called. */
  readonly book?: Book;
}): Writer {
  const { language, units, book = PLAIN_BOOK } = input;
  const zone = input.timeZone === undefined ? {} : { timeZone: input.timeZone };
  const clock = new Intl.DateTimeFormat(language, { hour: '2-digit', minute: '2-digit', ...zone });
  const clock12 = new Intl.DateTimeFormat(language, { hour: 'numeric', minute: '2-digit', hour12: true, ...zone });
  const day = new Intl.DateTimeFormat(language, { weekday: 'long', day: 'numeric', month: 'long', ...zone });
  const date = new Intl.DateTimeFormat(language, { day: 'numeric', month: 'long', year: 'numeric', ...zone });
  const shortDate = new Intl.DateTimeFormat(language, { day: 'numeric', month: 'short', ...zone });
  // A formatter takes longer to make than a hundred numbers take to write: one for each count of decimals.
  const formats = new Map<number, Intl.NumberFormat>();
  const formatOf = (digits: number): Intl.NumberFormat => {
    const known = formats.get(digits) ?? new Intl.NumberFormat(language, { minimumFractionDigits: digits, maximumFractionDigits: digits }); // prettier-ignore
    formats.set(digits, known);
    return known;
  };
  const fixed = (value: number, digits: number): string => formatOf(digits).format(value);
  const decimal = fixed(1.5, 1).slice(1, 2);
  const us = units === 'us';
  const pounds = (massLb: number): Written => written(fixed(massLb, digitsFor(massLb)), 'lb');
  const weight = (massG: number): Written =>
    us && massG >= 200
      ? pounds(convert({ value: massG, from: 'g', to: 'lb' }))
      : massG >= 1000
        ? written(fixed(massG / 1000, digitsFor(massG / 1000)), 'kg')
        : written(fixed(massG, massG >= 100 ? 0 : digitsFor(massG)), 'g');
  const usWritten = (volumeMl: number): Written | null => {
    const said = us ? usVolume(volumeMl / 1000) : null;
    return said === null ? null : written(fixed(said.value, said.digits), said.unit === 'us-gallon' ? 'gal' : 'qt');
  };
  const volume = (volumeMl: number): Written => {
    const said = usWritten(volumeMl);
    if (said !== null) return said;
    if (volumeMl < 1000) return written(fixed(volumeMl, volumeMl >= 10 ? 0 : volumeMl >= 1 ? 1 : 2), 'mL');
    const isWhole = volumeMl >= 10_000 && Math.abs(volumeMl / 1000 - Math.round(volumeMl / 1000)) <= 0.05;
    return written(fixed(volumeMl / 1000, isWhole ? 0 : 1), 'L');
  };
  return {
    language,
    units,
    temperature: (temperatureC) =>
      us ? written(fixed(convert({ value: temperatureC, from: 'C', to: 'F' }), 0), '°F') : written(fixed(temperatureC, 1), '°C'), // prettier-ignore
    degrees: (temperatureC) =>
      us ? written(fixed(convert({ value: temperatureC, from: 'C', to: 'F' }), 0), '°F') : written(fixed(temperatureC, 0), '°C'), // prettier-ignore
    litres: (volumeL) => volume(volumeL * 1000),
    millilitres: volume,
    grams: weight,
    kilograms: (massKg) => weight(massKg * 1000),
    depth: (depthCm) =>
      us
        ? written(fixed(convert({ value: depthCm, from: 'cm', to: 'in' }), 1), 'in')
        : written(fixed(depthCm, 1), 'cm'),
    percent: (percent, digits = 0) => written(fixed(percent, digits), '%'),
    pH: (pH) => written(fixed(pH, 2), ''),
    duration: writtenDuration,
    clock: (atMs) =>
      language === 'en-US' ? clock12.format(atMs).replace('AM', 'am').replace('PM', 'pm') : clock.format(atMs),
    day: (atMs) => day.format(atMs),
    date: (atMs) => date.format(atMs),
    shortDate: (atMs) => shortDate.format(atMs),
    number: fixed,
    unit: book.name,
    typed: (text) => (FIGURE_TYPED.test(text) ? text.replace('.', decimal) : text),
  };
}

/** Digits, places not yet typed, a point, and a unit behind it. */
const FIGURE_TYPED = /^[-\u2212+]?[\d_]*\.[\d_]*( ?\D.*)?$/;

/** Three significant figures for weights and small volumes, at most two decimals. */
function digitsFor(value: number): number {
  const size = Math.abs(value);
  return size >= 100 ? 0 : size >= 10 ? 1 : 2;
}

/** "40 min", "1 h 40 min", "26 h"; never seconds. */
function writtenDuration(minutes: number): string {
  const whole = Math.round(minutes);
  if (Math.abs(whole) < 60) return `${whole}${NARROW}min`;
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  return rest === 0 || hours >= 24 ? `${Math.round(whole / 60)}${NARROW}h` : `${hours}${NARROW}h ${rest}${NARROW}min`;
}

/** A span rounded outward to the given step, so that the printed span never promises more than the computed one. */
export function outward(input: { readonly low: number; readonly high: number; readonly step: number }): {
  readonly low: number;
  readonly high: number;
} {
  // The hair of tolerance keeps 5.2 from becoming 5.19 by binary rounding.
  const hair = 1e-9;
  return {
    low: Math.floor(input.low / input.step + hair) * input.step,
    high: Math.ceil(input.high / input.step - hair) * input.step,
  };
}
