import { useMemo, useState, type ReactNode } from 'react';
import type { BrineRecord } from '../../../record/brine-record.ts';
import { isDemoStream } from '../../../record/event.ts';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { Notice } from '../look/notice.tsx';
import { UndoBar } from '../look/undo-bar.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { useKeeping, useKept, type Keeping } from '../ageing/use-kept.ts';
import { BrineCheck } from './brine-check.tsx';
import { BrineForm } from './brine-form.tsx';
import { BrineUse } from './brine-use.tsx';
import { brineView, openUses, unitOf, type OpenUse } from './brine-view.ts';
import './brine.css';

/** Is my brine still right, and what do I add? */
export function BrineScreen(): ReactNode {
  const { say } = useReader();
  const { log, held } = useLog();
  const { kept, now } = useKept();
  const keeping = useKeeping();
  const [adding, setAdding] = useState(false);
  const here = kept.brines.filter(({ endedAt }) => endedAt === null);
  const records = useMemo(() => [...held.streams].flatMap(([id, events]) => (id.startsWith('batch:') ? [foldOnce(events)] : [])), [held.streams]); // prettier-ignore
  const uses = useMemo(() => openUses({ records, brines: kept.brines }), [records, kept.brines]);
  return (
    <div className="brines">
      <h1>{say('brine:title')}</h1>
      {keeping.failed === null ? null : <Notice kind="act">{say('brine:failed', { why: keeping.failed })}</Notice>}
      {keeping.last === null ? null : (
        <UndoBar undoLabel={say('brine:undo')} onUndo={() => void keeping.undo()} onGone={keeping.forget} stays>
          {keeping.last.words}
        </UndoBar>
      )}
      {here.map((brine, index) => (
        <BrineCard
          key={brine.brineId}
          brine={brine}
          isFirst={index === 0}
          now={now}
          uses={uses.filter(({ batchId }) => isDemoStream(batchId) === isDemoStream(brine.brineId))}
          keeping={keeping}
        />
      ))}
      <May note="brineMade" tells={here.length === 0}>
        {adding || here.length === 0 ? (
          <Card rim={here.length === 0} aria-labelledby="brine-new">
            <h2 id="brine-new">{say('brine:new.title')}</h2>
            <BrineForm
              now={now}
              onCancel={here.length === 0 ? null : () => setAdding(false)}
              onMade={(body) => {
                void keeping.note(
                  [{ kind: 'brineMade', streamId: log.newStreamId('brine'), body }],
                  say('brine:new.made', { name: body.name }),
                );
                setAdding(false);
              }}
            />
          </Card>
        ) : (
          <Button onClick={() => setAdding(true)}>{say('brine:new.open')}</Button>
        )}
      </May>
    </div>
  );
}

function BrineCard({
  brine,
  isFirst,
  now,
  uses,
  keeping,
}: {
  readonly brine: BrineRecord;
  readonly isFirst: boolean;
  readonly now: number;
  readonly uses: readonly OpenUse[];
  readonly keeping: Keeping;
}): ReactNode {
  const { say, write } = useReader();
  const may = useMay();
  const [page, setPage] = useState<'card' | 'check' | 'use'>('card');
  const view = useMemo(() => brineView({ brine, now, say, write }), [brine, now, say, write]);
  if (view === null) return null;
  const { brineId, name } = view;
  const note = async (kind: string, body: object, words: string): Promise<void> => {
    if (await keeping.note([{ kind, streamId: brineId, body }], words)) setPage('card');
  };
  return (
    <Card rim={isFirst} className="brine" aria-labelledby={brineId}>
      <h2 id={brineId}>
        {name}
        {isDemoStream(brineId) ? <span className="kept-demo">{say('brine:demo')}</span> : null}
      </h2>
      {page === 'check' ? (
        <BrineCheck
          unit={unitOf(brine)}
          now={view}
          onCheck={(body) => void note('brineChecked', body, say('brine:checked', { name }))}
          onBack={() => setPage('card')}
        />
      ) : null}
      {page === 'use' ? (
        <BrineUse
          uses={uses}
          onUse={(body) => void note('brineUsed', body, say('brine:used', { name }))}
          onBack={() => setPage('card')}
        />
      ) : null}
      {page === 'card' ? (
        <>
          <p className="brine-strength">
            <span className="pair">
              <span className="brine-number numerals">{view.strength.number}</span>{' '}
              <span className="brine-unit">{view.strength.unit}</span>
            </span>
            <span className="brine-says">{view.strengthSays}</span>
          </p>
          <p>{view.facts.join(' · ')}</p>
          {view.findings.map(({ words, source, isStop }) => (
            <Notice key={words} kind={isStop ? 'act' : 'caution'}>
              <p>{words}</p>
              <p className="brine-source">{say('brine:source', { source })}</p>
            </Notice>
          ))}
          {view.add.length === 0 ? (
            <p>{say('brine:add.nothing')}</p>
          ) : (
            <div className="brine-add">
              <h3>{say('brine:add.title')}</h3>
              <ul>
                {view.add.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
              <May note="brineTopped" of={brineId}>
                <Button
                  kind="second"
                  onClick={() => void note('brineTopped', view.topUp?.body ?? {}, say('brine:add.done', { name }))}
                >
                  {say('brine:add.put')}
                </Button>
              </May>
            </div>
          )}
          <div className="brine-acts">
            <May note="brineChecked" of={brineId}>
              <VatButton className="vat-main" onAct={() => setPage('check')}>
                {say('brine:check.open')}
              </VatButton>
            </May>
            <May note="brineUsed" of={brineId}>
              <VatButton className="vat-second" onAct={() => setPage('use')}>
                {say('brine:use.open', { count: uses.length })}
              </VatButton>
            </May>
          </div>
          <May note="brineCared" of={brineId}>
            <div className="brine-cares">
              {(['boiled', 'filtered', 'skimmed'] as const).map((how) => (
                <Button key={how} onClick={() => void note('brineCared', { how }, say(`brine:cared.${how}`, { name }))}>
                  {say(`brine:care.${how}`)}
                </Button>
              ))}
              <Button onClick={() => void note('brineEnded', {}, say('brine:ended', { name }))}>
                {say('brine:end')}
              </Button>
            </div>
          </May>
          <p className="brine-caution">{say('brine:boilHow')}</p>
          <details className="brine-history">
            <summary>{say('brine:history.title')}</summary>
            <ol>
              {view.history.map(({ eventId, when, words, canUndo }) => (
                <li key={eventId}>
                  <span>{when}</span> <span>{words}</span>
                  {canUndo && may.takeBack(brineId, [eventId]) ? (
                    <Button
                      kind="quiet"
                      aria-label={say('brine:history.undoOf', { words })}
                      onClick={() => void note('retracted', { replaces: eventId }, say('brine:history.undone'))}
                    >
                      {say('brine:history.undo')}
                    </Button>
                  ) : null}
                </li>
              ))}
            </ol>
          </details>
        </>
      ) : null}
    </Card>
  );
}
