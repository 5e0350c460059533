import { useState, type ReactNode } from 'react';
import { mishapsFor, type Mishap } from '../../../make/mishaps.ts';
import type { Verb } from '../../../make/step.ts';
import { useReader } from '../device/reader.tsx';
import { VatButton } from './vat-button.tsx';
import './wrong.css';

/** What went wrong: eight causes for this step, then all of them. Hurt people come first. */
export function WrongScreen({
  verb,
  onMishap,
  onChoices,
  join,
  onBack,
}: {
  readonly verb: Verb | null;
  readonly onMishap: (mishap: Mishap) => void;
  /** Nothing went wrong, but it could go otherwise. */
  readonly onChoices: () => void;
  /** Where another pot runs: join this curd to it. */
  readonly join: ReactNode;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  const [all, setAll] = useState(false);
  const offered = mishapsFor(verb);
  const listed = all ? [...offered.first, ...offered.others] : offered.first;
  return (
    <section className="wrong" aria-labelledby="wrong-title">
      <h1 id="wrong-title">{say('vat:wrong.title')}</h1>
      <p className="wrong-hurt">
        {say('vat:wrong.hurt')} <span className="vat-small-print">{say('vat:wrong.hurtSource')}</span>
      </p>
      <h2>{say('vat:wrong.what')}</h2>
      <div className="wrong-causes">
        {listed.map((one, index) => (
          <VatButton
            key={one.id}
            className="wrong-cause"
            {...(index < 9 ? { keyHint: String(index + 1) } : {})}
            onAct={() => onMishap(one)}
          >
            {say(`vat:mishap.${one.id}.name`)}
          </VatButton>
        ))}
        {all ? null : (
          <VatButton className="wrong-cause wrong-all" keyHint="A" onAct={() => setAll(true)}>
            {say('vat:wrong.all')}
          </VatButton>
        )}
        <VatButton className="wrong-cause wrong-all" keyHint="C" onAct={onChoices}>
          {say('vat:wrong.onlyChoices')}
        </VatButton>
        {join}
      </div>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:action.back')}
      </VatButton>
    </section>
  );
}
