import type { ReactNode } from 'react';
import type { Mishap } from '../../../make/mishaps.ts';
import { useReader } from '../device/reader.tsx';
import { ChoiceList, type ChoiceShown } from './choice-list.tsx';
import { ThrowAway } from './throw-away.tsx';
import { VatButton } from './vat-button.tsx';
import './wrong.css';

/** What the choices of a mishap stand at: still to be asked, being worked out, there, or outside what the sums hold for. */
export type MishapAnswer =
  | { readonly is: 'asking' }
  | { readonly is: 'working' }
  | { readonly is: 'failed'; readonly because: string }
  | { readonly is: 'outside'; readonly text: string; readonly known: string }
  | {
      readonly is: 'there';
      readonly means: string;
      readonly unconfirmed: readonly string[];
      readonly choices: readonly ChoiceShown[];
      readonly isCurrent: boolean;
    };

/** One mishap: its questions, what it means, what can be done with what each brings, and what the milk may still become. */
export function MishapScreen({
  mishap,
  questions,
  answer,
  trade,
  otherwise,
  onNote,
  onThrowAway,
  onBack,
}: {
  readonly mishap: Mishap;
  readonly questions: ReactNode;
  readonly answer: MishapAnswer;
  /** What only the trade knows: what to do, what it brings, and taking it. */
  readonly trade: readonly { readonly title: string; readonly brings: string; readonly onTake: () => void }[];
  readonly otherwise: string;
  /** Keeps what went wrong without a choice; null while there is nothing to keep it with. */
  readonly onNote: (() => void) | null;
  readonly onThrowAway: () => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  return (
    <section className="wrong" aria-labelledby="wrong-title">
      <h1 id="wrong-title">{say(`vat:mishap.${mishap.id}.name`)}</h1>
      {mishap.mayBeUnsafe ? <p className="wrong-unsafe">{say('vat:wrong.unsafe')}</p> : null}
      {questions}
      <Answer answer={answer} />
      {trade.length === 0 ? null : (
        <>
          <h2>{say('vat:wrong.trade')}</h2>
          <ul className="choices">
            {trade.map(({ title, brings, onTake }) => (
              <li key={title} className="choice">
                <h3>{title}</h3>
                <p>{brings}</p>
                <VatButton className="choice-do" onAct={onTake}>
                  {say('advice:page.do')} <span className="out-of-sight">{title}</span>
                </VatButton>
              </li>
            ))}
          </ul>
        </>
      )}
      {onNote === null ? null : (
        <VatButton className="choice-do wrong-note" onAct={onNote}>
          {say('vat:wrong.onlyNote')}
        </VatButton>
      )}
      <ThrowAway onThrowAway={onThrowAway} />
      <p>
        <strong>{say('advice:otherwise.label')}:</strong> {otherwise}{' '}
        <span className="vat-small-print">{say('vat:wrong.source', { source: say('advice:otherwise.source') })}</span>
      </p>
      <p className="vat-small-print">{say('vat:wrong.source', { source: mishap.source })}</p>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:wrong.backToCauses')}
      </VatButton>
    </section>
  );
}

function Answer({ answer }: { readonly answer: MishapAnswer }): ReactNode {
  const { say } = useReader();
  switch (answer.is) {
    case 'asking':
      return <p className="wrong-means">{say('vat:wrong.answerFirst')}</p>;
    case 'working':
      return <p role="status">{say('advice:page.working')}</p>;
    case 'failed':
      return <p role="alert">{say('advice:page.failed', { because: answer.because })}</p>;
    case 'outside':
      return (
        <div className="wrong-means">
          <p>
            <strong>{answer.text}</strong>
          </p>
          <p>{answer.known}</p>
        </div>
      );
    case 'there':
      return (
        <>
          <div className="wrong-means">
            <p>
              <strong>{say('vat:wrong.meaning')}:</strong> {answer.means}
            </p>
            {answer.unconfirmed.map((text) => (
              <p key={text} className="vat-small-print">
                {text}
              </p>
            ))}
          </div>
          <h2>{say('vat:wrong.choices')}</h2>
          <ChoiceList choices={answer.choices} stale={answer.isCurrent ? null : say('advice:page.working')} />
        </>
      );
  }
}
