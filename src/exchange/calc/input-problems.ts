/** What is wrong with a sum's input, all of it at once, in words that name the field and what would do. */
import type { z } from 'zod';
import { pathText } from '../../make/make.ts';
import { valueAt } from '../../make/problems.ts';
import type { Problem } from '../../numbers/validity.ts';

const SCHEMA_HINT = 'The schema of this sum lists its fields.';

/**
 * Every issue of a parse as a problem: missing, not a number, wrong type, not one of the choices, physically impossible,
 * unknown field (with the field that was probably meant).
 */
export function inputProblems(input: {
  readonly issues: readonly z.core.$ZodIssue[];
  readonly json: unknown;
  readonly fields: readonly string[];
}): Problem[] {
  return input.issues.flatMap((issue): Problem[] => {
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => unknownField({ ...input, issue, key }));
    }
    const value = valueAt({ json: input.json, path: issue.path });
    const field = pathText(issue.path);
    return [
      {
        code: codeOf(issue, value),
        field: field === '' ? 'input' : field,
        value,
        expected: expectedOf(issue),
        remedy: remedyOf(issue, value),
      },
    ];
  });
}

function codeOf(issue: z.core.$ZodIssue, value: unknown): Problem['code'] {
  if (value === undefined) return 'missing';
  if (typeof value === 'number' && !Number.isFinite(value)) return 'not-a-number';
  switch (issue.code) {
    case 'invalid_value':
      return 'unknown-choice';
    case 'too_small':
    case 'too_big':
    case 'not_multiple_of':
      return 'impossible';
    case 'custom':
      return 'contradiction';
    case 'invalid_type':
      return issue.expected === 'number' ? 'not-a-number' : 'wrong-type';
    default:
      return 'wrong-type';
  }
}

function expectedOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'too_small':
    case 'too_big':
      return limitText(issue);
    case 'invalid_value':
      return issue.values.map(String).join(', ');
    case 'invalid_type':
      return issue.expected === 'number' ? 'a number' : issue.expected;
    default:
      return issue.message.replace(/^Invalid input: expected /, '');
  }
}

function limitText(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): string {
  const isLow = issue.code === 'too_small';
  const limit = String(isLow ? issue.minimum : issue.maximum);
  if (issue.origin === 'array') return isLow ? `at least ${limit} of them` : `at most ${limit} of them`;
  if (issue.inclusive === false) return isLow ? `more than ${limit}` : `less than ${limit}`;
  return isLow ? `${limit} or more` : `${limit} or less`;
}

function remedyOf(issue: z.core.$ZodIssue, value: unknown): string {
  if (value === undefined) return `Give it. ${SCHEMA_HINT}`;
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected === 'number' ? 'Give figures without a unit; the unit is in the name.' : SCHEMA_HINT;
    case 'invalid_value':
      return 'Use one of these words.';
    case 'too_small':
    case 'too_big':
      return 'Give a possible value, in the unit of the name.';
    default:
      return SCHEMA_HINT;
  }
}

function unknownField(input: {
  readonly issue: z.core.$ZodIssueUnrecognizedKeys;
  readonly key: string;
  readonly json: unknown;
  readonly fields: readonly string[];
}): Problem {
  const { issue, key } = input;
  const path = [...issue.path, key];
  const meant = issue.path.length === 0 ? nearestField(key, input.fields) : undefined;
  return {
    code: 'unknown-field',
    field: pathText(path),
    value: valueAt({ json: input.json, path }),
    expected: issue.path.length === 0 ? `only ${input.fields.join(', ')}` : 'only the fields of the schema',
    remedy:
      meant === undefined ? 'Take it out, or correct its spelling.' : `If ${meant} was meant, give it in that unit.`,
  };
}

/** The same quantity under another unit or another case: `temperatureF` for `temperatureC`, `milkl` for `milkL`. */
function nearestField(key: string, fields: readonly string[]): string | undefined {
  const plain = (name: string): string => name.toLowerCase().replaceAll(/[_-]/g, '');
  const stem = (name: string): string =>
    name.replace(/_?(?:C|F|K|L|mL|ML|kg|Kg|g|G|Gal|gal|Percent|Minutes|Min|Hours|Days|W|MM|mm|Mm)$/, '').toLowerCase();
  return (
    fields.find((field) => plain(field) === plain(key)) ??
    fields.find((field) => stem(field) !== '' && stem(field) === stem(key))
  );
}
