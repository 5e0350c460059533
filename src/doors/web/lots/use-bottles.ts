import { useMemo } from 'react';
import { useNow } from '../device/use-now.ts';
import { useLog } from '../log/log-provider.tsx';
import { bottlesOf, type Bottle } from './bottles.ts';

const HOUR_MS = 3_600_000;

/** The bottles of rennet in this log, each as old as it is this hour. */
export function useBottles(): readonly Bottle[] {
  const { held } = useLog();
  const now = useNow(HOUR_MS);
  return useMemo(() => bottlesOf({ streams: held.streams, now }), [held.streams, now]);
}
