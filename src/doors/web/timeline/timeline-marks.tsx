import type { ReactNode } from 'react';
import type { Block, Graduation, Whisker } from './timeline-layout.ts';

export const HANDS_WIDTH = 16;
const WAITING_WIDTH = 6;
/** From one whisker to the next beside it. */
export const LANE_STEP = 10;

/** A graduation of the scale, half-hours long and with their time. */
export function Tick({
  x,
  mark,
  text,
}: {
  /** Where the axis stands. */
  readonly x: number;
  readonly mark: Graduation;
  readonly text: string | null;
}): ReactNode {
  return (
    <g>
      <line
        className="timeline-tick"
        data-long={mark.long}
        x1={x - (mark.long ? 12 : 6)}
        x2={x}
        y1={mark.yPx}
        y2={mark.yPx}
      />
      {text !== null && (
        <text className="timeline-time" x={x - 16} y={mark.yPx} textAnchor="end" dominantBaseline="central">
          {text}
        </text>
      )}
    </g>
  );
}

/** A stretch of work or waiting. */
export function Stretch({
  x,
  block,
}: {
  /** The middle of the column. */
  readonly x: number;
  readonly block: Block;
}): ReactNode {
  const width = block.kind === 'hands' ? HANDS_WIDTH : WAITING_WIDTH;
  return (
    <rect
      className="timeline-block"
      data-tone={block.tone}
      x={x - width / 2}
      y={block.yPx}
      width={width}
      height={block.heightPx}
    />
  );
}

/** A whisker: nine times in ten the step ends within it. */
export function Span({
  x: firstX,
  whisker,
}: {
  /** The whisker nearest the column. */
  readonly x: number;
  readonly whisker: Whisker;
}): ReactNode {
  const x = firstX + whisker.lane * LANE_STEP;
  return (
    <g className="timeline-whisker">
      <line x1={x} x2={x} y1={whisker.topPx} y2={whisker.bottomPx} />
      <line x1={x - 4} x2={x + 4} y1={whisker.middlePx} y2={whisker.middlePx} />
    </g>
  );
}
