/**
 * The single table of quantities that people type or read: canonical unit, how it is shown, what is possible, what is
 * plausible, and which slip of the finger or of the unit a strange value probably is. Screens, command line and
 * planner ask here, so that the same number is refused, doubted or accepted everywhere.
 */
import { convert, UNITS, type UnitName } from '../numbers/units.ts';
import type { Problem } from '../numbers/validity.ts';
import type { Sample } from './step.ts';

export type UnitSystem = 'metric' | 'us' | 'imperial';

/** A closed interval in the quantity's canonical unit. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** What a value outside the plausible range may have been meant as. */
type Slip = 'fahrenheit' | 'decimal-point' | 'grams' | 'dilution-label';

export interface Quantity {
  /** Canonical unit as written beside a number; empty for pH. */
  readonly symbol: string;
  /** Set where the quantity has other units: the one to show in each system. */
  readonly shownIn?: Readonly<Record<UnitSystem, UnitName>>;
  readonly canonical?: UnitName;
  /** Decimals shown and, on a keypad, the place of the fixed point; by unit where they differ. */
  readonly decimals: number;
  readonly decimalsIn?: Readonly<Partial<Record<UnitName, number>>>;
  /** Width of a first tile on the two-pick pad, in the shown unit. */
  readonly tileStep: number;
  /** Outside this nothing is kept. */
  readonly possible: Interval;
  /** Outside this the value is doubted once, and kept when confirmed. */
  readonly plausible: Interval;
  readonly slips: readonly Slip[];
}

const temperature = (possible: Interval, plausible: Interval): Quantity => ({
  symbol: '°C',
  canonical: 'C',
  shownIn: { metric: 'C', us: 'F', imperial: 'C' },
  decimals: 1,
  tileStep: 1,
  possible,
  plausible,
  slips: ['fahrenheit', 'decimal-point'],
});
const volume = (possible: Interval, plausible: Interval): Quantity => ({
  symbol: 'L',
  canonical: 'L',
  shownIn: { metric: 'L', us: 'us-quart', imperial: 'imperial-pint' },
  decimals: 1,
  tileStep: 1,
  possible,
  plausible,
  slips: ['decimal-point'],
});
const plain = (symbol: string, decimals: number, possible: Interval, plausible: Interval, slips: Slip[] = []): Quantity => ({ symbol, decimals, tileStep: 10 ** (1 - decimals), possible, plausible, slips }); // prettier-ignore
const span = (low: number, high: number): Interval => ({ low, high });

/** Ranges are common practice (no source) unless a line says otherwise; they guard against slips, not against bad cheese. */
export const QUANTITIES = {
  pH: plain('', 2, span(2.5, 10), span(3.8, 7.2), ['decimal-point']), // milk, whey, curd, brine and rind; a buffer of 4 or 7 is no reading of cheese (our own bounds)
  milkPH: plain('', 2, span(5.8, 7.4), span(6.4, 6.9), ['decimal-point']), // fresh milk 6.55-6.75 by species (Mahmood & Usman 2010, Pakistan J. Nutrition 9:1192), with room for tired meters
  temperatureC: temperature(span(-25, 110), span(-2, 100)),
  milkTemperatureC: temperature(span(0, 45), span(1, 25)),
  roomC: temperature(span(-5, 45), span(8, 35)),
  iceWaterC: { ...temperature(span(-5, 10), span(-2, 4)), tileStep: 1 },
  thermometerErrorC: plain('°C', 1, span(0, 10), span(0.1, 3)),
  titratableAcidityD: plain('°D', 0, span(0, 150), span(8, 100), ['decimal-point']),
  flocculationMin: plain('min', 0, span(1, 240), span(4, 60), ['decimal-point']),
  massKg: {
    symbol: 'kg',
    canonical: 'kg',
    shownIn: { metric: 'kg', us: 'lb', imperial: 'lb' },
    decimals: 2,
    tileStep: 0.1,
    possible: span(0.01, 1000),
    plausible: span(0.05, 200),
    slips: ['grams', 'decimal-point'],
  },
  wheyL: volume(span(0, 1000), span(0.2, 500)),
  saltG: plain('g', 0, span(0, 100000), span(1, 20000)),
  milkVolumeL: volume(span(0.5, 1000), span(1, 800)),
  potVolumeL: volume(span(0.5, 3000), span(1, 1500)),
  fatPercent: plain('%', 1, span(0, 15), span(0.1, 9), ['decimal-point']), // sheep milk reaches 10.5 (Thom & Fisk 1918, table V)
  proteinPercent: plain('%', 1, span(1, 9), span(2.6, 6.5), ['decimal-point']), // cow 3.2 to sheep 5.5 (Mahmood & Usman 2010)
  insideMm: plain('mm', 0, span(60, 3000), span(120, 1300)),
  potMassKg: plain('kg', 1, span(0.2, 400), span(0.5, 120), ['grams']),
  heaterW: plain('W', 0, span(50, 100000), span(200, 30000)),
  lossWPerK: plain('W/K', 1, span(0.05, 300), span(0.3, 80)),
  packetTreatsL: volume(span(0.5, 20000), span(1, 5000)),
  packetMassG: plain('g', 1, span(0.05, 2000), span(0.2, 500)),
  packetFraction: plain('of the dose', 2, span(0.05, 5), span(0.25, 2)),
  bulkPercent: plain('%', 1, span(0.05, 20), span(0.2, 5)),
  rennetImcuPerMl: plain('IMCU/mL', 0, span(20, 3000), span(80, 1400), ['dilution-label']),
  testedImcuPerMl: plain('IMCU/mL', 0, span(1, 10000), span(1, 10000)), // either end of a cup test's span, a factor of up to 2 beyond the strength
  monthsStored: plain('months', 0, span(0, 120), span(0, 24)),
  dropsPerMl: plain('drops/mL', 0, span(5, 80), span(12, 40)), // 8 to 75 by tip width (Eschbaum 1895, Bulletin of Pharmacy 9(10):461)
  calciumSolutionPercent: plain('%', 0, span(1, 45), span(10, 40)),
  pieceG: plain('g', 0, span(5, 50000), span(15, 3000)),
  brinePercent: plain('%', 1, span(0, 36), span(8, 27), ['decimal-point']), // of mass or °Bé; common practice (no source)
  brineGPerL: plain('', 0, span(0, 1220), span(30, 1210)), // grams in a litre, percent of saturation, kg/m3
} as const satisfies Record<string, Quantity>;

