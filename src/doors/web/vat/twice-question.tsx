import type { ReactNode } from 'react';
import type { Entry } from './actions.ts';
import type { TwiceView } from './twice-view.ts';
import { VatButton } from './vat-button.tsx';
import './silence.css';

/** Asked once two devices have met that noted the same step: nothing is blocked, and both notes stay in the record. */
export function TwiceQuestion({
  twice,
  onAnswer,
}: {
  readonly twice: TwiceView;
  readonly onAnswer: (entries: readonly Entry[], said: string) => void;
}): ReactNode {
  const { text, same, both } = twice;
  return (
    <section className="vat-silence" role="status">
      <p>{text}</p>
      <div className="vat-silence-answers">
        {[same, both].map(({ label, entries, said }) => (
          <VatButton key={label} className="vat-silence-answer" keeps onAct={() => onAnswer(entries, said)}>
            {label}
          </VatButton>
        ))}
      </div>
    </section>
  );
}
