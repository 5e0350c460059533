import { lazy, Suspense, type ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { worded } from '../device/catalogues.ts';

const LiveLine = lazy(async () => ({ default: (await worded(() => import('./live-line.tsx'))).LiveLine }));

/** The live probe's line on the vat card, fetched after the card itself: the vat does not wait for it. */
export function ProbeLine(props: {
  readonly record: BatchRecord;
  readonly streamId: string;
  readonly nowAt: number;
}): ReactNode {
  return (
    <Suspense fallback={null}>
      <LiveLine {...props} />
    </Suspense>
  );
}