export type QuantityName = keyof typeof QUANTITIES;
export const isQuantityName = (name: string): name is QuantityName => Object.hasOwn(QUANTITIES, name);

/** Where a temperature is plausible depends on what it was taken in. Common practice (no source). */
const PLAUSIBLE_TEMPERATURE_C: Readonly<Record<Sample, Interval>> = {
  milk: span(1, 45),
  curd: span(8, 72),
  whey: span(8, 97),
  brine: span(-2, 25),
  cheese: span(0, 70),
  water: span(-1, 100),
  room: span(5, 40),
};

/** The plausible range of a quantity, narrowed by the sample where that matters. */
export function plausibleIn(input: { readonly quantity: QuantityName; readonly sample?: Sample }): Interval {
  if (input.quantity === 'temperatureC' && input.sample !== undefined) return PLAUSIBLE_TEMPERATURE_C[input.sample];
  return QUANTITIES[input.quantity].plausible;
}

const within = (value: number, range: Interval): boolean => value >= range.low && value <= range.high;

/** A value as it is shown: rounded, with its unit. */
export interface Shown {
  readonly value: number;
  readonly decimals: number;
  readonly symbol: string;
  /** The number with its decimals and a decimal point; doors may write it in their own language instead. */
  readonly text: string;
}

/**
 * A canonical value in the unit system of the reader.
 * @param input.value in the quantity's canonical unit
 * @returns number, decimals, unit and text; never another value than `value` rounded
 */
export function displayValue(input: {
  readonly quantity: QuantityName;
  readonly value: number;
  readonly units: UnitSystem;
}): Shown {
  const quantity: Quantity = QUANTITIES[input.quantity];
  const to = quantity.shownIn?.[input.units];
  const value =
    to === undefined || quantity.canonical === undefined
      ? input.value
      : convert({ value: input.value, from: quantity.canonical, to });
  const decimals = (to === undefined ? undefined : quantity.decimalsIn?.[to]) ?? quantity.decimals;
  const text = value.toFixed(decimals);
  return {
    value: Number(text),
    decimals,
    symbol: to === undefined ? quantity.symbol : UNITS[to].symbol,
    text: Number(text) === 0 ? (0).toFixed(decimals) : text,
  };
}

/** What a typed value comes to. `doubtful` is kept when confirmed; `meant` is the likely meaning where there is one. */
export type Typed =
  | { readonly verdict: 'accepted'; readonly value: number }
  | { readonly verdict: 'doubtful'; readonly value: number; readonly meant: Meant | null }
  | { readonly verdict: 'refused'; readonly problem: Problem; readonly meant: Meant | null };

/**
 * Keys as they were pressed. Without a point the point is fixed by the quantity ("642" is pH 6.42, "370" is 37.0 °C);
 * with one (or a comma) the number is taken as written.
 * @param input.keys digits, at most one point or comma, an optional leading minus
 * @param input.field path used when the value is refused
 */
