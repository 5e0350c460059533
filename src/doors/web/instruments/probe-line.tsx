import type { ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { worded } from '../device/catalogues.ts';
import { later } from '../later/later.ts';
import { LatePart } from '../later/late-part.tsx';

const LiveLine = later(async () => (await worded(() => import('./live-line.tsx'))).LiveLine);

/** The live probe's line on the vat card, fetched after the card itself: the vat does not wait for it. */
export function ProbeLine(props: {
  readonly record: BatchRecord;
  readonly streamId: string;
  readonly nowAt: number;
}): ReactNode {
  return (
    <LatePart>
      <LiveLine {...props} />
    </LatePart>
  );
}
