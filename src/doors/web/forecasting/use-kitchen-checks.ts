import { useMemo } from 'react';
import { kitchenChecks, type KitchenChecks } from '../../../exchange/kitchen-checks.ts';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';

/** How often the opening forecasts of this log's finished makes came true; null while the log is being read. */
export function useKitchenChecks(): KitchenChecks | null {
  const { held } = useLog();
  return useMemo(
    () =>
      held.isReady
        ? kitchenChecks(
            [...held.streams].flatMap(([id, events]) => (id.startsWith('batch:') ? [foldOnce(events)] : [])),
          )
        : null,
    [held.streams, held.isReady],
  );
}
