import type { CSSProperties, ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { Ghost, Graduation, Label, TimelineLayout } from './timeline-layout.ts';
import { HANDS_WIDTH, LANE_STEP, Span, Stretch, Tick } from './timeline-marks.tsx';
import { useTextScale } from '../look/use-text-scale.ts';
import './timeline.css';

const AXIS_X = 56;
const COLUMN_X = 76; // middle of the block column
const LANE_X = 96;
/** The times beside the axis take so much more with each size that the reader's text grows by. */
const TIME_PX = 40;
const NOW_SHARE = 0.25;

export interface TimelineProps {
  readonly layout: TimelineLayout;
  /** Wall-clock time of an instant, as the reader writes it. */
  readonly clockText: (at: number) => string;
  /** One sentence for those who hear the page. */
  readonly summary: string;
  /** Height of the window that the content moves behind, the now-line standing at a quarter of it; the whole line if left out. */
  readonly windowPx?: number;
  /** Writes each step's start time before its name. */
  readonly withTimes?: boolean;
  /** More about a step, under or after its name: an amount, a span, a blank to fill. */
  readonly detail?: (stepId: string) => ReactNode;
  readonly children?: ReactNode;
}

/** The graduated time scale: past in ink, the running step in the rim's blue, what comes open; the same on every sheet. */
export function Timeline(props: TimelineProps): ReactNode {
  const { layout, windowPx } = props;
  const shiftPx = windowPx === undefined || layout.nowPx === null ? 0 : windowPx * NOW_SHARE - layout.nowPx;
  const asideX = Math.max(0, useTextScale() - 1) * TIME_PX;
  const window = windowPx === undefined ? { height: layout.heightPx + 24 } : { height: windowPx };
  return (
    <figure className="timeline" style={window} data-live={windowPx === undefined ? undefined : ''}>
      <figcaption className="out-of-sight">{props.summary}</figcaption>
      <div className="timeline-moving" style={{ transform: `translateY(${shiftPx + 12}px)` }}>
        <svg
          className="timeline-scale"
          aria-hidden="true"
          width="100%"
          height={layout.heightPx + 24}
          overflow="visible"
        >
          <g transform={`translate(${asideX} 0)`}>
            <line className="timeline-axis" x1={AXIS_X} x2={AXIS_X} y1={0} y2={layout.heightPx} />
            {layout.graduations.map((mark) => (
              <Tick
                key={mark.at}
                x={AXIS_X}
                mark={mark}
                text={mark.long && !isUnderNow(layout, mark) ? props.clockText(mark.at) : null}
              />
            ))}
            {layout.ghosts.map((ghost) => (
              <AsItWas key={ghost.stepId} ghost={ghost} />
            ))}
            {layout.blocks.map((block, index) => (
              <Stretch key={`${block.yPx}-${index}`} x={COLUMN_X} block={block} />
            ))}
            {layout.whiskers.map((whisker) => (
              <Span key={whisker.stepId} x={LANE_X} whisker={whisker} />
            ))}
            {layout.labels.map((label) => (
              <Leader key={label.stepId} label={label} lanes={layout.lanes} />
            ))}
          </g>
        </svg>
        <ol className="timeline-names" style={{ left: asideX + LANE_X + layout.lanes * LANE_STEP + 8 }}>
          {layout.labels.map((label) => (
            <li key={label.stepId} data-state={label.state} style={nameStyle(label)}>
              {props.withTimes === true && (
                <Starts
                  at={props.clockText(label.startAt)}
                  was={label.wasStartAt === null ? null : props.clockText(label.wasStartAt)}
                />
              )}
              <span className="timeline-name">
                <span className="timeline-number">{label.number}</span> {label.name}
              </span>
              {props.detail?.(label.stepId)}
            </li>
          ))}
        </ol>
        {layout.nowPx !== null && (
          <NowLine
            yPx={layout.nowPx}
            widthPx={asideX + LANE_X + layout.lanes * LANE_STEP + 4}
            text={props.clockText(layout.nowAt ?? 0)}
          />
        )}
      </div>
      {props.children}
    </figure>
  );
}

const nameStyle = (label: Label): CSSProperties => ({ top: label.yPx });

/** When a step starts, and when it did before a change. */
function Starts({ at, was }: { readonly at: string; readonly was: string | null }): ReactNode {
  const { say } = useReader();
  return (
    <span className="timeline-starts">
      <time className="numerals">{at}</time>
      {was === null || was === at ? null : <span className="timeline-was">{say('app:was', { before: was })}</span>}
    </span>
  );
}

/** Where a step began and its end's span before a change, behind what stands now. */
function AsItWas({ ghost }: { readonly ghost: Ghost }): ReactNode {
  const { startPx, whisker } = ghost;
  const x = LANE_X + (whisker?.lane ?? 0) * LANE_STEP;
  return (
    <g className="timeline-ghost">
      <line x1={AXIS_X + 3} x2={COLUMN_X - HANDS_WIDTH / 2 - 1} y1={startPx} y2={startPx} />
      {whisker === null ? null : (
        <>
          <rect x={x - 4} width={8} y={whisker.topPx} height={Math.max(2, whisker.bottomPx - whisker.topPx)} />
          <line x1={x - 4} x2={x + 4} y1={whisker.middlePx} y2={whisker.middlePx} />
        </>
      )}
    </g>
  );
}

/** A thin line from the step's start to its name, bent where names had to make room for each other. */
function Leader({ label, lanes }: { readonly label: Label; readonly lanes: number }): ReactNode {
  const endX = LANE_X + lanes * LANE_STEP + 4;
  const points = `${COLUMN_X + HANDS_WIDTH / 2},${label.anchorPx} ${endX - 10},${label.anchorPx} ${endX},${label.yPx}`;
  return <polyline className="timeline-leader" points={points} />;
}

/** A time that the now-line would strike through is not written: the line carries its own. */
const isUnderNow = (layout: TimelineLayout, mark: Graduation): boolean =>
  layout.nowPx !== null && Math.abs(layout.nowPx - mark.yPx) < 16;

function NowLine({
  yPx,
  widthPx,
  text,
}: {
  readonly yPx: number;
  readonly widthPx: number;
  readonly text: string;
}): ReactNode {
  return (
    <div className="timeline-now" style={{ top: yPx, width: widthPx }}>
      <span className="numerals">{text}</span>
    </div>
  );
}
