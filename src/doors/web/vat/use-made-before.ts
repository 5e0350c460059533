import { useMemo } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';
import { madeBefore } from './short-list.ts';

/** The make of this cheese before this one, as this device holds it. */
export function useMadeBefore(record: BatchRecord): BatchRecord | null {
  const { held } = useLog();
  return useMemo(
    () =>
      madeBefore({
        record,
        others: [...held.streams].flatMap(([id, events]) => (id.startsWith('batch:') ? [foldOnce(events)] : [])),
      }),
    [record, held.streams],
  );
}
