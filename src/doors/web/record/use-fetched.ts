import { useEffect, useState } from 'react';
import { useLog } from '../log/log-provider.tsx';
import { streamOf } from '../vat/batch.ts';

/**
 * Fetches a batch that is not on this device, such as an old one that a search has found.
 * @returns whether it may still come
 */
export function useFetched(batchId: string, isMissing: boolean): boolean {
  const { log } = useLog();
  const [asked, setAsked] = useState<string | null>(null);
  const streamId = streamOf(batchId);
  useEffect(() => {
    if (isMissing && asked !== streamId) void log.fetchStream(streamId).then(() => setAsked(streamId));
  }, [isMissing, asked, streamId, log]);
  return isMissing && asked !== streamId;
}
