/** What a schema found wrong, in the house's words: path, value given, what would do. */
import type { z } from 'zod';
import type { Problem } from '../numbers/validity.ts';

/** The longest name of a field in any of our schemas has some thirty letters. */
const LONGEST_NAME = 80;

/** `steps[3].set.toC` from a path of keys and indices. */
export function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (text, key) =>
      typeof key === 'number' ? `${text}[${key}]` : text === '' ? nameText(key) : `${text}.${nameText(key)}`,
    '',
  );
}

/** A name that is empty, or none that a person would give a field, still shows where it stands. */
function nameText(key: PropertyKey): string {
  const name = String(key);
  return name === '' ? '""' : name.length > LONGEST_NAME ? `${name.slice(0, LONGEST_NAME)}…` : name;
}

/** True for anything whose fields can be looked at. */
export const isRecord = (value: unknown): value is Record<PropertyKey, unknown> =>
  typeof value === 'object' && value !== null;

/** The value at a path of unread JSON; undefined where there is none. */
export function valueAt(input: { readonly json: unknown; readonly path: readonly PropertyKey[] }): unknown {
  let value = input.json;
  for (const key of input.path) {
    if (!isRecord(value)) return undefined;
    value = value[key];
  }
  return value;
}

/**
 * Every issue of a Zod parse as a problem. Unknown fields are named one by one, so that a slip of spelling is found.
 * @param input.whole what the document is called where the trouble is the document itself
 */
export function schemaProblems(input: {
  readonly issues: readonly z.core.$ZodIssue[];
  readonly json: unknown;
  readonly whole: string;
  readonly remedy: string;
}): Problem[] {
  return input.issues.flatMap((issue): Problem[] => {
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({
        code: 'unknown-field',
        field: pathText([...issue.path, key]),
        value: valueAt({ json: input.json, path: [...issue.path, key] }),
        expected: 'only fields of the schema',
        remedy: `Take it out, or correct its spelling. ${input.remedy}`,
      }));
    }
    const field = pathText(issue.path);
    const value = valueAt({ json: input.json, path: issue.path });
    return [
      {
        code: codeOf(issue, value),
        field: field === '' ? input.whole : field,
        value,
        expected: issue.message.replace(/^Invalid (?:input|option): expected /, ''),
        remedy: input.remedy,
      },
    ];
  });
}

function codeOf(issue: z.core.$ZodIssue, value: unknown): Problem['code'] {
  if (value === undefined) return 'missing';
  if (typeof value === 'number' && Number.isNaN(value)) return 'not-a-number';
  if (issue.code === 'invalid_value') return 'unknown-choice';
  return 'wrong-type';
}
