import type { ReactNode } from 'react';
import { aimsText, chanceText, changeText, comesText, costText, obstacleText, unmovedTexts, verdictText, type Telling } from '../../../exchange/solve/solve-words.ts'; // prettier-ignore
import type { Answer, Question, Way } from '../../../forecast/question.ts';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import type { Solving } from './use-solve.ts';

/** What would do it, in a sentence; what it costs; other ways; and what stands in the way. */
export function AimAnswer({
  solving,
  isStale,
  telling,
  onTake,
}: {
  readonly solving: Solving;
  /** The question has changed and is not asked yet. */
  readonly isStale: boolean;
  readonly telling: Telling;
  readonly onTake: (way: Way) => void;
}): ReactNode {
  const { say } = telling;
  const { solved, failed } = solving;
  const isCurrent = !isStale && solved !== null && solved.number === solving.asked;
  const state =
    failed !== null
      ? say('solve:card.failed', { why: failed })
      : isCurrent
        ? null
        : solved === null
          ? say('solve:card.working')
          : say('solve:card.stale');
  return (
    <div className="aim-answer" data-stale={isCurrent ? undefined : ''}>
      <p role="status" className="plan-note" hidden={state === null}>
        {state}
      </p>
      {solved === null ? null : <Told question={solved.question} answer={solved.answer} telling={telling} onTake={isCurrent ? onTake : null} />}
    </div>
  ); // prettier-ignore
}

function Told({
  question,
  answer,
  telling,
  onTake,
}: {
  readonly question: Question;
  readonly answer: Answer;
  readonly telling: Telling;
  /** Null while the answer is to an older question. */
  readonly onTake: ((way: Way) => void) | null;
}): ReactNode {
  const { say } = telling;
  const { best, asItStands, others, obstacle, findings } = answer;
  const isChanged = best.settings.some((setting) => setting.isChanged);
  const aim = question.aims[obstacle?.aim ?? 0];
  return (
    <>
      <p className="aim-verdict" aria-live="polite">
        {verdictText(answer, question, telling)}
      </p>
      {isChanged && onTake !== null ? <Cost question={question} way={best} asItStands={asItStands} telling={telling} onTake={onTake} /> : null}
      {obstacle === null ? null : <p>{obstacleText(obstacle, question, telling)}</p>}
      {unmovedTexts(answer, question, telling).map((text) => (
        <p key={text}>{text}</p>
      ))}
      {others.length === 0 || onTake === null ? null : (
        <ul className="aim-others">
          {others.map(({ kind, way }) => (
            <li key={kind}>
              <h3>{say(`solve:kind.${kind}`, { what: aim === undefined ? '' : aimsText([aim], telling) })}</h3>
              <p>
                {capital(changeText(way, telling))}: {chanceText(way.probability, say)}.
              </p>
              <Cost question={question} way={way} asItStands={asItStands} telling={telling} onTake={onTake} />
            </li>
          ))}
        </ul>
      )}
      {findings.length === 0 ? null : (
        <Notice kind="caution">
          {findings.map(({ code, fields }) => (
            <p key={code}>{say(`findings:${code}`, fields)}</p>
          ))}
        </Notice>
      )}
      <p className="plan-note">
        {say('solve:counted', { makes: answer.members, plusMinus: Math.max(1, Math.round(100 * best.plusMinus)) })}
      </p>
    </>
  ); // prettier-ignore
}

/** What a way costs, where the aims come to, and the one tap that takes it. */
function Cost({
  question,
  way,
  asItStands,
  telling,
  onTake,
}: {
  readonly question: Question;
  readonly way: Way;
  readonly asItStands: Way;
  readonly telling: Telling;
  readonly onTake: (way: Way) => void;
}): ReactNode {
  const comes = question.aims.flatMap((aim, index) => {
    const found = way.aims[index];
    return found === undefined || aim.quantity === 'endMin' || aim.quantity === 'cheeseKg' ? [] : [comesText(aim, found.spread, telling)]; // prettier-ignore
  });
  return (
    <>
      <p className="plan-note">{[costText({ ...telling, way, asItStands }), ...comes].join(' ')}</p>
      <Button kind="second" onClick={() => onTake(way)}>
        {telling.say('solve:card.take')}
      </Button>
    </>
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
