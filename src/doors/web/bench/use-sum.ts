import { useMemo } from 'react';
import type { BareAnswer } from '../../../exchange/calc/answer.ts';
import type { Problem } from '../../../numbers/validity.ts';
import type { SumField } from '../../../exchange/told/field-shapes.ts';
import type { SumQuestion, SumReply } from './sum-messages.ts';
import { sumInput } from './sum-input.ts';
import type { SumDraft } from './sum-draft.ts';
import { sweepQuestions } from './plot-view.ts';
import type { SumShape } from '../../../exchange/told/sum-shapes.ts';
import { useSums } from './use-sums.ts';

export interface SumAsked {
  /** The last answer; it may be of the figures before the last change. */
  readonly answer: BareAnswer | null;
  /** The input that `answer` is of. */
  readonly given: Readonly<Record<string, unknown>>;
  readonly isCurrent: boolean;
  readonly problems: readonly Problem[];
  readonly isOutside: boolean;
  /** Paths that are blank and must not be. */
  readonly blanks: readonly string[];
  readonly failed: string | null;
  readonly swept: readonly SumReply[];
  readonly sweep: readonly SumQuestion[];
}

const NOTHING: readonly SumQuestion[] = [];
const EMPTY = {};

/** A sum asked as its draft stands, and its drawing after it. */
export function useSum(input: {
  readonly name: string;
  readonly shape: SumShape;
  readonly fields: readonly SumField[];
  readonly draft: SumDraft;
}): SumAsked {
  const { name, shape, fields, draft } = input;
  const read = useMemo(() => sumInput({ fields, draft }), [fields, draft]);
  const questions = useMemo(() => (read.json === null ? NOTHING : [{ name, input: read.json }]), [name, read]);
  const asked = useSums(questions);
  const reply = asked.replies[0];
  const answer = reply !== undefined && 'answer' in reply ? reply.answer : null;
  const given = asked.questions[0]?.input ?? EMPTY;
  const sweep = useMemo(
    () =>
      shape.plot === undefined || answer === null
        ? NOTHING
        : sweepQuestions({ sum: name, shape: shape.plot, given, result: answer.result }),
    [name, shape, answer, given],
  );
  const drawn = useSums(sweep);
  const isAsked = read.json !== null;
  const refused = isAsked && reply !== undefined && 'problems' in reply ? reply.problems : [];
  return {
    answer: isAsked ? answer : null,
    given,
    isCurrent: asked.isCurrent,
    problems: isAsked ? refused : read.problems,
    isOutside: refused.length > 0 && refused.every(({ code }) => code === 'outside-validity' || code === 'unreachable'),
    blanks: read.blanks,
    failed: isAsked && reply !== undefined && 'failed' in reply ? reply.failed : null,
    swept: drawn.replies,
    sweep: drawn.questions,
  };
}
