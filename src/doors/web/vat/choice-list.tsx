import type { ReactNode } from 'react';
import type { ChoiceTold } from '../../../exchange/advice-told.ts';
import { useReader } from '../device/reader.tsx';
import { VatButton } from './vat-button.tsx';

/** One choice as it stands on screen: what it is and brings, and what taking it does. */
export interface ChoiceShown extends ChoiceTold {
  /** In the words of the button. */
  readonly act: string;
  readonly onTake: () => void;
}

/** Choices, each with its numbers; the first is to go on as planned. */
export function ChoiceList({
  choices,
  stale,
}: {
  readonly choices: readonly ChoiceShown[];
  /** Said while newer numbers are being worked out; null once they stand. */
  readonly stale: string | null;
}): ReactNode {
  const { say } = useReader();
  return (
    <>
      <p className="choice-stale" role="status">
        {stale}
      </p>
      <ol className="choices" aria-busy={stale !== null}>
        {choices.map((choice, index) => (
          <li key={choice.id} className="choice">
            <h3>{choice.title}</h3>
            <p className="choice-done">{choice.done}</p>
            <ul className="choice-chances">
              {choice.chances.map((chance) => (
                <li key={chance}>{chance}</li>
              ))}
              {choice.becomes === '' ? null : <li>{choice.becomes}</li>}
            </ul>
            {choice.risks.map((risk) => (
              <p key={risk} className="choice-risk">
                <strong>{say('advice:risk.label')}:</strong> {risk}
              </p>
            ))}
            <VatButton className="choice-do" keyHint={String(index + 1)} onAct={choice.onTake}>
              {choice.act} <span className="out-of-sight">{choice.title}</span>
            </VatButton>
          </li>
        ))}
      </ol>
    </>
  );
}
