import { told, type Say } from '../../../exchange/words.ts';
import { sentenceInUnits } from '../../../make/sentence.ts';
import type { Problem } from '../../../numbers/validity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Draft } from './draft.ts';
import { isFactPath } from './draft-fields.ts';
import { factText } from './fact-text.ts';

/** A problem in the house form: field, value given, what is possible, what to do. */
export function problemSentence(input: {
  readonly problem: Problem;
  readonly draft: Draft;
  readonly units: UnitSystem;
  readonly say: Say;
}): string {
  const { problem, draft, units, say } = input;
  const fact = isFactPath(problem.field) ? say(`plan:facts.${problem.field}`) : problem.field;
  const remedy = sentenceInUnits({ text: told(say, problem.remedy), units });
  const value = givenText({ problem, draft, units, say });
  if (value === '') return say('plan:problems.missing', { fact, remedy });
  return say('plan:problems.given', {
    fact,
    value,
    expected: sentenceInUnits({ text: told(say, problem.expected), units }),
    remedy,
  });
}

/** The value as the maker gave it: typed text with its unit, or the chosen word. */
function givenText(input: {
  readonly problem: Problem;
  readonly draft: Draft;
  readonly units: UnitSystem;
  readonly say: Say;
}): string {
  const { problem, draft, units, say } = input;
  const typed = draft.facts[problem.field];
  if (!isFactPath(problem.field) || typed === undefined) {
    const { value } = problem;
    return typeof value === 'number' || typeof value === 'string'
      ? `${value}${problem.unit === undefined ? '' : ` ${problem.unit}`}`
      : '';
  }
  return factText({ path: problem.field, text: typed, units, say });
}

/** True where the planner only doubts the value, and takes it when the maker looks again. */
export const canBeConfirmed = (problem: Problem): boolean =>
  problem.code === 'contradiction' && problem.expected.includes('confirmed') && isFactPath(problem.field);

/** The sentences of one field, joined; undefined where the field is fine. */
export function problemsAt(input: {
  readonly path: string;
  readonly problems: readonly Problem[];
  readonly draft: Draft;
  readonly units: UnitSystem;
  readonly say: Say;
}): string | undefined {
  const here = input.problems.filter((problem) => problem.field === input.path);
  return here.length === 0 ? undefined : here.map((problem) => problemSentence({ ...input, problem })).join(' ');
}
