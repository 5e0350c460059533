import type { ReactNode } from 'react';
import type { Entry } from './actions.ts';
import type { SilenceView } from './silence-view.ts';
import { VatButton } from './vat-button.tsx';
import './silence.css';

/** Asked once after a long silence: was the plan kept? Until it is answered the card shows where the make would be. */
export function SilenceQuestion({
  silence,
  onAnswer,
}: {
  readonly silence: SilenceView;
  readonly onAnswer: (entries: readonly Entry[], said: string) => void;
}): ReactNode {
  const { text, yes, no } = silence;
  return (
    <section className="vat-silence" role="status">
      <p>{text}</p>
      <div className="vat-silence-answers">
        <VatButton className="vat-silence-answer" keyHint="Enter" onAct={() => onAnswer(yes.entries, yes.label)}>
          {yes.label}
        </VatButton>
        <VatButton className="vat-silence-answer" keyHint="N" onAct={() => onAnswer(no.entries, no.label)}>
          {no.label}
        </VatButton>
      </div>
    </section>
  );
}
