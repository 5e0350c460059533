import { useEffect, useState } from 'react';
import { isDemoStream } from '../../../record/event.ts';
import { useLog } from '../log/log-provider.tsx';
import { streamOf } from '../vat/batch.ts';

/**
 * Fetches a batch that is not on this device, such as an old one that a search has found, and what may be missing of one that is:
 * old ones are not always followed.
 * @returns whether it may still come
 */
export function useFetched(batchId: string, isMissing: boolean): boolean {
  const { log } = useLog();
  const [asked, setAsked] = useState<string | null>(null);
  const streamId = streamOf(batchId);
  useEffect(() => {
    if (asked !== streamId && !isDemoStream(streamId)) void log.fetchStream(streamId).then(() => setAsked(streamId));
  }, [asked, streamId, log]);
  return isMissing && !isDemoStream(streamId) && asked !== streamId;
}
