/**
 * Validity as data, and the one error that bad input gets.
 *
 * A model states its ranges as a `Validity` constant beside the function. Calculators refuse outside it
 * (`requireWithin`), simulations flag it (`outside`), solvers wander freely and check where they end.
 */

/** The closed range one input was measured or derived over, with its unit and where the range comes from. */
export interface Range {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly source: string;
}

/** Ranges by field name of a model's input. */
export type Validity = Readonly<Record<string, Range>>;

export type ProblemCode =
  | 'missing'
  | 'not-a-number'
  | 'wrong-type'
  | 'impossible'
  | 'outside-validity'
  | 'unknown-field'
  | 'unknown-choice'
  | 'contradiction'
  | 'unreachable'
  | 'unreadable';

/** One thing wrong with one field: data first, words last. */
export interface Problem {
  readonly code: ProblemCode;
  /** Path of the field, as the giver wrote it: `milk.fatPercent`. */
  readonly field: string;
  readonly value: unknown;
  readonly unit?: string;
  /** What would be possible, in words: "25 to 40 °C". */
  readonly expected: string;
  /** What to do about it, one sentence. */
  readonly remedy: string;
  readonly source?: string;
}

/** A problem in one sentence: field, value given, what is possible, what to do. */
export function problemText(problem: Problem): string {
  const given =
    problem.value === undefined
      ? 'is missing'
      : `${printed(problem.value)}${problem.unit === undefined ? '' : ` ${problem.unit}`} does not fit`;
  const source = problem.source === undefined ? '' : ` (${problem.source})`;
  return `${problem.field} ${given}: expected ${problem.expected}${source}. ${problem.remedy}`;
}

function printed(value: unknown): string {
  if (typeof value === 'number') return Number.isNaN(value) ? 'not a number' : String(value);
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/**
 * Input that cannot be answered. `outsideModel` is true when every problem is physically possible
 * but outside a model's measured range (a calculator then exits 3, not 2).
 */
export class InputError extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(problems.map(problemText).join('\n'));
    this.name = 'InputError';
    this.problems = problems;
  }

  get outsideModel(): boolean {
    return this.problems.every((problem) => problem.code === 'outside-validity' || problem.code === 'unreachable');
  }
}

/**
 * Every value that lies outside its range, as problems; an empty list when all are inside.
 * Values that are undefined are not judged (optional inputs).
 */
export function outside(validity: Validity, values: Readonly<Record<string, number | undefined>>): Problem[] {
  const problems: Problem[] = [];
  for (const field of Object.keys(validity)) {
    const value = values[field];
    const range = validity[field];
    if (value === undefined || range === undefined) continue;
    if (!Number.isFinite(value)) {
      problems.push({
        code: 'not-a-number',
        field,
        value,
        unit: range.unit,
        expected: `${range.low} to ${range.high} ${range.unit}`,
        remedy: 'Give a number.',
      });
    } else if (value < range.low || value > range.high) {
      problems.push({
        code: 'outside-validity',
        field,
        value,
        unit: range.unit,
        expected: `${range.low} to ${range.high} ${range.unit}`,
        remedy: 'The model was not measured there; give a value inside the range.',
        source: range.source,
      });
    }
  }
  return problems;
}

/**
 * Refuses values outside their ranges.
 * @throws InputError with every offending field, its value, the range and the range's source
 */
export function requireWithin(validity: Validity, values: Readonly<Record<string, number | undefined>>): void {
  const problems = outside(validity, values);
  if (problems.length > 0) throw new InputError(problems);
}
