import { useMemo } from 'react';
import { useLog } from '../log/log-provider.tsx';
import { keptLots, type KeptLot } from './kept-lots.ts';

/** The packets and bottles in this log. */
export function useLots(): readonly KeptLot[] {
  const { held } = useLog();
  return useMemo(() => keptLots(held.streams), [held.streams]);
}
