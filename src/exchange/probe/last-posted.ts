import { readingSchema, type Reading } from '../../make/history.ts';
import type { BatchRecord } from '../../record/batch-record.ts';

/** How the server's own device ids begin; what it notes was sent to it by a script or a gateway. */
export const SERVER_DEVICE = 'server-';

/** Sent every two minutes or on a move: twice missed, it has stopped. Common practice (no source). */
export const POSTED_STALE_MS = 300_000;
/** After half an hour of nothing the line leaves the card: the record has it. Our own choice. */
const POSTED_GONE_MS = 1_800_000;

/** The latest temperature or pH that was sent to the server and still stands; null where there is none of late. */
export function lastPosted(input: {
  readonly record: Pick<BatchRecord, 'entries'>;
  readonly nowAt: number;
}): { readonly reading: Reading; readonly at: number } | null {
  const { record, nowAt } = input;
  const sent = record.entries.flatMap(({ kind, body, at, deviceId, retracted }) => {
    if (kind !== 'reading' || !deviceId.startsWith(SERVER_DEVICE) || retracted !== null) return [];
    const parsed = readingSchema.safeParse(body);
    const isLive = parsed.success && (parsed.data.quantity === 'temperatureC' || parsed.data.quantity === 'pH');
    return isLive && nowAt - at < POSTED_GONE_MS ? [{ reading: parsed.data, at }] : [];
  });
  return sent.at(-1) ?? null;
}
