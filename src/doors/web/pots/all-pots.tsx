import { useState, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { PadScreen, type PadReading } from '../pad/pad-screen.tsx';
import { standingOf } from '../vat/current-step.ts';
import { listText } from '../vat/said.ts';
import { VatButton } from '../vat/vat-button.tsx';
import { valueText } from '../record/record-lines.ts';
import { AllPotsNoted } from './all-pots-noted.tsx';
import { AllPotsTimes } from './all-pots-times.tsx';
import { tellingOf, type PotSeen } from './pot-seen.ts';
import { alikePots, type Together } from './together-entries.ts';
import { seenOf } from './seen-of.ts';
import type { Pot } from './use-pots.ts';
import type { NotedAll } from './use-noted-all.ts';

type Stage =
  | { readonly at: 'what' }
  | { readonly at: 'value'; readonly quantity: 'temperatureC' | 'pH' }
  | { readonly at: 'when'; readonly what: Together; readonly label: string; readonly pots: readonly PotSeen[] }
  | { readonly at: 'list'; readonly what: Together; readonly label: string; readonly noted: NotedAll };

/** One entry for all pots: what happened, when in the first, how far apart; then the list, to be set right by pot. */
export function AllPots({
  pots,
  nowAt,
  onBack,
}: {
  readonly pots: readonly Pot[];
  readonly nowAt: number;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const [stage, setStage] = useState<Stage>({ at: 'what' });
  const seen = pots.map(seenOf);
  if (stage.at === 'value') {
    const [first] = seen;
    if (first === undefined) return null;
    const { quantity } = stage;
    const onReading = (reading: PadReading): void => {
      const telling = tellingOf({ nowAt, say, write }, first);
      const label = `${say(`vat:pad.quantity.${quantity}`)} ${valueText({ telling, quantity, value: reading.value })}`;
      setStage({ at: 'when', what: { kind: 'reading', reading }, label, pots: seen });
    };
    const nowMin = (nowAt - first.record.zeroAt) / 60_000;
    return (
      <main className="vat vat-page">
        <PadScreen
          step={standingOf(first).step}
          plan={first.plan}
          forecast={first.forecast}
          nowMin={nowMin}
          only={quantity}
          title={say(`pots:all.${quantity === 'pH' ? 'pH' : 'temperature'}`)}
          onReading={onReading}
          onBack={() => setStage({ at: 'what' })}
        />
      </main>
    );
  }
  if (stage.at === 'when') {
    return (
      <AllPotsTimes
        {...stage}
        nowAt={nowAt}
        onNoted={(noted) => setStage({ at: 'list', what: stage.what, label: stage.label, noted })}
        onBack={() => setStage({ at: 'what' })}
      />
    );
  }
  if (stage.at === 'list') return <AllPotsNoted {...stage} nowAt={nowAt} onDone={onBack} />;
  const alike = alikePots({ pots: seen, nowAt, say, write });
  const named = (some: readonly PotSeen[]): string => listText(some.map(({ record }) => record.name), say('pots:queue.and')); // prettier-ignore
  return (
    <main className="vat vat-page pots-page">
      <h1>{say('pots:all.title')}</h1>
      <h2>{say('pots:all.what')}</h2>
      <div className="pots-whats">
        {alike.map(({ what, pots: some }, index) => (
          <VatButton
            key={`${what.stepId} ${what.label}`}
            className={index === 0 ? 'vat-main' : 'vat-second'}
            onAct={() => setStage({ at: 'when', what, label: what.label, pots: some })}
          >
            {say('pots:all.main', { said: what.label, pots: named(some) })}
          </VatButton>
        ))}
        {alike.length === 0 ? <p>{say('pots:all.nothing')}</p> : null}
        <VatButton className="vat-lesser" onAct={() => setStage({ at: 'value', quantity: 'temperatureC' })}>
          {say('pots:all.temperature')}
        </VatButton>
        {seen.some(({ plan }) => plan.setup.pHMeter) ? (
          <VatButton className="vat-lesser" onAct={() => setStage({ at: 'value', quantity: 'pH' })}>
            {say('pots:all.pH')}
          </VatButton>
        ) : null}
      </div>
      <VatButton className="vat-back" keyHint="Escape" onAct={onBack}>
        {say('pots:back')}
      </VatButton>
    </main>
  );
}
