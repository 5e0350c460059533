import type { ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import { liveView, postedView } from './live-view.ts';
import { useProbe } from './use-probe.ts';
import './live-line.css';

/** What the probe in this vat says now, large and with its time; a probe that went is a note with the way back. */
export function LiveLine({
  record,
  streamId,
  nowAt,
}: {
  readonly record: BatchRecord;
  readonly streamId: string;
  readonly nowAt: number;
}): ReactNode {
  const { say, write } = useReader();
  const { state, connect, leave } = useProbe(streamId);
  const view = liveView({ state, streamId, nowAt, say, write }) ?? postedView({ record, nowAt, say, write });
  if (view === null) return null;
  const { found } = state;
  return (
    <section className="live" aria-label={say('instruments:live.label')} data-stale={view.isStale || view.isGone}>
      {view.value === null ? null : (
        <p className="live-now">
          {view.name} <strong className="live-value numerals">{view.value}</strong>
          {view.at === null ? null : <span className="live-at">, {view.at}</span>}{' '}
          {view.noted === null ? null : <span className="live-noted">{view.noted}</span>}
        </p>
      )}
      {view.notes.length === 0 ? null : (
        <div role="status">
          {view.notes.map((text) => (
            <p key={text} className="live-note">
              {text}
            </p>
          ))}
        </div>
      )}
      {!view.isGone || found === null ? null : (
        <div className="live-acts">
          <VatButton className="vat-small" onAct={() => void connect(found)}>
            {say('instruments:live.again')}
          </VatButton>
          <VatButton className="vat-small" onAct={() => void leave()}>
            {say('instruments:live.leave')}
          </VatButton>
        </div>
      )}
    </section>
  );
}