export function parseTyped(input: {
  readonly quantity: QuantityName;
  readonly keys: string;
  readonly units: UnitSystem;
  readonly sample?: Sample;
  readonly field?: string;
}): Typed {
  const quantity: Quantity = QUANTITIES[input.quantity];
  const field = input.field ?? input.quantity;
  const keys = input.keys.trim().replace(',', '.');
  const shown = displayValue({ quantity: input.quantity, value: quantity.plausible.low, units: input.units });
  if (!/^-?(\d+\.?\d*|\.\d+)$/.test(keys)) {
    return { verdict: 'refused', problem: notANumber({ field, value: input.keys, quantity }), meant: null };
  }
  const typed = keys.includes('.') ? Number(keys) : Number(keys) / 10 ** shown.decimals;
  const from = quantity.shownIn?.[input.units];
  const value =
    from === undefined || quantity.canonical === undefined
      ? typed
      : convert({ value: typed, from, to: quantity.canonical });
  return judgeValue({ ...input, value, field });
}

/**
 * Whether a value is accepted, doubted or refused.
 * @param input.value in the canonical unit
 */
export function judgeValue(input: {
  readonly quantity: QuantityName;
  readonly value: number;
  readonly field: string;
  readonly sample?: Sample;
}): Typed {
  const quantity: Quantity = QUANTITIES[input.quantity];
  const plausible = plausibleIn(input);
  if (!Number.isFinite(input.value)) {
    return {
      verdict: 'refused',
      problem: notANumber({ field: input.field, value: input.value, quantity }),
      meant: null,
    };
  }
  if (within(input.value, plausible)) return { verdict: 'accepted', value: input.value };
  const meant = likelyMeaning({ quantity: input.quantity, value: input.value, plausible });
  if (within(input.value, quantity.possible)) return { verdict: 'doubtful', value: input.value, meant };
  const unit = quantity.symbol === '' ? {} : { unit: quantity.symbol };
  return {
    verdict: 'refused',
    meant,
    problem: {
      code: 'impossible',
      field: input.field,
      value: input.value,
      ...unit,
      expected: intervalText(quantity.possible, quantity.symbol),
      remedy: meant === null ? 'Check the number and its unit.' : meant.text,
    },
  };
}

/** The value that was probably meant, and why, as one sentence. */
export interface Meant {
  readonly value: number;
  readonly slip: Slip;
  readonly text: string;
}

/** The likeliest slip behind an implausible value, or null. */
function likelyMeaning(input: {
  readonly quantity: QuantityName;
  readonly value: number;
  readonly plausible: Interval;
}): Meant | null {
  const quantity: Quantity = QUANTITIES[input.quantity];
  const { value, plausible } = input;
  const meant = (slip: Slip, range: Interval): Meant | null => {
    const candidate = CANDIDATES[slip](value).find((each) => within(each, range));
    if (candidate === undefined) return null;
    const shown = Number(candidate.toFixed(quantity.decimals));
    const unit = quantity.symbol === '' ? '' : ` ${quantity.symbol}`;
    return { value: shown, slip, text: MEANT_TEXT[slip]({ value, shown: `${shown}${unit}` }) };
  };
  for (const slip of quantity.slips) {
    // A value that cannot be a Celsius one at all was nearly certainly read in Fahrenheit, even if it is unusual then.
    const range = slip === 'fahrenheit' && !within(value, quantity.possible) ? quantity.possible : plausible;
    const found = meant(slip, range);
    if (found !== null) return found;
  }
  // Too warm for what it is, and no other slip explains it: Fahrenheit, of something unusually cold.
  const isTooWarm = quantity.slips.includes('fahrenheit') && value > plausible.high;
  return isTooWarm ? meant('fahrenheit', quantity.possible) : null;
}

/** What each slip would make of the value. */
const CANDIDATES: Readonly<Record<Slip, (value: number) => readonly number[]>> = {
  fahrenheit: (value) => [convert({ value, from: 'F', to: 'C' })],
  'decimal-point': (value) => [value / 10, value / 100],
  grams: (value) => [value / 1000],
  'dilution-label': (value) => [value / 75], // 1:15 000 is near 200 IMCU/mL, common practice (no source)
};

const MEANT_TEXT: Readonly<Record<Slip, (given: { readonly value: number; readonly shown: string }) => string>> = {
  fahrenheit: ({ value, shown }) => `If you meant ${value} °F, that is ${shown}.`,
  'decimal-point': ({ shown }) => `Did you mean ${shown}?`,
  grams: ({ shown }) => `If the scale shows grams, that is ${shown}.`,
  'dilution-label': ({ value, shown }) =>
    `If the label says 1:${value}, that is near ${shown}; such labels have no exact conversion.`,
};

const notANumber = (input: {
  readonly field: string;
  readonly value: unknown;
  readonly quantity: Quantity;
}): Problem => ({
  code: 'not-a-number',
  field: input.field,
  value: input.value,
  expected: `a number, ${intervalText(input.quantity.possible, input.quantity.symbol)}`,
  remedy: 'Give a number.',
});

const intervalText = (range: Interval, symbol: string): string =>
  `${range.low} to ${range.high}${symbol === '' ? '' : ` ${symbol}`}`;
