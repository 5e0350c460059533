import type { ReactNode } from 'react';
import { ANSWERS, type CauseAnswer } from '../../../forecast/explain-questions.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';

/** One question with three answers; `isFirst` where it comes before anything is blamed. */
export function ExplainQuestion({
  question,
  isFirst,
  onAnswer,
  children,
}: {
  readonly question: { readonly id: string; readonly text: string };
  readonly isFirst: boolean;
  readonly onAnswer: (question: string, answer: CauseAnswer) => void;
  readonly children?: ReactNode;
}): ReactNode {
  const { say } = useReader();
  return (
    <div
      className={`explain-question no-print ${isFirst ? 'explain-question-first' : ''}`}
      role="group"
      aria-labelledby="explain-question"
    >
      <p className="explain-small">{say(isFirst ? 'explain:question.before' : 'explain:question.title')}</p>
      <p id="explain-question" className="explain-question-text">
        {question.text}
      </p>
      <div className="explain-answering">
        {ANSWERS.map((answer) => (
          <Button key={answer} onClick={() => onAnswer(question.id, answer)}>
            {say(`explain:question.${answer}`)}
          </Button>
        ))}
      </div>
      {children}
    </div>
  );
}
