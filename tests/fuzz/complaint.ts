/** What would be wrong with how a sum takes an input: the judge of all fuzzing. */
import { answer, fieldsOf } from '../../src/exchange/calc/answer.ts';
import type { AnyCalculator } from '../../src/exchange/calc/registry.ts';
import { InputError, type Problem } from '../../src/numbers/validity.ts';

/** Every number in a value, with where it stands. */
function* numbersIn(value: unknown, path = ''): Generator<readonly [string, number]> {
  if (typeof value === 'number') yield [path, value];
  else if (typeof value === 'object' && value !== null) {
    for (const [name, each] of Object.entries(value)) yield* numbersIn(each, `${path}.${name}`);
  }
}

/** A clear problem says what would do and what to do about it, and names a field that the giver knows. */
function isClear(sum: AnyCalculator, { code, field, expected, remedy }: Problem): boolean {
  const first = /^[^.[]*/.exec(field)?.[0] ?? '';
  const isKnown = code === 'unknown-field' || field === 'input' || fieldsOf(sum).includes(first);
  return isKnown && expected !== '' && remedy !== '';
}

/** How a sum took an input: answered or refused, and what is wrong with that; null when it is finite or clear. */
export function taken(
  sum: AnyCalculator,
  input: unknown,
): { readonly isAnswered: boolean; readonly complaint: string | null } {
  try {
    const out = answer({ name: sum.name, input });
    return { isAnswered: true, complaint: complaintOfAnswer(sum, out) };
  } catch (error) {
    if (!(error instanceof InputError)) {
      return { isAnswered: false, complaint: error instanceof Error ? String(error.stack) : String(error) };
    }
    if (error.problems.length === 0) return { isAnswered: false, complaint: 'refuses without a problem' };
    const unclear = error.problems.find((problem) => !isClear(sum, problem));
    const complaint = unclear === undefined ? null : `says too little: ${JSON.stringify(unclear)}`;
    return { isAnswered: false, complaint };
  }
}

function complaintOfAnswer(sum: AnyCalculator, out: { readonly result: unknown }): string | null {
  for (const [path, each] of numbersIn(out)) if (!Number.isFinite(each)) return `${path} is ${each}`;
  const issue = sum.result.safeParse(out.result).error?.issues[0];
  return issue === undefined ? null : `breaks its own schema: ${JSON.stringify(issue)}`;
}
