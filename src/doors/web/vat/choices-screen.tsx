import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { ChoiceList, type ChoiceShown } from './choice-list.tsx';
import { ThrowAway } from './throw-away.tsx';
import { VatButton } from './vat-button.tsx';
import './wrong.css';

/** Choices from here, reached from the course: where the make stands, and what each choice would bring. */
export function ChoicesScreen({
  course,
  choices,
  isCurrent,
  failed,
  onThrowAway,
  onWhatIf,
  onBack,
}: {
  readonly course: string;
  /** Null until they have been worked out. */
  readonly choices: readonly ChoiceShown[] | null;
  readonly isCurrent: boolean;
  readonly failed: string | null;
  /** Null while the aim is still likely. */
  readonly onThrowAway: (() => void) | null;
  /** Sets something otherwise by hand. */
  readonly onWhatIf: () => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  return (
    <section className="wrong" aria-labelledby="choices-title">
      <h1 id="choices-title">{say('advice:page.title')}</h1>
      <p className="wrong-means">{course}</p>
      {failed !== null ? (
        <p role="alert">{say('advice:page.failed', { because: failed })}</p>
      ) : choices === null ? (
        <p role="status">{say('advice:page.working')}</p>
      ) : (
        <>
          <h2>{say('vat:wrong.choices')}</h2>
          <ChoiceList choices={choices} stale={isCurrent ? null : say('advice:page.working')} />
          {choices.length > 1 ? null : <p>{say('advice:page.none')}</p>}
        </>
      )}
      <VatButton className="wrong-note" keyHint="I" onAct={onWhatIf}>
        {say('vat:whatIf.open')}
      </VatButton>
      {onThrowAway === null ? null : <ThrowAway onThrowAway={onThrowAway} />}
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:action.back')}
      </VatButton>
    </section>
  );
}
