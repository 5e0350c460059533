import type { ReactNode } from 'react';
import type { Explained } from '../../../exchange/explained.ts';
import type { Verdict } from '../../../forecast/explain.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { isKept } from '../log/not-kept.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';

/** One change for the next make, never two, or the reading that would tell; and the way to carry it into the next plan. */
export function ExplainNext({
  told,
  verdict,
  record,
  streamId,
}: {
  readonly told: Explained;
  readonly verdict: Verdict;
  readonly record: BatchRecord;
  readonly streamId: string;
}): ReactNode {
  const { say } = useReader();
  const { log } = useLog();
  const keep = (cause: string): void => void isKept(log.record({ kind: 'nextTime', streamId, body: { cause } }));
  const kept = record.nextTime.at(-1)?.cause ?? '';
  const { change, apart } = told;
  return (
    <div className="explain-next">
      <h3>{say('explain:next.title')}</h3>
      {change === null ? (
        <p>
          {say(
            verdict === 'nothing'
              ? 'explain:next.none'
              : apart === null
                ? 'explain:next.nothingTells'
                : 'explain:next.cannot',
          )}
        </p>
      ) : (
        <>
          <p className="explain-change">{change.text}</p>
          {kept === change.cause ? (
            <p className="explain-kept" role="status">
              <span>{say('explain:next.kept')}</span>{' '}
              <May note="nextTime" of={streamId}>
                <Button kind="quiet" className="no-print" onClick={() => keep('')}>
                  {say('explain:next.takeBack')}
                </Button>
              </May>
            </p>
          ) : (
            <May note="nextTime" of={streamId}>
              <Button kind="second" className="no-print" onClick={() => keep(change.cause)}>
                {say('explain:next.keep')}
              </Button>
            </May>
          )}
        </>
      )}
      {apart === null || verdict === 'nothing' ? null : (
        <>
          <h3>{say('explain:missing.title')}</h3>
          <p>{apart}</p>
        </>
      )}
    </div>
  );
}
