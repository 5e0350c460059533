/** A question as it is typed: `salt-in-moisture=1.6..2.0`, `done-by=16:30`, `brine-minutes=20..90`. */
import type { Adjustable, AdjustableUnit } from '../../make/adjustable.ts';
import type { UnitName } from '../../numbers/units.ts';
import { InputError, type Problem } from '../../numbers/validity.ts';
import { START, type AimQuantity, type Free, type Wanted } from '../../forecast/question.ts';
import { readTyped } from '../typed-quantity.ts';

/** What each aim is called when it is typed. */
export const AIM_NAMES: Readonly<Record<string, AimQuantity>> = {
  pH: 'pH',
  moisture: 'moisturePercent',
  'fat-in-solids': 'fatInDryMatterPercent',
  salt: 'saltPercent',
  'salt-in-moisture': 'saltInMoisturePercent',
  weight: 'cheeseKg',
  'weight-per-litre': 'cheesePerMilkKgPerL',
  'done-by': 'endMin',
};

/** Minutes since the plan's zero of a time of day as typed; null where it is no time. */
export type ClockReader = (text: string) => number | null;

interface Reading {
  readonly clock: ClockReader;
  readonly adjustables: readonly Adjustable[];
}

/**
 * Reads aims and free inputs.
 * @param input.aims `name=low..high`, either end open (`..55`); `done-by=16:30` alone is the latest; `pH@step=5.8..6.0`
 * @param input.free `id`, or `id=low..high`; values in the input's own unit or with another behind
 * @throws InputError with everything that cannot be read
 */
export function readQuestion(input: { readonly aims: readonly string[]; readonly free: readonly string[] } & Reading): {
  readonly aims: readonly Wanted[];
  readonly free: readonly Free[];
} {
  const read = [...input.aims.map((text) => aimOf(text, input)), ...input.free.map((text) => freeOf(text, input))];
  const problems = read.filter((one): one is { problem: Problem } => 'problem' in one).map(({ problem }) => problem);
  if (problems.length > 0) throw new InputError(problems);
  return {
    aims: read.filter((one): one is { aim: Wanted } => 'aim' in one).map(({ aim }) => aim),
    free: read.filter((one): one is { free: Free } => 'free' in one).map(({ free }) => free),
  };
}

type Read = { readonly aim: Wanted } | { readonly free: Free } | { readonly problem: Problem };

function aimOf(text: string, reading: Reading): Read {
  const [left = '', ...right] = text.split('=');
  const [name = '', stepId] = left.split('@');
  const quantity = Object.hasOwn(AIM_NAMES, name) ? AIM_NAMES[name] : undefined;
  if (quantity === undefined) return { problem: { code: 'unknown-choice', field: 'aim', value: text, expected: Object.keys(AIM_NAMES).join(', '), remedy: 'Write it as salt-in-moisture=1.6..2.0.' } }; // prettier-ignore
  const typed = right.join('=');
  // A time alone is the latest one; a number alone would leave open which side is meant.
  const range = quantity === 'endMin' && !typed.includes('..') ? `..${typed}` : typed;
  const unit: UnitName | undefined = quantity === 'cheeseKg' || quantity === 'cheesePerMilkKgPerL' ? 'kg' : undefined;
  const ends = endsOf(range, (end) => (quantity === 'endMin' ? reading.clock(end) : valueOf(end, unit)));
  if (ends === null) return { problem: { code: 'wrong-type', field: 'aim', value: text, expected: quantity === 'endMin' ? 'a time, such as done-by=16:30' : `a range, such as ${name}=${EXAMPLES[quantity]}`, remedy: 'Give both ends, or leave one of them open.' } }; // prettier-ignore
  return { aim: { quantity, ...ends, ...(stepId === undefined ? {} : { stepId }) } };
}

const EXAMPLES: Readonly<Record<Exclude<AimQuantity, 'endMin'>, string>> = {
  pH: '5.1..5.3',
  moisturePercent: '52..58',
  fatInDryMatterPercent: '45..55',
  saltPercent: '0.8..1.2',
  saltInMoisturePercent: '1.6..2.0',
  cheeseKg: '1.2..1.5kg',
  cheesePerMilkKgPerL: '0.12..0.15',
};

function freeOf(text: string, reading: Reading): Read {
  const [id = '', typed, ...more] = text.split('=');
  if (typed === undefined) return { free: { id } };
  const adjustable = reading.adjustables.find((one) => one.id === id);
  const ends = more.length > 0 ? null : endsOf(typed, (end) => (id === START ? reading.clock(end) : inUnit(end, adjustable?.unit))); // prettier-ignore
  if (ends === null) return { problem: { code: 'wrong-type', field: 'free', value: text, expected: id === START ? 'two times, such as start=08:00..10:00' : `a range, such as ${id}=low..high`, remedy: 'Give both ends, one of them, or the name alone.' } }; // prettier-ignore
  const { low, high } = ends;
  return { free: { id, ...(Number.isFinite(low) ? { low } : {}), ...(Number.isFinite(high) ? { high } : {}) } };
}

/** `low..high` with either end open; a unit behind the high end counts for both. Null where an end cannot be read. */
function endsOf(text: string, read: (end: string) => number | null): { low: number; high: number } | null {
  const parts = text.split('..').map((part) => part.trim());
  const [from = '', to = ''] = parts;
  if (parts.length !== 2 || (from === '' && to === '')) return null;
  const unit = /[^\d.,:\s-].*$/.exec(to)?.[0] ?? '';
  const low = from === '' ? Number.NEGATIVE_INFINITY : read(/^[\d.,-]+$/.test(from) ? `${from}${unit}` : from);
  const high = to === '' ? Number.POSITIVE_INFINITY : read(to);
  return low === null || high === null ? null : { low, high };
}

/** Units that a free input may be typed in; a share of the vat may be typed in per cent. */
const TYPED_IN: Readonly<Partial<Record<AdjustableUnit, UnitName>>> = { '°C': 'C', mm: 'mm', L: 'L', g: 'g' };

function inUnit(text: string, unit: AdjustableUnit | undefined): number | null {
  const isShare = unit === 'of the vat' || unit === 'of the whey' || unit === 'of the dose';
  const value = valueOf(text.replace(/\s*(min|pH)$/, ''), unit === undefined ? undefined : TYPED_IN[unit]);
  return value !== null && isShare && text.endsWith('%') ? value / 100 : value;
}

function valueOf(text: string, unit: UnitName | undefined): number | null {
  const read = readTyped({ text, field: 'value', ...(unit === undefined ? {} : { unit, into: unit }) });
  return 'value' in read ? read.value : null;
}
