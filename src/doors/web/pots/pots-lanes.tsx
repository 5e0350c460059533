import { useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Lanes, scaleRem } from '../timeline/lanes.tsx';
import { utcOffsetMin } from '../vat/utc-offset.ts';
import type { PotsView } from './pots-view.ts';

/** All pots' time lines side by side. */
export function PotsLanes({
  view,
  nowAt,
  pxPerMin,
}: {
  readonly view: PotsView;
  readonly nowAt: number;
  readonly pxPerMin: number;
}): ReactNode {
  const { say, write } = useReader();
  const at = Math.floor(nowAt / 15_000) * 15_000;
  const lanes = useMemo(() => view.lanes.map(({ potId, name, steps, clashes }) => ({ id: potId, name, steps, marks: clashes })), [view.lanes]); // prettier-ignore
  const told = view.lanes.map(({ name, verb }) => say('pots:lanes.potSummary', { pot: name, step: verb })).join(' ');
  return (
    <>
      <div
        className="lane-heads"
        aria-hidden="true"
        style={{
          gridTemplateColumns: `${scaleRem(write.clock(view.frame.fromAt))}rem repeat(${lanes.length}, minmax(0, 1fr))`,
        }}
      >
        <span />
        {lanes.map(({ id, name }) => (
          <strong key={id}>{name}</strong>
        ))}
      </div>
      <Lanes
        lanes={lanes}
        frame={view.frame}
        nowAt={at}
        utcOffsetMin={utcOffsetMin(at)}
        pxPerMin={pxPerMin}
        clockText={write.clock}
        summary={say('pots:lanes.summary', { count: lanes.length, pots: told })}
      />
    </>
  );
}
