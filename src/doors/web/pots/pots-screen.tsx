import { useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { JudgementName } from '../../../make/judgement.ts';
import { useReader } from '../device/reader.tsx';
import { SaveFailed } from '../vat/save-failed.tsx';
import { NotedBar } from '../vat/noted-bar.tsx';
import { useNoting } from '../vat/use-noting.ts';
import { useNow } from '../vat/use-now.ts';
import { useVatKeys } from '../vat/vat-keys.ts';
import { useVatLight } from '../vat/vat-light.ts';
import { useWakeLock } from '../vat/use-wake-lock.ts';
import { VatButton } from '../vat/vat-button.tsx';
import { useLog } from '../log/log-provider.tsx';
import type { PadQuantity } from '../pad/pad-model.ts';
import { AllPots } from './all-pots.tsx';
import { ClashList } from './clash-list.tsx';
import { NoPots } from './no-pots.tsx';
import { OtherPot } from './other-pot.tsx';
import { PotBells, PotsBellFoot } from './pot-bells.tsx';
import { PotHeads } from './pot-heads.tsx';
import { PotPage } from './pot-page.tsx';
import { PotsLanes } from './pots-lanes.tsx';
import { QueueCard } from './queue-card.tsx';
import { Round } from './round.tsx';
import { useBurners } from './use-burners.ts';
import { usePots } from './use-pots.ts';
import { usePotsView } from './use-pots-view.ts';
import { MayLine } from '../vat/may-line.tsx';
import '../vat/vat.css';
import './pots.css';
import './pots-pages.css';

type Page =
  | { readonly at: 'pots' }
  | {
      readonly at: 'pot';
      readonly potId: string;
      readonly only?: PadQuantity | undefined;
      readonly replaces?: string | undefined;
      readonly judgement?: JudgementName | undefined;
    }
  | { readonly at: 'all' }
  | { readonly at: 'round'; readonly quantity: 'temperatureC' | 'pH' };

const PX_PER_MIN = 2.2;

/** Several pots on one clock: which needs me next, will they collide, who is behind? */
export function PotsScreen(): ReactNode {
  const { say, write, settings } = useReader();
  const { held } = useLog();
  const nowAt = useNow();
  const { light, next } = useVatLight(settings);
  const { isReady, pots, unreadable, over } = usePots(nowAt);
  const { burners, setBurners } = useBurners();
  const view = usePotsView({ pots, burners, nowAt });
  const noter = useNoting('');
  const [page, setPage] = useState<Page>({ at: 'pots' });
  useVatKeys();
  useWakeLock(pots.length > 0);
  const back = (): void => setPage({ at: 'pots' });

  const onTest = (potId: string, judgement: JudgementName): void => setPage({ at: 'pot', potId, judgement });
  const bells = (only?: 'act'): ReactNode => (
    <PotBells pots={pots} nowAt={nowAt} noter={noter} onTest={onTest} {...(only === undefined ? {} : { only })} />
  );

  if (pots.length === 0) return <NoPots isReady={isReady} />;
  const one = page.at === 'pot' ? pots.find(({ potId }) => potId === page.potId) : undefined;
  if (page.at === 'pot' && one !== undefined) {
    return (
      <>
        {bells('act')}
        <PotPage key={page.judgement ?? 'pad'} pot={one} only={page.only} replaces={page.replaces} judgement={page.judgement} nowAt={nowAt} noter={noter} onBack={back} />
      </>
    ); // prettier-ignore
  }
  if (page.at === 'all' || page.at === 'round') {
    return (
      <>
        {bells('act')}
        {page.at === 'all' ? (
          <AllPots pots={pots} nowAt={nowAt} onBack={back} />
        ) : (
          <Round pots={pots} quantity={page.quantity} nowAt={nowAt} onBack={back} />
        )}
      </>
    );
  }
  const { last } = noter;
  const hasMeter = pots.some(({ batch }) => batch.plan.setup.pHMeter);
  return (
    <main className="vat pots">
      <title>{say('pots:titled')}</title>
      <header className="vat-strip">
        <Link href="/" className="vat-pot">
          <span>{say('pots:leave')}</span>
        </Link>
        <h1 className="pots-title">{say('pots:title')}</h1>
        <strong className="numerals pair">{write.clock(nowAt)}</strong>
        <Link href="/pots/wall" className="pots-wall-link">
          {say('pots:act.wall')}
        </Link>
        <VatButton
          className="vat-light"
          onAct={next}
          aria-label={`${say('vat:strip.light')}: ${say(`app:device.lights.${light}`)}`}
        >
          {say(`app:device.lights.${light}`)}
        </VatButton>
      </header>
      <div className="vat-scroll">
        <SaveFailed failed={noter.failed} />
        {bells()}
        <div className="pots-body">
          <QueueCard view={view} isWorking={pots.some(({ forecast }) => forecast === null)} />
          <ClashList
            clashes={view.clashes}
            isWorking={pots.some(({ forecast }) => forecast === null)}
            burners={burners}
            hands={view.hands}
            onBurners={setBurners}
            onChoice={({ notes, said }) =>
              void noter.noteAll(notes, { said, expected: null, doubt: null, reads: null })
            }
          />
          <section className="pots-side" aria-labelledby="pots-side-title">
            <h2 id="pots-side-title">{say('pots:lanes.title')}</h2>
            <PotHeads lanes={view.lanes} onNote={(potId) => setPage({ at: 'pot', potId })} />
            <PotsLanes view={view} nowAt={nowAt} pxPerMin={PX_PER_MIN} />
            <p>
              <Link href="/paper/class" className="pots-wall-link">
                {say('pots:act.paper')}
              </Link>
            </p>
          </section>
          {over.length + unreadable.length === 0 ? null : (
            <section className="pots-over" aria-labelledby="pots-over-title">
              <h2 id="pots-over-title">{say('pots:over.title')}</h2>
              <ul>
                {[...over, ...unreadable].map((record) => (
                  <li key={record.batchId}>
                    <Link href={`/vat/${record.batchId.replace(/^batch:/, '')}`}>{record.name}</Link>{' '}
                    <OverState record={record} />
                  </li>
                ))}
              </ul>
            </section>
          )}
        </div>
      </div>
      {last === null || !noter.isFresh ? null : (
        <NotedBar
          noting={last}
          asks
          onUndo={() => void noter.undo()}
          onSetRight={
            last.reads === null
              ? null
              : () =>
                  setPage({
                    at: 'pot',
                    potId: last.streamIds[0] ?? '',
                    only: last.reads ?? undefined,
                    replaces: last.eventIds[0],
                  })
          }
          onGone={noter.forget}
          more={<OtherPot noter={noter} />}
        />
      )}
      <MayLine access={held.access} />
      <PotsBellFoot pots={pots} />
      <nav className="pots-actions" aria-label={say('pots:act.label')}>
        <VatButton className="vat-second" keyHint="A" onAct={() => setPage({ at: 'all' })}>
          {say('pots:act.all')}
        </VatButton>
        <VatButton className="vat-second" keyHint="T" onAct={() => setPage({ at: 'round', quantity: 'temperatureC' })}>
          {say('pots:act.thermometer')}
        </VatButton>
        {hasMeter ? (
          <VatButton className="vat-second" keyHint="M" onAct={() => setPage({ at: 'round', quantity: 'pH' })}>
            {say('pots:act.meter')}
          </VatButton>
        ) : null}
      </nav>
    </main>
  );
}

function OverState({ record }: { readonly record: ReturnType<typeof usePots>['over'][number] }): ReactNode {
  const { say, write } = useReader();
  const into = record.joined.findLast(({ way }) => way === 'gave');
  if (into !== undefined) return say('pots:state.joinedInto', { pot: into.name, at: write.clock(into.at) });
  return say(record.finishedAt === null ? 'pots:state.unreadable' : 'pots:state.closed');
}
