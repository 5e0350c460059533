import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import { historyOf } from '../../../exchange/history.ts';
import { whenPlanned } from '../../../exchange/when-planned.ts';
import { silenceOf, type Silence } from '../../../exchange/silence.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { JointBeliefs } from '../../../forecast/uncertain.ts';
import { NO_HISTORY, type History } from '../../../make/history.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import type { ForecastAnswer, ForecastReply } from '../forecasting/forecast-messages.ts';
import { opened } from '../forecasting/packed-forecast.ts';
import { useLog } from '../log/log-provider.tsx';
import { openBatch, type Batch } from '../vat/batch.ts';
import { keyOf, PotForecasts, type Asker, type Wanted } from './pot-forecasts.ts';
import { useLearned } from './use-learned.ts';
import { heardFrom, whichPots } from './which-pots.ts';

/** One pot with all that its lane is drawn from. */
export interface Pot {
  readonly potId: string;
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly history: History;
  readonly beliefs: JointBeliefs | null;
  readonly forecast: Forecast | null;
  /** As foreseen when its plan was taken. */
  readonly planned: Forecast | null;
  readonly isCurrent: boolean;
  readonly failed: string | null;
  readonly silence: Silence | null;
  /** When another device last told of it, while that is out of touch; null else. */
  readonly heardAt: number | null;
}

export interface Pots {
  readonly isReady: boolean;
  readonly pots: readonly Pot[];
  readonly unreadable: readonly BatchRecord[];
  readonly over: readonly BatchRecord[];
}

/** Enough for a lane at once, then as many as the vat's own card has. */
const MEMBERS = [200, 1000] as const;
/** How often the clock alone asks for a new forecast, where it has anything to say; as at the vat. */
const EVERY_MS = 120_000;
const MINUTE_MS = 60_000;

const forecasts = new PotForecasts(started);

function started(onReply: (reply: ForecastAnswer) => void): Asker {
  const worker = new Worker(new URL('../forecasting/forecast-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<ForecastReply>) => onReply(opened(event.data)));
  return { ask: (question) => worker.postMessage(question), close: () => worker.terminate() };
}

/** All pots on this device, each with its forecast; what is still being worked out is null. */
export function usePots(nowAt: number): Pots {
  const { held } = useLog();
  const { book } = useReader();
  const found = useSyncExternalStore(forecasts.subscribe, forecasts.snapshot);
  const { running, over } = useMemo(() => whichPots(held.streams), [held.streams]);
  const opened = useMemo(
    () => running.map(({ batchId }) => openBatch({ streamId: batchId, events: held.streams.get(batchId), isReady: true, book })), // prettier-ignore
    [running, held.streams, book],
  );
  const tick = Math.floor(nowAt / EVERY_MS) * EVERY_MS;
  const learned = useLearned(running, tick);
  const answerOf = (wanted: Wanted): Forecast | null => {
    const known = found.get(wanted.key);
    return known !== undefined && 'forecast' in known ? known.forecast : null;
  };
  const asked = useMemo(
    () =>
      opened.flatMap((batch) => {
        if (batch.state !== 'open') return [];
        const { record, plan, seed } = batch;
        const beliefs = learned.get(record.batchId) ?? null;
        const silence = silenceOf({ record, steps: plan.steps, nowAt: tick });
        const want = (history: History, members: number, told = beliefs): Wanted => {
          const wanted = { plan, history, seed, beliefs: told, members };
          return { ...wanted, key: keyOf(wanted) };
        };
        const settled = historyAt(record, null, silence);
        return [{ batch, silence, want, settled, planned: want(whenPlanned(record, Number.POSITIVE_INFINITY), MEMBERS[0], null) }]; // prettier-ignore
      }),
    [opened, learned, tick],
  );
  // What was last foreseen of a pot stays until something newer is there.
  const [latest, keepLatest] = useState<ReadonlyMap<string, Forecast>>(new Map());
  const pots = asked.map(({ batch, silence, want, settled, planned }) => {
    const first = MEMBERS.map((members) => want(settled, members));
    const known = first.map(answerOf).findLast((one) => one !== null) ?? null;
    // The clock alone says something only once the running step could be over.
    const isWaiting = known !== null && isPastEarliestEnd(known, (tick - batch.record.zeroAt) / MINUTE_MS);
    const history = isWaiting ? historyAt(batch.record, tick, silence) : settled;
    const newer = isWaiting ? MEMBERS.map((members) => want(history, members)) : first;
    const newest = newer.map(answerOf).findLast((one) => one !== null) ?? null;
    const failed = newer.map(({ key }) => found.get(key)).find((one) => one !== undefined && 'failed' in one);
    return { batch, silence, history, beliefs: newer[0]?.beliefs ?? null, forecast: newest ?? known ?? latest.get(batch.streamId) ?? null, isCurrent: newest !== null, planned, newer, first, failed: failed !== undefined && 'failed' in failed ? failed.failed : null }; // prettier-ignore
  });
  const wanted = [0, 1].flatMap((round) => [
    ...pots.flatMap(({ first, newer }) => [first[round], newer[round]].filter((one) => one !== undefined)),
    ...(round === 0 ? pots.map(({ planned }) => planned) : []),
  ]);
  // What is known already is not run again, so it may be wanted as often as the page is drawn.
  useEffect(() => forecasts.want(wanted));
  const isNews = pots.some(({ batch, forecast }) => forecast !== null && latest.get(batch.streamId) !== forecast);
  if (isNews) keepLatest(new Map(pots.flatMap(({ batch, forecast }) => (forecast === null ? [] : [[batch.streamId, forecast]])))); // prettier-ignore
  const { deviceId } = held;
  return {
    isReady: held.isReady,
    pots: pots.map((pot) => ({
      potId: pot.batch.streamId,
      batch: pot.batch,
      history: pot.history,
      beliefs: pot.beliefs,
      forecast: pot.forecast,
      planned: answerOf(pot.planned),
      isCurrent: pot.isCurrent,
      failed: pot.failed,
      silence: pot.silence,
      heardAt: held.isInTouch ? null : heardFrom({ record: pot.batch.record, deviceId }),
    })),
    unreadable: opened.flatMap((batch) => (batch.state === 'unreadable' ? [batch.record] : [])),
    over,
  };
}

/** What has happened in a pot, seen from its last note, or from a later moment. */
function historyAt(record: BatchRecord, nowAt: number | null, silence: Silence | null): History {
  if (record.steps.length === 0) return NO_HISTORY;
  const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), 0);
  const told = historyOf({ record, nowAt: Math.max(nowAt ?? lastAt, lastAt) });
  return silence === null ? told : { ...told, assumedFromMin: (silence.sinceAt - record.zeroAt) / MINUTE_MS };
}

function isPastEarliestEnd({ steps }: Forecast, nowMin: number): boolean {
  const running = steps.find(({ state }) => state === 'running');
  return running !== undefined && running.endMin.p5 < nowMin;
}
