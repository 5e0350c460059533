/** A planning question in an address: which make, whose milk, pot and units. No server has to know of it. */
import { z } from 'zod';
import { readAnswers } from '../../make/answers.ts';
import { isRecord } from '../../make/problems.ts';
import type { Answers } from '../../make/setup.ts';
import { InputError, type Problem } from '../../numbers/validity.ts';

/** What is asked: a make by its id, and every answer. */
export interface PlanQuestion {
  readonly makeId: string;
  readonly answers: Answers;
  /** The make itself, packed by a door, where the other shelf may not have it. */
  readonly packedMake?: string;
}

/** Answers that mean something on this device alone: which bottle of the list, what was doubted and kept. */
const MINE: ReadonlySet<string> = new Set(['lot', 'confirmed', 'batchesWithLot']);
const MAKE = 'make';
const PACKED = 'carry';

/**
 * The address of a question. It stands behind the `#`, which no browser sends anywhere.
 * @param input.base where the app is: `http://localhost:4711`
 */
export function questionAddress(input: { readonly base: string; readonly question: PlanQuestion }): string {
  const { base, question } = input;
  const pairs: (readonly [string, string | number | boolean])[] = [
    [MAKE, question.makeId],
    ...leaves(question.answers, ''),
    ...(question.packedMake === undefined ? [] : [[PACKED, question.packedMake] as const]),
  ];
  const fragment = pairs.map(([name, value]) => `${encodeURIComponent(name)}=${encodeURIComponent(value)}`).join('&');
  return `${base.replace(/\/$/, '')}/plan#${fragment}`;
}

function leaves(node: Readonly<Record<string, unknown>>, path: string): [string, string | number | boolean][] {
  return Object.entries(node).flatMap(([name, value]): [string, string | number | boolean][] => {
    if (MINE.has(name)) return [];
    const at = path === '' ? name : `${path}.${name}`;
    if (isRecord(value)) return leaves(value, at);
    return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? [[at, value]] : [];
  });
}

const makeIdSchema = z.string().regex(/^[a-z][a-z0-9-]{0,80}$/);

/**
 * The question behind the `#` of an address.
 * @param fragment with or without its `#`
 * @returns null where none is asked
 * @throws InputError with every answer that cannot be read
 */
export function readQuestion(fragment: string): PlanQuestion | null {
  const params = new Map(pairsOf(fragment.replace(/^#/, '')));
  const named = params.get(MAKE);
  if (named === undefined) return null;
  const makeId = makeIdSchema.safeParse(named);
  const tree: Record<string, unknown> = {};
  for (const [path, text] of params) if (path !== MAKE && path !== PACKED) put(tree, path.split('.'), valueOf(text));
  const read = readAnswers(tree);
  const problems: Problem[] = 'problems' in read ? [...read.problems] : [];
  if (!makeId.success) problems.push({ code: 'unknown-choice', field: MAKE, value: named, expected: 'the id of a make', remedy: 'Ask for the link once more.' }); // prettier-ignore
  if (problems.length > 0 || 'problems' in read || !makeId.success) throw new InputError(problems);
  const packed = params.get(PACKED);
  return { makeId: makeId.data, answers: read.answers, ...(packed === undefined ? {} : { packedMake: packed }) };
}

function pairsOf(fragment: string): [string, string][] {
  return fragment.split('&').flatMap((pair): [string, string][] => {
    const [name = '', ...value] = pair.split('=');
    try {
      return [[decodeURIComponent(name), decodeURIComponent(value.join('=').replaceAll('+', ' '))]];
    } catch {
      return [];
    }
  });
}

/** Numbers and yes or no as what they are, all else as words; the schema decides whether that will do. */
function valueOf(text: string): string | number | boolean {
  if (/^-?\d+(\.\d+)?$/.test(text)) return Number(text);
  return text === 'true' ? true : text === 'false' ? false : text;
}

const FORBIDDEN: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

function put(tree: Record<string, unknown>, path: readonly string[], value: unknown): void {
  const [name, ...rest] = path;
  if (name === undefined || name === '' || FORBIDDEN.has(name)) return;
  if (rest.length === 0) {
    tree[name] = value;
    return;
  }
  const inner = tree[name];
  const next: Record<string, unknown> = isRecord(inner) ? inner : {};
  tree[name] = next;
  put(next, rest, value);
}
