import { useMemo, useState, type ReactNode } from 'react';
import { explainAsked, faultTicked } from '../../../exchange/explain-record.ts';
import { explained } from '../../../exchange/explained.ts';
import type { Answered } from '../../../forecast/explain.ts';
import { QUESTIONS, type CauseAnswer } from '../../../forecast/explain-questions.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import { useExplain } from '../forecasting/use-explain.ts';
import { isKept } from '../log/not-kept.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { ExplainFaults } from './explain-faults.tsx';
import { ExplainNext } from './explain-next.tsx';
import { ExplainQuestion } from './explain-question.tsx';
import { ExplainRanking } from './explain-ranking.tsx';
import './explain.css';

/** So many questions come before anything is blamed, where one is worth asking: our own choice. */
const ASKED_FIRST = 2;

/** What may have gone wrong: what was wrong with the cheese, a question or two, then the causes and one change. */
export function ExplainSection({
  record,
  plan,
  streamId,
}: {
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly streamId: string;
}): ReactNode {
  const { say, write } = useReader();
  const { log } = useLog();
  const now = useNow();
  // The minute it was asked in: a clock that ticks must not weigh everything anew.
  const [askedAt, setAskedAt] = useState<number | null>(null);
  const isOpen = askedAt !== null;
  const [isUnasked, setUnasked] = useState(false);
  const asked = useMemo(() => explainAsked({ record, say, ...(askedAt === null ? {} : { nowAt: askedAt }) }), [record, say, askedAt]);
  const { explanation, isCurrent, failed } = useExplain(isOpen ? asked : null);
  const told = useMemo(
    () => (explanation === null ? null : explained({ explanation, say, write, plan })),
    [explanation, say, write, plan],
  );
  const mayAnswer = useMay().note('answered', streamId);
  const answer = (question: string, given: CauseAnswer): void =>
    void isKept(log.record({ kind: 'answered', streamId, body: { question, answer: given } }));
  const given = asked.answers.filter(({ question }) => QUESTIONS.some(({ id }) => id === question));
  // Nobody is blamed before they were asked.
  const question = told?.question ?? null;
  const isAsking = question !== null && explanation?.verdict !== 'nothing' && given.length < ASKED_FIRST && !isUnasked && mayAnswer;
  return (
    <section className="explain" aria-labelledby="explain" aria-busy={isOpen && !isCurrent}>
      <h2 id="explain">{say('explain:title')}</h2>
      <May note="answered" of={streamId}><ExplainFaults
        plan={plan}
        said={asked.faults}
        onTick={(fault, isThere) => void isKept(log.record({ kind: 'answered', streamId, body: faultTicked(fault, isThere) }))}
      /></May>
      {isOpen ? null : (
        <div className="explain-begin no-print">
          <p>{say('explain:intro')}</p>
          <Button kind="second" onClick={() => setAskedAt(now)}>
            {say('explain:ask')}
          </Button>
        </div>
      )}
      {isOpen && told === null && failed === null ? <p role="status">{say('explain:working')}</p> : null}
      {failed === null ? null : <p role="status">{say('explain:failed', { because: failed })}</p>}
      {told === null || explanation === null ? null : (
        <div className="explain-told" data-current={isCurrent}>
          {isAsking ? (
            <ExplainQuestion key={question.id} question={question} isFirst onAnswer={answer}>
              <Button kind="quiet" onClick={() => setUnasked(true)}>
                {say('explain:question.skip')}
              </Button>
            </ExplainQuestion>
          ) : (
            <>
              <ExplainRanking told={told} verdict={explanation.verdict} />
              <ExplainNext told={told} verdict={explanation.verdict} record={record} streamId={streamId} />
              {question === null || explanation.verdict === 'nothing' || !mayAnswer ? null : (
                <ExplainQuestion key={question.id} question={question} isFirst={false} onAnswer={answer} />
              )}
            </>
          )}
          <Answers given={given} onUnsure={mayAnswer ? (question) => answer(question, 'not-sure') : null} />
        </div>
      )}
    </section>
  );
} // prettier-ignore

/** What was answered, with the way back: an answer that is not sure weighs nothing. */
function Answers({
  given,
  onUnsure,
}: {
  readonly given: Answered;
  /** Null where it is not for this device to answer. */
  readonly onUnsure: ((question: string) => void) | null;
}): ReactNode {
  const { say } = useReader();
  if (given.length === 0) return null;
  return (
    <ul className="explain-answers">
      {given.map(({ question, answer }) => (
        <li key={question}>
          {say('explain:question.answered', {
            question: say(`explain:question.${question}`),
            answer: say(`explain:question.${answer}`),
          })}
          {answer === 'not-sure' || onUnsure === null ? null : (
            <Button kind="quiet" className="no-print" onClick={() => onUnsure(question)}>
              {say('explain:question.unsure')}
            </Button>
          )}
        </li>
      ))}
    </ul>
  );
}
