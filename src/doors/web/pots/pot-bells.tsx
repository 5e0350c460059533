import { useMemo, useSyncExternalStore, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { JudgementName } from '../../../make/judgement.ts';
import { BellCalls } from '../bell/bell-calls.tsx';
import { BellFoot } from '../bell/bell-strip.tsx';
import { speaker } from '../bell/sounds.ts';
import { useBell } from '../bell/use-bell.ts';
import { useReader } from '../device/reader.tsx';
import type { Telling } from '../vat/said.ts';
import type { Noter } from '../vat/use-noting.ts';
import { potNoter } from './pot-noter.ts';
import { tellingOf } from './pot-seen.ts';
import type { Pot } from './use-pots.ts';
import './pot-bells.css';

interface Heard {
  readonly nowAt: number;
  readonly noter: Noter;
  readonly onTest: (potId: string, judgement: JudgementName) => void;
  /** Over a page only what cannot wait. */
  readonly only?: 'act';
}

/** Every pot's bell where all pots are seen: each rings as beside its own vat, and calls under its name, in lines. */
export function PotBells({ pots, ...heard }: Heard & { readonly pots: readonly Pot[] }): ReactNode {
  return (
    <div className="pot-bells">
      {pots.map((pot) => (
        <PotBell key={pot.potId} pot={pot} {...heard} />
      ))}
    </div>
  );
}

function PotBell({ pot, nowAt, noter, onTest, only }: Heard & { readonly pot: Pot }): ReactNode {
  const { say, write, settings } = useReader();
  const { batch, forecast, planned, history, beliefs, isCurrent, failed, potId } = pot;
  const { record } = batch;
  const { zeroAt } = tellingOf({ nowAt, say, write }, { record });
  const telling = useMemo<Telling>(() => ({ say, write, zeroAt }), [say, write, zeroAt]);
  const foresight = { history, beliefs, forecast, isCurrent, failed, planned, before: null, isRefining: false };
  const own = potNoter({ noter, streamId: potId, pot: record.name });
  const bell = useBell({ batch, foresight, nowAt, telling, language: settings.language, noter: own });
  const isCalled = bell.shown.some(({ call }) => call.class === 'act' || (only === undefined && call.class === 'due'));
  if (!isCalled) return null;
  return (
    <section className="pot-bell" aria-label={record.name}>
      <h2>
        <Link href={`/vat/${potId.replace(/^batch:/, '')}`}>{record.name}</Link>
      </h2>
      <BellCalls
        bell={bell}
        telling={telling}
        isFolded
        onTest={(judgement) => onTest(potId, judgement)}
        {...(only === undefined ? {} : { only })}
      />
    </section>
  );
}

/** That this device cannot ring, while any pot is under way. */
export function PotsBellFoot({ pots }: { readonly pots: readonly Pot[] }): ReactNode {
  const armed = useSyncExternalStore(speaker.subscribe, () => speaker.state);
  const isRunning = pots.some(({ batch }) => batch.record.steps.length > 0);
  return <BellFoot bell={{ armed, arm: () => void speaker.arm() }} isRunning={isRunning} />;
}
