/** Words for the fields, results and choices of a sum: the catalogue's, or the contract's name made readable. */
import { told, type Say } from '../words.ts';
import type { UnitSystem } from '../written.ts';
import { sentenceInUnits } from '../../make/sentence.ts';
import type { Problem } from '../../numbers/validity.ts';
import { typedSymbol, unitOfField } from './unit-of.ts';

/** The first of several keys that the catalogue has; null where it has none. */
export function sayFirst(say: Say, keys: readonly string[]): string | null {
  for (const key of keys) {
    const text = say(key);
    if (text !== key.slice(key.indexOf(':') + 1)) return text;
  }
  return null;
}

const nameOf = (path: string): string =>
  path
    .split('.')
    .filter((part) => !/^\d+$/.test(part) && part !== 'last')
    .at(-1) ?? path;
const keyOf = (path: string): string => path.replaceAll(/\.(\d+|last)/g, '').replaceAll('.', '-');

/** `curdMoisturePercent` as "curd moisture": a fallback, so that nothing is blank. */
export function readable(name: string): string {
  const bare = name.replace(/(Percent|PerKgK|PerM3|PerML|PerL|Minutes|Hours|Days|Kg|Mm|ML|MM|mL|[CLGW])$/, '');
  const text = (bare === '' ? name : bare)
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .replaceAll('-', ' ')
    .toLowerCase();
  return text.charAt(0).toUpperCase() + text.slice(1);
}

interface Named {
  readonly sum: string;
  readonly path: string;
}

/** Where the words for a field are looked for, the sum's own first. */
export const fieldKeys = ({ sum, path }: Named): readonly string[] => [
  `bench:sums.${sum}.fields.${keyOf(path)}`,
  `bench:fields.${keyOf(path)}`,
  `bench:fields.${nameOf(path)}`,
];

/** Where the words for a result are looked for: its own, else those of the field of the same name. */
export const resultKeys = ({ sum, path }: Named): readonly string[] => [
  `bench:sums.${sum}.results.${keyOf(path)}`,
  `bench:results.${nameOf(path)}`,
  ...fieldKeys({ sum, path }),
];

/** What a field is called. */
export const fieldLabel = ({ say, ...named }: Named & { readonly say: Say }): string =>
  sayFirst(say, fieldKeys(named)) ?? readable(nameOf(named.path));

/** What a result is called. */
export const resultLabel = ({ say, ...named }: Named & { readonly say: Say }): string =>
  sayFirst(say, resultKeys(named)) ?? readable(nameOf(named.path));

/** One of a few words, as the reader sees it. */
export function optionLabel(input: {
  readonly say: Say;
  readonly sum: string;
  readonly path: string;
  readonly value: string;
}): string {
  const { say, sum, path, value } = input;
  const name = nameOf(path);
  const keys = [
    `bench:sums.${sum}.options.${name}.${value}`,
    `bench:options.${name}.${value}`,
    `bench:options.any.${value}`,
    `bench:measures.units.${value}`,
  ];
  return sayFirst(say, keys) ?? spoonLabel(say, value) ?? value.replaceAll('-', ' ');
}

/** `us-half-teaspoon` as "half teaspoons (US)"; null for anything that is no spoon or cup of a region. */
function spoonLabel(say: Say, value: string): string | null {
  const [region = '', ...rest] = value.split('-');
  const regionWords = sayFirst(say, [`bench:measures.regions.${region}`]);
  const spoon = sayFirst(say, [`bench:measures.spoons.${rest.join('-')}`]);
  return regionWords === null || spoon === null ? null : say('bench:measures.named', { spoon, region: regionWords });
}

/** Contract names inside a sentence of a sum as the labels of their fields. */
export function withLabels(input: {
  readonly text: string;
  readonly say: Say;
  readonly sum: string;
  readonly paths: readonly string[];
  /** Names of results that the sum speaks of. */
  readonly results?: readonly string[];
}): string {
  const { say, sum, paths, results = [] } = input;
  // The longest first, so that `milk.fatPercent` is not taken for a `fatPercent` behind a word.
  const names = new Map<string, string>(results.map((path) => [path, resultLabel({ say, sum, path })]));
  for (const path of paths) {
    const label = fieldLabel({ say, sum, path });
    names.set(path, label).set(nameOf(path), label);
  }
  let { text } = input;
  for (const [name, label] of [...names].sort(([a], [b]) => b.length - a.length)) {
    text = text.replaceAll(
      new RegExp(`(^|; )${escaped(name)}: `, 'g'),
      (_all, before: string) => `${before}${label}: `,
    );
    if (isContractName(name)) text = text.replaceAll(new RegExp(`\\b${escaped(name)}\\b`, 'g'), lowerFirst(label));
  }
  return text;
}

const UNITS_AND_SIGNS: ReadonlySet<string> = new Set(['pH', 'mL', 'kJ']);
/** A name that no plain sentence would have: `targetPH`, `milk.fatPercent`. */
const isContractName = (name: string): boolean =>
  !UNITS_AND_SIGNS.has(name) && (/[a-z][A-Z0-9]/.test(name) || name.includes('.'));
const escaped = (name: string): string => name.replaceAll('.', '\\.');
export const lowerFirst = (text: string): string =>
  /^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

/** The same path however it was written: `readings[0].pH` is `readings.0.pH`. */
export const dotted = (path: string): string => path.replaceAll(/\[(\d+)\]/g, '.$1');

/** A problem in the house form: field, value given, what is possible, what to do. */
export function problemSentence(input: {
  readonly problem: Problem;
  readonly say: Say;
  readonly sum: string;
  readonly paths: readonly string[];
  readonly units: UnitSystem;
  /** As it was typed, with the unit it was typed in. */
  readonly typed: string | undefined;
}): string {
  const { problem, say, sum, paths, units, typed } = input;
  const field = fieldLabel({ say, sum, path: dotted(problem.field) });
  const inWords = (text: string): string =>
    sentenceInUnits({ text: withLabels({ text: told(say, text), say, sum, paths }), units });
  const expected = inWords(problem.expected);
  if (problem.code === 'missing') return say('bench:problems.missing', { field, expected });
  const remedy = inWords(problem.remedy);
  const unit = typedSymbol({ unit: unitOfField(dotted(problem.field)), units });
  if (typed === undefined || typed.trim() === '') return say('bench:problems.bare', { field, expected, remedy });
  const value = unit === '' || /[a-z°%]/i.test(typed) ? typed : `${typed}\u00A0${unit}`;
  return say('bench:problems.given', { field, value, expected, remedy });
}
