/** "My kit and milk" from the flags of `vatside plan`. What is not said is assumed by the planner. */
import { readAnswers } from '../../make/answers.ts';
import type { Answers } from '../../make/setup.ts';
import { readTyped } from '../../exchange/typed-quantity.ts';
import type { UnitName } from '../../numbers/units.ts';
import { InputError, type Problem } from '../../numbers/validity.ts';
import { withValues } from './set-values.ts';
import { wordsOf, WORD_FLAGS } from './plan-words.ts';

/** Flags that take one number: the answer's path and the unit of a bare number. */
const NUMBER_FLAGS: Readonly<Record<string, { readonly path: string; readonly unit?: UnitName }>> = {
  milk: { path: 'milk.volumeL', unit: 'L' },
  fat: { path: 'milk.fatPercent' },
  protein: { path: 'milk.proteinPercent' },
  'milk-ph': { path: 'milk.pH' },
  'milk-temp': { path: 'milk.temperatureC', unit: 'C' },
  'packet-for': { path: 'culture.packetTreatsL', unit: 'L' },
  'packet-weighs': { path: 'culture.packetMassG', unit: 'g' },
  pot: { path: 'pot.volumeL', unit: 'L' },
  'pot-inside': { path: 'pot.insideMm', unit: 'mm' },
  room: { path: 'room.temperatureC', unit: 'C' },
  pieces: { path: 'pieceG', unit: 'g' },
};

/** Flags that are said or not. */
const YES_FLAGS: Readonly<Record<string, { readonly path: string; readonly value: boolean }>> = {
  meter: { path: 'instruments.pHMeter', value: true },
  'no-calcium': { path: 'calcium.has', value: false },
  'for-sale': { path: 'forSale', value: true },
  children: { path: 'children', value: true },
};

const text = { type: 'string' } as const;
const yes = { type: 'boolean' } as const;

/** Every flag that answers something about kit and milk. */
export const ANSWER_OPTIONS = {
  milk: text, fat: text, protein: text, 'milk-ph': text, 'milk-temp': text, 'packet-for': text, 'packet-weighs': text,
  pot: text, 'pot-inside': text, room: text, pieces: text,
  'milk-type': text, culture: text, rennet: text, burner: text, 'keep-warm': text, units: text,
  meter: yes, 'no-calcium': yes, 'for-sale': yes, children: yes,
  set: { type: 'string', multiple: true }, confirm: { type: 'string', multiple: true },
} as const; // prettier-ignore

export type AnswerFlags = Readonly<Partial<Record<string, string | boolean | readonly (string | boolean)[]>>>;

/** The flag that answers a path, for messages: `--fat` for `milk.fatPercent`. */
export function flagFor(path: string): string | undefined {
  const number = Object.entries(NUMBER_FLAGS).find(([, flag]) => flag.path === path);
  const word = Object.entries(WORD_FLAGS).find(([, paths]) => paths.includes(path));
  const said = Object.entries(YES_FLAGS).find(([, flag]) => flag.path === path);
  const found = number?.[0] ?? word?.[0] ?? said?.[0];
  return found === undefined ? undefined : `--${found}`;
}

/**
 * The answers that the flags give.
 * @throws InputError with every flag that cannot be read and every answer that cannot be
 */
export function answersFrom(flags: AnswerFlags): Answers {
  const problems: Problem[] = [];
  const pairs: [string, unknown][] = [];
  for (const [name, { path, unit }] of Object.entries(NUMBER_FLAGS)) {
    const typed = flags[name];
    if (typeof typed !== 'string') continue;
    const read = readTyped({ text: typed, field: path, ...(unit === undefined ? {} : { unit, into: unit }) });
    if ('value' in read) pairs.push([path, read.value]);
    else problems.push(read.problem);
  }
  for (const name of Object.keys(WORD_FLAGS)) {
    const typed = flags[name];
    if (typeof typed !== 'string') continue;
    for (const read of wordsOf({ flag: name, text: typed })) {
      if ('problem' in read) problems.push(read.problem);
      else pairs.push([read.path, read.value]);
    }
  }
  for (const [name, { path, value }] of Object.entries(YES_FLAGS)) if (flags[name] === true) pairs.push([path, value]);
  const confirmed = listOf(flags['confirm']);
  if (confirmed.length > 0) pairs.push(['confirmed', confirmed]);
  const json = withValues({ milk: {} }, [
    ...pairs.map(([path, value]) => `${path}=${JSON.stringify(value)}`),
    ...listOf(flags['set']),
  ]);
  const read = readAnswers(json);
  const unread = new Set(problems.map((problem) => problem.field));
  if ('problems' in read) problems.push(...read.problems.filter((problem) => !unread.has(problem.field)));
  if (problems.length > 0 || 'problems' in read) throw new InputError(problems.map(namedMilk));
  return read.answers;
}

const listOf = (value: AnswerFlags[string]): string[] =>
  Array.isArray(value) ? value.filter((one): one is string => typeof one === 'string') : [];

/** Milk is the one thing that must be said. */
const namedMilk = (problem: Problem): Problem =>
  problem.field === 'milk.volumeL' && problem.value === undefined
    ? {
        ...problem,
        code: 'missing',
        expected: 'how much milk there is',
        remedy: 'Give it as --milk 12L or --milk 3gal.',
      }
    : problem;
