import { useMemo, useState } from 'react';
import { historyOf } from '../../../exchange/history.ts';
import { whenPlanned } from '../../../exchange/when-planned.ts';
import { silenceOf, type Silence } from '../../../exchange/silence.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { JointBeliefs } from '../../../forecast/uncertain.ts';
import { NO_HISTORY, type History } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { isCurrent } from '../forecasting/forecast-state.ts';
import { useForecast, type Forecasting } from '../forecasting/use-forecast.ts';
import { useLog } from '../log/log-provider.tsx';
import { useReplays, type Asked } from '../record/replays.ts';
import { openBatch, planKey, streamOf, type Batch } from './batch.ts';
import { bandOf } from '../chart/band-of.ts';
import type { KeptForesight } from './foresight-store.ts';

/** The batch that an address names, as this device holds it now. */
export function useBatch(batchId: string): Batch {
  const { held } = useLog();
  const { book } = useReader();
  const streamId = streamOf(batchId);
  const events = held.streams.get(streamId);
  return useMemo(() => openBatch({ streamId, events, isReady: held.isReady, book }), [streamId, events, held.isReady, book]); // prettier-ignore
}

/** The forecasts of a running batch. */
export interface Foresight {
  /** What the forecast was asked with. */
  readonly history: History;
  readonly beliefs: JointBeliefs | null;
  readonly forecast: Forecast | null;
  /** False while what is shown answers an older record, or an older minute. */
  readonly isCurrent: boolean;
  /** True while a longer run for the same record is still under way. */
  readonly isRefining: boolean;
  readonly failed: string | null;
  readonly planned: Forecast | null;
  readonly before: Forecast | null;
}

/** With the way to keep it on this device for the next opening. */
export interface KeepableForesight extends Foresight {
  /** True while what is shown knows nothing of what was noted last; an answer that only the clock asks anew is still good. */
  readonly isBehind: boolean;
  readonly keep: Forecasting['keep'];
}

/** How often the clock alone may bring a silence to light. */
const LOOK_MS = 5_000;

/** The silence to be asked about, if there is one; the same object until it changes. */
export function useSilence(batch: Extract<Batch, { state: 'open' }>, nowAt: number): Silence | null {
  const { record, plan } = batch;
  // Looked for every few seconds, and at once when something was noted.
  const lastAt = record.entries.reduce((latest, { at, loggedAt }) => Math.max(latest, at, loggedAt), 0);
  const at = Math.min(Math.max(Math.floor(nowAt / LOOK_MS) * LOOK_MS, lastAt), nowAt);
  const found = useMemo(() => silenceOf({ record, steps: plan.steps, nowAt: at }), [record, plan.steps, at]);
  const sinceAt = found?.sinceAt ?? null;
  return useMemo(() => (sinceAt === null ? null : { sinceAt, alarmId: `silence.${sinceAt}` }), [sinceAt]);
}

/** How often the clock alone asks for a new forecast. */
const EVERY_MS = 120_000;

const OPENING = 'opening';

/** What is foreseen now, what was when the plan that runs was taken, and what was just before the last reading. */
export function useForesight(input: {
  readonly plan: Plan | null;
  readonly record: BatchRecord | null;
  readonly seed: number;
  readonly nowAt: number;
  /** A silence that the plan is taken to fill. */
  readonly silence?: Silence | null;
  /** What pots beside this one have told; null where there are none. */
  readonly beliefs?: JointBeliefs | null;
  /** What this device last foresaw of the same record; shown until it is worked out again. */
  readonly shown?: KeptForesight | null;
}): KeepableForesight {
  const { plan, record, seed, nowAt, silence = null, beliefs = null, shown = null } = input;
  const tick = Math.floor(nowAt / EVERY_MS) * EVERY_MS;
  const history = useMemo(() => {
    if (record === null) return NO_HISTORY;
    const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), 0);
    if (record.steps.length === 0) return NO_HISTORY;
    const told = historyOf({ record, nowAt: Math.max(tick, lastAt) });
    return silence === null ? told : { ...told, assumedFromMin: (silence.sinceAt - record.zeroAt) / 60_000 };
  }, [record, tick, silence]);
  // A record in which nothing was begun tells the forecast nothing.
  const known = record === null || record.steps.length === 0 ? null : record;
  const running = useForecast(plan, { history, record: known, seed, beliefs, shown: shown?.forecast ?? null });
  const asked = useMemo<Asked[]>(
    () => (record === null ? [] : [{ key: `${OPENING} ${planKey(record)}`, history: whenPlanned(record, Infinity) }, ...beforeLast(record)]), // prettier-ignore
    [record],
  );
  const replays = useReplays(plan, seed, asked);
  const [first, last] = asked;
  const shownOf = useShownOf(shown, asked);
  return {
    history,
    beliefs,
    forecast: running.forecast,
    isCurrent: isCurrent(running),
    isBehind: running.forecast !== null && (running.of !== plan || running.knows !== known),
    isRefining: running.refining,
    failed: running.failed,
    planned: first === undefined ? null : (replays.get(first.key) ?? shownOf(first.key)?.planned ?? null),
    keep: running.keep,
    before: last === undefined ? null : (replays.get(last.key) ?? shownOf(last.key)?.before ?? null),
  };
}

/** What was kept of earlier moments, for the keys that the card was opened with. */
function useShownOf(shown: KeptForesight | null, asked: readonly Asked[]) {
  const [keys] = useState(() => new Set(asked.map(({ key }) => key)));
  return (key: string): KeptForesight | null => (keys.has(key) ? shown : null);
}

function beforeLast(record: BatchRecord): Asked[] {
  const last = record.readings.findLast((reading) => bandOf(reading) !== null);
  return last === undefined
    ? []
    : [
        {
          key: `before ${last.eventId} ${last.at} ${last.value} ${planKey(record)}`,
          history: historyOf({ record, nowAt: last.at - 1 }),
        },
      ];
}
