import { solve, type Coefficients, type Constraint } from 'yalps';

/** Whole-number programs with columns that are taken or left: is there any choice of columns that keeps every row? */

/** A sum of columns that must lie between two numbers. */
export interface Row {
  readonly terms: readonly (readonly [column: number, coefficient: number])[];
  readonly least?: number;
  readonly most?: number;
}

export type Answer =
  /** How much of each column is taken: 1 where whole ones were asked for. */
  | { readonly is: 'found'; readonly taken: readonly (readonly [column: number, share: number])[] }
  /** Proven: no such choice, not even of fractions where fractions were asked for. */
  | { readonly is: 'none' }
  | { readonly is: 'given-up' };

const MOST_PIVOTS = 4000; // of one linear program, then it is given up: own choice
const COST = -1; // the row of the costs

/**
 * Answers a program by the simplex method, and by branch and cut where columns must be whole (the solver yalps).
 * Every column must stand in a row that sums to 1, so that no bound of its own is needed.
 * @param input.whole false asks for fractions: where not even they keep the rows, nothing does
 * @param input.branches how many branches to try before giving up; counted, not timed, so that the answer is always the same
 */
export function answerProgram(input: {
  /** What each column costs; the least is looked for. Without costs the simplex method runs in circles on such programs. */
  readonly costs: readonly number[];
  readonly rows: readonly Row[];
  readonly whole: boolean;
  readonly branches: number;
}): Answer {
  const { costs, rows, whole, branches } = input;
  const coefficients = costs.map((cost): [number, number][] => [[COST, cost]]);
  const constraints: [number, Constraint][] = [];
  for (const [number, { terms, least, most }] of rows.entries()) {
    for (const [column, coefficient] of terms) coefficients[column]?.push([number, coefficient]);
    constraints.push([number, { ...(least === undefined ? {} : { min: least }), ...(most === undefined ? {} : { max: most }) }]); // prettier-ignore
  }
  const variables = coefficients.map((of, column): [number, Coefficients<number>] => [column, of]);
  const model = { direction: 'minimize', objective: COST, constraints, variables, integers: whole } as const;
  const solution = solve<number, number>(model, { maxPivots: MOST_PIVOTS, maxIterations: branches });
  if (solution.status === 'infeasible') return { is: 'none' };
  if (Number.isNaN(solution.result) || solution.status === 'cycled') return { is: 'given-up' };
  return { is: 'found', taken: solution.variables };
}
