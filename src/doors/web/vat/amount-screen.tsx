import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { VatButton } from './vat-button.tsx';
import './wrong.css';

const SHARES = [
  { name: 'quarter', share: 0.25 },
  { name: 'half', share: 0.5 },
  { name: 'threeQuarters', share: 0.75 },
  { name: 'all', share: 1 },
  { name: 'andHalf', share: 1.5 },
  { name: 'twice', share: 2 },
] as const;

/** For an addition that did not go as planned: how much of it really went in. One tap notes it. */
export function AmountScreen({
  planned,
  onAmount,
  onBack,
}: {
  /** The amount in the plan, as it is written on the card. */
  readonly planned: string;
  readonly onAmount: (share: number) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say } = useReader();
  return (
    <section className="wrong" aria-labelledby="amount-title">
      <h1 id="amount-title">{say('vat:amounts.title')}</h1>
      <p>{say('vat:amounts.of', { amount: planned })}</p>
      <div className="wrong-causes">
        {SHARES.map(({ name, share }, index) => (
          <VatButton key={name} className="wrong-cause" keyHint={String(index + 1)} onAct={() => onAmount(share)}>
            {say(`vat:amounts.${name}`)}
          </VatButton>
        ))}
      </div>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('vat:action.back')}
      </VatButton>
    </section>
  );
}
