import { useMemo, type ReactNode } from 'react';
import { layoutTimeline, type TimelineLayout, type TimelineStep } from './timeline-layout.ts';
import { LANE_STEP, Span, Stretch, Tick } from './timeline-marks.tsx';
import { useTextScale } from '../look/use-text-scale.ts';
import './timeline.css';
import './lanes.css';

/** The times and their axis at the usual size of text; they grow with the reader's. */
const USUAL_SCALE_PX = 62;
/** Times with am and pm take more. */
const LONG_SCALE_PX = 92;
const LONG_TIME = 5;
const COLUMN_X = 12; // middle of a lane's blocks, from its left edge
const WHISKER_X = 27;
/** Whiskers beside each other in one lane; a third is left out before lanes get wider. */
const MOST_WHISKERS = 2;
const TOP_PX = 14;
/** Numbers of clashes nearer than this stand under each other, not on each other. */
const CLASH_PX = 30;

/** The room that the times take, in rem: what stands over the lanes leaves as much. */
export const scaleRem = (time: string): number => (time.length > LONG_TIME ? LONG_SCALE_PX : USUAL_SCALE_PX) / 16;

/** One pot's line among several. */
export interface LaneDrawn {
  readonly id: string;
  readonly name: string;
  readonly steps: readonly TimelineStep[];
  /** Stretches of time in which this pot is in another's way, some of them with a number. */
  readonly marks: readonly { readonly fromAt: number; readonly toAt: number; readonly number: number | null }[];
  /** A burner or the like: its holds keep their names however narrow it is. */
  readonly isKit?: boolean;
}

/** Several time lines on one scale, side by side, the now-line level across them all. */
export function Lanes({
  lanes,
  frame,
  nowAt,
  utcOffsetMin,
  pxPerMin,
  clockText,
  summary,
  widths,
}: {
  readonly lanes: readonly LaneDrawn[];
  readonly frame: { readonly fromAt: number; readonly toAt: number };
  /** Null where the lines are of another day than this one. */
  readonly nowAt: number | null;
  readonly utcOffsetMin: number;
  readonly pxPerMin: number;
  readonly clockText: (at: number) => string;
  /** For those who hear the page. */
  readonly summary: string;
  /** How wide the lanes are, as a grid says it; all alike where left out. */
  readonly widths?: string;
}): ReactNode {
  const scale = useTextScale();
  const scalePx = scaleRem(clockText(frame.fromAt)) * 16 * scale;
  const labelGapPx = 22 * scale;
  const layouts = useMemo(
    () => lanes.map(({ steps }) => layoutTimeline({ steps, nowAt, utcOffsetMin, pxPerMin, labelGapPx, mostLanes: MOST_WHISKERS, frame })), // prettier-ignore
    [lanes, nowAt, utcOffsetMin, pxPerMin, frame, labelGapPx],
  );
  const scaled = layouts.find(({ graduations }) => graduations.length > 0);
  if (scaled === undefined) return null;
  const heightPx = Math.max(...scaled.graduations.map(({ yPx }) => yPx)) + 2 * TOP_PX;
  const { nowPx } = scaled;
  const [top] = scaled.graduations;
  const yOf = (at: number): number => (top?.yPx ?? 0) + ((at - (top?.at ?? at)) / 60_000) * pxPerMin;
  return (
    <figure
      className="lanes"
      style={{
        height: heightPx,
        gridTemplateColumns: `${scalePx}px ${widths ?? `repeat(${lanes.length}, minmax(0, 1fr))`}`,
      }}
    >
      <figcaption className="out-of-sight">{summary}</figcaption>
      <svg className="lanes-scale" aria-hidden="true" width={scalePx} height={heightPx}>
        <g transform={`translate(0 ${TOP_PX})`}>
          <line className="timeline-axis" x1={scalePx - 2} x2={scalePx - 2} y1={0} y2={heightPx - 2 * TOP_PX} />
          {scaled.graduations.map((mark) => (
            <Tick
              key={mark.at}
              x={scalePx - 2}
              mark={mark}
              text={mark.long && (nowPx === null || Math.abs(mark.yPx - nowPx) > 16) ? clockText(mark.at) : null}
            />
          ))}
        </g>
      </svg>
      {lanes.map((lane, index) => (
        <Lane key={lane.id} lane={lane} layout={layouts[index]} heightPx={heightPx} yOf={yOf} />
      ))}
      {nowPx === null || nowAt === null ? null : (
        <div className="timeline-now lanes-now" aria-hidden="true" style={{ top: nowPx + TOP_PX }}>
          <span className="numerals">{clockText(nowAt)}</span>
        </div>
      )}
    </figure>
  );
}

function Lane({
  lane,
  layout,
  heightPx,
  yOf,
}: {
  readonly lane: LaneDrawn;
  readonly layout: TimelineLayout | undefined;
  readonly heightPx: number;
  readonly yOf: (at: number) => number;
}): ReactNode {
  const whiskers = layout?.lanes ?? 0;
  const numbered = lane.marks.filter(({ number }) => number !== null);
  return (
    <div className={lane.isKit === true ? 'lane lane-kit' : 'lane'} aria-hidden="true">
      <svg width="100%" height={heightPx}>
        <g transform={`translate(0 ${TOP_PX})`}>
          {lane.marks.map(({ fromAt, toAt }) => (
            <rect
              key={`${fromAt} ${toAt}`}
              className="lane-clash"
              y={yOf(fromAt)}
              width={7}
              height={Math.max(4, yOf(toAt) - yOf(fromAt))}
            />
          ))}
          {layout?.blocks.map((block, index) => (
            <Stretch key={`${block.yPx}-${index}`} x={COLUMN_X} block={block} />
          ))}
          {layout?.whiskers.map((whisker) => (
            <Span key={whisker.stepId} x={WHISKER_X} whisker={whisker} />
          ))}
        </g>
      </svg>
      <ol className="lane-names" style={{ left: WHISKER_X + whiskers * LANE_STEP }}>
        {layout?.labels
          .filter(({ yPx, state }) => yPx >= 0 && state !== 'done')
          .map((label) => (
            <li key={label.stepId} data-state={label.state} style={{ top: label.yPx + TOP_PX }}>
              <span className="timeline-number">{label.number}</span> <span className="lane-step">{label.name}</span>
            </li>
          ))}
      </ol>
      {numbered.map(({ fromAt, number }, index) => {
        const over = numbered.slice(0, index).filter((one) => Math.abs(yOf(one.fromAt) - yOf(fromAt)) < CLASH_PX);
        return (
          <span
            key={number}
            className="lane-clash-number numerals"
            style={{ top: `calc(${yOf(fromAt) + TOP_PX}px + ${over.length * 1.3}em)` }}
          >
            {number}
          </span>
        );
      })}
    </div>
  );
}
