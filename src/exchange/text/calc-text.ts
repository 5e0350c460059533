/** A sum's answer for a person: rounded, named, with its unit. */
import type { CalcEnvelope } from '../calc/answer.ts';
import { columns, paragraph, section } from './layout.ts';

const WIDTH = 96;
const CURVE_ROWS = 12;
/** More fields than this stand under each other. */
const MOST_COLUMNS = 5;

/** Endings of names and the unit each stands for, longest first. */
const UNITS: readonly (readonly [string, string])[] = [
  ['MinutesAt63C', 'min at 63 °C'], ['SecondsAt72C', 's at 72 °C'], ['MarginPoints', 'points'],
  ['KgPerM3', 'kg/m³'], ['KJPerKgK', 'kJ/(kg K)'], ['IMCUPerML', 'IMCU/mL'], ['IMCUPerL', 'IMCU/L'], ['WPerK', 'W/K'],
  ['GPerLWater', 'g per L of water'], ['gPerLWater', 'g per L of water'], ['gPerLBrine', 'g per L of brine'],
  ['kgPer100kg', 'kg per 100 kg'], ['kgPer100L', 'kg per 100 L'], ['gPerL', 'g/L'], ['GPerL', 'g/L'], ['mmolPerL', 'mmol/L'],
  ['Percent', '%'], ['Minutes', 'min'], ['minutes', 'min'], ['minute', 'min'], ['Minute', 'min'], ['Seconds', 's'], ['seconds', 's'], ['Hours', 'h'], ['hours', 'h'],
  ['Days', 'd'], ['Mm', 'mm'], ['MM', 'mmol/L'], ['ML', 'mL'], ['mL', 'mL'], ['Kg', 'kg'], ['kg', 'kg'], ['W', 'W'], ['L', 'L'], ['C', '°C'], ['G', 'g'],
]; // prettier-ignore

/** The envelope as lines: result, then cautions, assumptions and sources. */
export function calcText(envelope: CalcEnvelope): string {
  const { name, result, cautions, assumptions, sources } = envelope;
  const lines = [
    name,
    ...resultLines(result),
    ...section({
      title: 'Cautions',
      lines: columns({ rows: cautions.map(({ severity, text }) => [severity, text]), width: WIDTH }),
    }),
    ...section({ title: 'Assumed', lines: assumptions.flatMap((text) => paragraph({ text, width: WIDTH, hang: 2 })) }),
    ...section({ title: 'Sources', lines: sources.flatMap((text) => paragraph({ text, width: WIDTH, hang: 2 })) }),
  ];
  return `${lines.join('\n')}\n`;
}

function resultLines(result: unknown): string[] {
  if (!isObject(result)) return [`  ${numberText(result)}`];
  const plain = Object.entries(result).filter(([, value]) => !isTable(value));
  const tables = Object.entries(result).filter(([, value]) => isTable(value));
  return [
    ...columns({ rows: plain.flatMap(([key, value]) => rowsOf(key, value)), width: WIDTH }),
    ...tables.flatMap(([key, value]) => tableLines(key, value)),
  ];
}

/** One figure a row; a band in one row; other objects one row a field. */
function rowsOf(key: string, value: unknown): string[][] {
  const { label, unit } = named(key);
  const withUnit = (text: string): string => (unit === '' ? text : `${text} ${unit}`);
  if (!isObject(value)) return [[label, value === null ? 'not reached' : withUnit(listText(value))]];
  if ('p5' in value || 'low' in value) {
    const { p5 = value['low'], p50, p95 = value['high'], probability } = value;
    const span = withUnit(`${numberText(p5)} to ${numberText(p95)}`);
    const chance = typeof probability === 'number' ? `, reached ${Math.round(probability * 100)} times in 100` : '';
    return [[label, p50 === undefined ? span : `${withUnit(numberText(p50))}  (9 times in 10 ${span}${chance})`]];
  }
  return Object.entries(value).flatMap(([inside, each]) =>
    rowsOf(inside, each).map(([name = '', ...rest]) => [`${label}: ${name.toLowerCase()}`, ...rest]),
  );
}

