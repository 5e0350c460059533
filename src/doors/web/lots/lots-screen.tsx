import { useMemo, useState, type ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import type { Problem } from '../../../numbers/validity.ts';
import { LOT_KINDS } from '../../../record/event.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { May, useMay } from '../log/may.tsx';
import type { Note } from '../log/event-log.ts';
import { isKept } from '../log/not-kept.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { Notice } from '../look/notice.tsx';
import { UndoBar } from '../look/undo-bar.tsx';
import { bringLotToPlan } from '../plan/brought.ts';
import { localDay, wallInstant } from '../plan/wall-clock.ts';
import type { KeptLot } from './kept-lots.ts';
import { draftOfLot, freshLot, lotNotes, type LotDraft } from './lot-draft.ts';
import { LotForm } from './lot-form.tsx';
import { isPlanned, lotLines } from './lot-lines.ts';
import { StoreBuy, StoreCosts, StoreLines } from './store-parts.tsx';
import { storesOf, type Stores } from './stores-view.ts';
import { useLots } from './use-lots.ts';
import './lots.css';

interface Told {
  readonly words: string;
  readonly streamId: string;
  readonly eventIds: readonly string[];
}

/** The packets and bottles in the house, local first like every record: added, changed, opened, used up. */
export function LotsScreen(): ReactNode {
  const { say, write } = useReader();
  const { log, held } = useLog();
  const now = useNow();
  const lots = useLots();
  const stores = useMemo(() => storesOf({ streams: held.streams, now }), [held.streams, now]);
  const today = localDay(now);
  /** `new`, the id of the lot that is being changed, or nothing. */
  const [editing, setEditing] = useState<string | null>(null);
  const [problems, setProblems] = useState<readonly Problem[]>([]);
  const [failed, setFailed] = useState<string | null>(null);
  const [told, setTold] = useState<Told | null>(null);
  const edit = (what: string | null): void => {
    setEditing(what);
    setProblems([]);
  };
  const record = async (notes: readonly Note[], words: string): Promise<boolean> => {
    try {
      const events = await log.recordAll(notes);
      setTold({ words, streamId: notes[0]?.streamId ?? '', eventIds: events.map((event) => event.id) });
      setFailed(null);
      return true;
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
      return false;
    }
  };
  const keep = async (draft: LotDraft, was: KeptLot | null): Promise<void> => {
    const streamId = was?.lot.lotId ?? log.newStreamId('lot');
    const read = lotNotes({ draft, units: write.units, streamId, was: was?.lot ?? null });
    if ('problems' in read) return setProblems(read.problems);
    if (await record(read.notes, say('lots:told.kept', { name: draft.name.trim() }))) edit(null);
  };
  const undo = async (): Promise<void> => {
    if (told === null) return;
    const { streamId } = told;
    if (await isKept(log.recordAll([...told.eventIds].reverse().map((replaces) => ({ kind: 'retracted', streamId, body: { replaces } }))))) setTold(null); // prettier-ignore
  };
  const formFor = (was: KeptLot | null, onCancel: (() => void) | null): ReactNode => (
    <LotForm
      first={was === null ? freshLot({ kind: 'rennet', today }) : draftOfLot({ lot: was.lot, units: write.units })}
      isNew={was === null}
      today={today}
      problems={problems}
      onKeep={(draft) => void keep(draft, was)}
      onCancel={onCancel}
    />
  );
  return (
    <div className="lots">
      <title>{say('app:titled', { place: say('lots:title') })}</title>
      <p className="sum-back">
        <Link href="/bench">{say('lots:back')}</Link>
      </p>
      <h1>{say('lots:title')}</h1>
      <p className="lots-lead">{say('lots:lead')}</p>
      {failed === null ? null : <Notice kind="act">{say('lots:failed', { why: failed })}</Notice>}
      {told === null ? null : (
        <UndoBar undoLabel={say('lots:undo')} onUndo={() => void undo()} onGone={() => setTold(null)} stays>
          {told.words}
        </UndoBar>
      )}
      <May note="lotReceived" tells={lots.length === 0}>
        {lots.length > 0 && editing !== 'new' ? (
          <p>
            <Button kind="main" onClick={() => edit('new')}>
              {say('lots:add')}
            </Button>
          </p>
        ) : (
          // Whoever has begun to fill it in keeps it, though another device's list arrives meanwhile.
          <Card rim aria-labelledby="lot-new" onFocus={() => setEditing('new')}>
            <h2 id="lot-new">{say('lots:addTitle')}</h2>
            {lots.length === 0 ? <p className="lots-note">{say('lots:none')}</p> : null}
            {formFor(null, lots.length === 0 ? null : () => edit(null))}
          </Card>
        )}
      </May>
      <StoreBuy stores={stores} />
      {LOT_KINDS.map((kind) => {
        const here = lots.filter(({ lot }) => lot.kind === kind);
        return here.length === 0 ? null : (
          <section key={kind} aria-labelledby={`lots-${kind}`}>
            <h2 id={`lots-${kind}`}>{say(isPlanned(kind) ? `lots:groups.${kind}` : `stores:kinds.${kind}`)}</h2>
            <ul className="lots-list">
              {here.map((kept) => (
                <li key={kept.lot.lotId}>
                  <Card aria-labelledby={kept.lot.lotId}>
                    {editing === kept.lot.lotId ? (
                      <>
                        <h3 id={kept.lot.lotId}>{say('lots:changeTitle', { name: kept.lot.name })}</h3>
                        {formFor(kept, () => edit(null))}
                      </>
                    ) : (
                      <LotEntry kept={kept} stores={stores} now={now} today={today} onChange={() => edit(kept.lot.lotId)} onRecord={(notes, words) => void record(notes, words)} /> // prettier-ignore
                    )}
                  </Card>
                </li>
              ))}
            </ul>
          </section>
        );
      })}
      <StoreCosts stores={stores} />
    </div>
  );
}

function LotEntry({
  kept,
  stores,
  now,
  today,
  onChange,
  onRecord,
}: {
  readonly kept: KeptLot;
  readonly stores: Stores;
  readonly now: number;
  readonly today: string;
  readonly onChange: () => void;
  readonly onRecord: (notes: readonly Note[], words: string) => void;
}): ReactNode {
  const { say, write } = useReader();
  const [, go] = useLocation();
  const may = useMay();
  const { lotId, name, kind, openedOn } = kept.lot;
  const instantOf = (day: string): number | null => wallInstant({ day, time: '12:00' });
  const note = (event: string, body: object): readonly Note[] => [{ kind: event, streamId: lotId, body }];
  return (
    <>
      <h3 id={lotId}>{name}</h3>
      {lotLines({ kept, now, instantOf, say, write }).map((line) => (
        <p key={line} className="lots-note">
          {line}
        </p>
      ))}
      <StoreLines lot={kept.lot} stores={stores} today={today} onRecord={onRecord} />
      <p className="lots-actions">
        {kind !== null && isPlanned(kind) ? (
          <Button
            kind="second"
            onClick={() => go('/plan', { state: bringLotToPlan({ lot: kept.lot, units: write.units }) })}
          >
            {say('lots:use')}
          </Button>
        ) : null}
        {kind === 'rennet' ? (
          <Link href="/bench/rennet-test" className="button button-plain button-desk">
            {say('lots:test')}
          </Link>
        ) : null}
        {openedOn === null && may.note('lotOpened', lotId) ? (
          <Button onClick={() => onRecord(note('lotOpened', { openedOn: today }), say('lots:told.opened', { name }))}>
            {say('lots:openNow')}
          </Button>
        ) : null}
        <May note="lotReceived" of={lotId}>
          <Button onClick={onChange}>{say('lots:change')}</Button>
          <Button onClick={() => onRecord(note('lotUsedUp', { usedUpOn: today }), say('lots:told.usedUp', { name }))}>
            {say('lots:usedUp')}
          </Button>
        </May>
      </p>
    </>
  );
}
