import { useEffect, useMemo, useRef, useState } from 'react';
import { historyOf } from '../../../exchange/history.ts';
import { sistersOf, type Sister } from '../../../exchange/sisters.ts';
import type { LearnedPot, Pot } from '../../../forecast/shared-pots.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { PotsQuestion, PotsReply } from '../forecasting/pots-worker.ts';
import { useLog } from '../log/log-provider.tsx';
import { foldOnce } from '../log/fold-once.ts';
import { openBatch, type Batch } from './batch.ts';

/** What a pot has learned from the pots beside it, and their records. */
export interface Learning {
  readonly learned: LearnedPot;
  /** This pot first. */
  readonly sisters: readonly Sister[];
}

/** A sister's notes are asked again only when there are more of them, or an old silence has grown. */
const EVERY_MS = 600_000;

/** What the pots beside this one say of it; null where it has none, or they say nothing yet. */
export function useSisters(batch: Extract<Batch, { state: 'open' }>, nowAt: number): Learning | null {
  const { held } = useLog();
  const { record, seed } = batch;
  const tick = Math.floor(nowAt / EVERY_MS) * EVERY_MS;
  const others = useMemo(
    () => [...held.streams].filter(([id]) => id.startsWith('batch:') && id !== batch.streamId).map(([, events]) => foldOnce(events)), // prettier-ignore
    [held.streams, batch.streamId],
  );
  const sisters = useMemo(() => sistersOf({ record, others }), [record, others]);
  const pots = useMemo(() => (sisters.length < 2 ? [] : sisters.flatMap((sister) => potOf(sister, held.streams, tick))), [sisters, held.streams, tick]); // prettier-ignore
  const learned = useLearned(record.batchId, pots, seed);
  return useMemo(() => (learned === null || pots.length < 2 ? null : { learned, sisters }), [learned, pots.length, sisters]); // prettier-ignore
}

/** A sister as the learning takes it. Once another curd came in, its notes tell nothing more of its own milk. */
export function potOf({ record, sharing }: Sister, streams: Parameters<typeof openPot>[1], tick: number): Pot[] {
  const opened = openPot(record.batchId, streams);
  if (opened === null) return [];
  const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), 0);
  const nowAt = Math.min(Math.max(tick, lastAt), mixedSince(record));
  return [{ id: record.batchId, plan: opened.plan, history: historyOf({ record, nowAt }), sharing }];
}

/** When another curd first came into this pot; Infinity where none did. */
const mixedSince = (record: BatchRecord): number =>
  record.joined.find(({ way }) => way === 'took')?.at ?? Number.POSITIVE_INFINITY;

function openPot(streamId: string, streams: ReadonlyMap<string, Parameters<typeof foldOnce>[0]>) {
  const batch = openBatch({ streamId, events: streams.get(streamId), isReady: true });
  return batch.state === 'open' ? batch : null;
}

/** Asks the worker, started with the first sister; the answer stays until another is there. */
function useLearned(id: string, pots: readonly Pot[], seed: number): LearnedPot | null {
  const [learned, setLearned] = useState<LearnedPot | null>(null);
  const worker = useRef<Worker | null>(null);
  const number = useRef(0);
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  useEffect(() => {
    if (pots.length < 2) return;
    worker.current ??= started((reply) => {
      if (reply.number === number.current) setLearned((before) => keptIfSame(before, reply.learned));
    });
    number.current += 1;
    worker.current.postMessage({ number: number.current, id, pots, seed } satisfies PotsQuestion);
  }, [id, pots, seed]);
  return learned;
}

/** The same beliefs stay the same object: a note of this pot's own must not have its forecast run twice. */
function keptIfSame(before: LearnedPot | null, now: LearnedPot | null): LearnedPot | null {
  const isSame = before !== null && now !== null && JSON.stringify(before.beliefs) === JSON.stringify(now.beliefs);
  return isSame ? { ...now, beliefs: before.beliefs } : now;
}

function started(onReply: (reply: PotsReply) => void): Worker {
  const worker = new Worker(new URL('../forecasting/pots-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<PotsReply>) => onReply(event.data));
  return worker;
}