/** Every so many rows of a curve, the last one always. */
function tableLines(key: string, value: unknown): string[] {
  const all = Array.isArray(value) ? value.filter(isObject) : [];
  if (all.every(isName)) return nameLines(key, all.filter(isName));
  // A curve can be thinned; a list of named things cannot.
  const isCurve = all.every((row) => Object.values(row).every((each) => typeof each !== 'string'));
  const every = isCurve ? Math.max(1, Math.ceil(all.length / CURVE_ROWS)) : 1;
  const shown = all.filter((_, index) => index % every === 0 || index === all.length - 1);
  const keys = Object.keys(all[0] ?? {});
  const head = keys.map((each) => {
    const { label, unit } = named(each);
    return unit === '' || each === each.toLowerCase() ? label : `${label}, ${unit}`;
  });
  const rows = shown.map((row) => keys.map((each) => cellText(row[each])));
  const isWide = head.length > MOST_COLUMNS;
  if (isWide) return ['', `  ${named(key).label}`, ...listLines(head, rows)];
  return ['', `  ${named(key).label}`, ...columns({ rows: [head, ...rows], width: WIDTH, indent: 4 })];
}

/** A name that a cheese could bear, with the points by which it does or does not. */
interface NameRow {
  readonly name: string;
  readonly rule: string;
  readonly marginPoints: number;
  readonly [other: string]: unknown;
}
const isName = (row: Readonly<Record<string, unknown>>): row is NameRow =>
  typeof row['name'] === 'string' && typeof row['rule'] === 'string' && typeof row['marginPoints'] === 'number';

/** One name a line. */
function nameLines(key: string, rows: readonly NameRow[]): string[] {
  const notes = (row: NameRow): string =>
    [
      ...(row['needsPasteurisedMilk'] === true ? ['pasteurised milk only'] : []),
      ...(row['unconfirmed'] === true ? ['unconfirmed'] : []),
    ].join(', ');
  const lines = rows.map((row) => [row.name, row.rule, `${numberText(row.marginPoints)} points`, notes(row)]);
  return ['', `  ${named(key).label}`, ...columns({ rows: lines, width: WIDTH, indent: 4 })];
}

/** Rows of many fields, one under the other. */
function listLines(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  return rows.flatMap((row) => [
    ...columns({ rows: head.map((label, index) => [label, row[index] ?? '']), width: WIDTH, indent: 4 }),
    '',
  ]);
}

function cellText(value: unknown): string {
  if (!isObject(value)) return listText(value);
  const { p5, p50, p95 } = value;
  return `${numberText(p50)} (${numberText(p5)} to ${numberText(p95)})`;
}

/** Names that are nothing but a unit, and quantiles. */
const WHOLE_NAMES: Readonly<Record<string, string>> = {
  kgPer100kg: 'Yield', kgPer100L: 'Yield', gPerL: 'Amount', mmolPerL: 'Amount', mL: 'Volume', pH: 'pH', p5: 'p5', p50: 'p50', p95: 'p95',
}; // prettier-ignore

/** `wheyDrawnL` as "Whey drawn" and "L". */
function named(key: string): { readonly label: string; readonly unit: string } {
  const [ending, unit] = UNITS.find(([each]) => key.endsWith(each)) ?? ['', ''];
  const whole = Object.hasOwn(WHOLE_NAMES, key) ? WHOLE_NAMES[key] : undefined;
  if (whole !== undefined) return { label: whole, unit };
  const stem = key === ending ? key : key.slice(0, key.length - ending.length);
  const words = stem
    .replaceAll(/([a-z0-9])([A-Z])/g, '$1 $2')
    .split(' ')
    .map((word) => (/^[A-Z][a-z]/.test(word) ? word.toLowerCase() : word.replace(/^PH$/, 'pH')))
    .join(' ');
  return { label: `${words.charAt(0).toUpperCase()}${words.slice(1)}`, unit };
}

const listText = (value: unknown): string =>
  Array.isArray(value) ? value.map(listItem).join(', ') : numberText(value);
const listItem = (value: unknown): string =>
  isObject(value) ? Object.values(value).map(numberText).join(' ') : numberText(value);

const TINY = 1e-6; // less than anything a maker weighs or measures: our own choice

/** Three significant figures; whole numbers from 1000 on. */
function numberText(value: unknown): string {
  if (typeof value === 'number') {
    if (Math.abs(value) >= 1000) return value.toFixed(0);
    return Math.abs(value) < TINY ? '0' : String(Number(value.toPrecision(3)));
  }
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (value === null || value === undefined) return '-';
  return typeof value === 'string' ? value : JSON.stringify(value);
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A list of objects that have more than one field is printed as a table. */
const isTable = (value: unknown): boolean => Array.isArray(value) && value.length > 0 && value.every(isObject);
