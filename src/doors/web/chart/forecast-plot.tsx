import { useId, type ReactNode } from 'react';
import { GhostBand } from './ghost-band.tsx';
import { layoutPlot, clockTicks, type PlotInput } from './plot-layout.ts';
import { stackDots } from './dots.ts';
import { AimLabel, EndLabels, MANY_READINGS, Reading, spaced } from './plot-marks.tsx';
import { useTextScale } from '../look/use-text-scale.ts';
import './chart.css';

/** One value as it was read, with its instrument's error and what had been expected of it. */
export interface PlotReading {
  readonly atMin: number;
  readonly value: number;
  readonly error: number;
  /** Median of the forecast just before it; null while that is being computed. */
  readonly expected: number | null;
  readonly suspect: boolean;
}

/** A judgement, drawn as an open square at the value that the fit has there. */
export interface PlotJudgement {
  readonly atMin: number;
  readonly value: number;
  readonly name: string;
}

export interface PlotAim {
  readonly low: number;
  readonly high: number;
  readonly fromMin: number;
  readonly toMin: number;
  readonly label: string;
}

export interface ForecastPlotProps extends Omit<PlotInput, 'widthPx' | 'heightPx'> {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly summary: string;
  readonly readings: readonly PlotReading[];
  readonly judgements: readonly PlotJudgement[];
  readonly aim: PlotAim | null;
  /** The same band before a change, drawn behind as edges only; null where nothing was changed. */
  readonly was: Pick<PlotInput, 'gridMin' | 'band'> | null;
  readonly dotsMin: readonly number[];
  readonly dotsLabel: string | null;
  readonly leaveMin: number | null;
  readonly zeroAt: number;
  readonly utcOffsetMin: number;
  readonly valueText: (value: number) => string;
  readonly clockText: (at: number) => string;
  readonly words: {
    readonly above: string;
    readonly below: string;
    readonly half: string;
    readonly now: string;
    readonly sumsEnd: string;
    readonly eachDot: string;
  };
}

/** The room that words have about the frame at the usual size of text; it grows with the reader's. */
const ROOM = { left: 56, top: 26, axis: 26, right: 24, rightNamed: 150, dots: 24 };
const NARROW_PX = 520;
/** About the width of a letter of a label. */
const LETTER_PX = 8;
const DOT = 13;
const DOT_ROWS = 6;

/** Band in two grades, dashed median, hatched aim above it, readings as discs, judgements as squares, dots to be counted. */
export function ForecastPlot(props: ForecastPlotProps): ReactNode {
  const hatch = useId();
  const scale = useTextScale();
  const isNamed = props.widthPx >= NARROW_PX * scale;
  const left = ROOM.left * scale;
  const top = ROOM.top * scale;
  const axis = ROOM.axis * scale;
  const dotsPx = props.dotsMin.length > 0 ? DOT * DOT_ROWS + ROOM.dots * scale : 0;
  const width = props.widthPx - left - (isNamed ? ROOM.rightNamed : ROOM.right) * scale;
  const height = props.heightPx - ROOM.top - ROOM.axis - dotsPx;
  const heightPx = height + top + axis + dotsPx;
  /** Where a word begins that must end within the frame. */
  const within = (fromX: number, word: string): number => Math.max(0, Math.min(fromX, width - word.length * LETTER_PX * scale)); // prettier-ignore
  const layout = layoutPlot({ ...props, widthPx: width, heightPx: height });
  const { x, y } = layout;
  const ticks = clockTicks({ fromAt: at(props, props.fromMin), toAt: at(props, props.toMin), utcOffsetMin: props.utcOffsetMin, most: Math.max(2, Math.floor(width / (62 * scale))) }); // prettier-ignore
  // The window ends with the frame; labels that would lie on each other are left to the table.
  const aim = props.aim === null || props.aim.fromMin >= props.toMin ? null : { ...props.aim, toMin: Math.min(props.aim.toMin, props.toMin) }; // prettier-ignore
  const labelled = spaced(props.judgements.map((judged) => x(judged.atMin)));
  return (
    <svg
      className="plot"
      role="img"
      aria-label={props.summary}
      width={props.widthPx}
      height={heightPx}
      viewBox={`0 0 ${props.widthPx} ${heightPx}`}
    >
      <defs>
        <pattern id={hatch} width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path className="plot-hatch" d="M0 0V8" />
        </pattern>
      </defs>
      <g transform={`translate(${left} ${top})`}>
        {layout.valueTicks.map((value) => (
          <g key={value}>
            <line className="plot-grid" x1={0} x2={width} y1={y(value)} y2={y(value)} />
            <text className="plot-label" x={-8} y={y(value)} textAnchor="end" dominantBaseline="central">
              {props.valueText(value)}
            </text>
          </g>
        ))}
        <path className="plot-most" d={layout.most} />
        <path className="plot-half" d={layout.half} />
        <path className="plot-most-edge" d={layout.mostLow} />
        <path className="plot-most-edge" d={layout.mostHigh} />
        <path className="plot-half-edge" d={layout.halfLow} />
        <path className="plot-half-edge" d={layout.halfHigh} />
        {aim === null ? null : (
          <g>
            <rect
              fill={`url(#${hatch})`}
              x={x(aim.fromMin)}
              width={Math.max(0, x(aim.toMin) - x(aim.fromMin))}
              y={y(aim.high)}
              height={y(aim.low) - y(aim.high)}
            />
            <line className="plot-aim" x1={x(aim.fromMin)} x2={x(aim.toMin)} y1={y(aim.high)} y2={y(aim.high)} />
            <line className="plot-aim" x1={x(aim.fromMin)} x2={x(aim.toMin)} y1={y(aim.low)} y2={y(aim.low)} />
            <AimLabel
              x={x(aim.fromMin)}
              width={width}
              top={y(aim.high)}
              bottom={y(aim.low)}
              label={aim.label}
              scale={scale}
            />
          </g>
        )}
        {props.was === null ? null : (
          <GhostBand layout={layoutPlot({ ...props, ...props.was, widthPx: width, heightPx: height })} />
        )}
        <path className="plot-fit" d={layout.fitted} />
        <path className="plot-median" d={layout.median} />
        {props.nowMin === null ? null : (
          <g>
            <line className="plot-now" x1={x(props.nowMin)} x2={x(props.nowMin)} y1={-4} y2={height} />
            <text
              className="plot-now-label"
              x={Math.min(Math.max(x(props.nowMin), 40 * scale), width - 40 * scale)}
              y={-10}
              textAnchor="middle"
            >
              {props.words.now}
            </text>
          </g>
        )}
        {layout.endsMin === null ? null : (
          <text className="plot-label" x={within(x(layout.endsMin) + 6, props.words.sumsEnd)} y={height - 8}>
            {props.words.sumsEnd}
          </text>
        )}
        {props.readings.map((reading) => (
          <Reading
            key={`${reading.atMin}-${reading.value}`}
            x={x(reading.atMin)}
            y={y(reading.value)}
            errorTop={y(reading.value + reading.error)}
            errorBottom={y(reading.value - reading.error)}
            expectedY={reading.expected === null ? null : y(reading.expected)}
            suspect={reading.suspect}
            isOfMany={props.readings.length >= MANY_READINGS}
          />
        ))}
        {props.judgements.map((judged, index) => (
          <g key={`${judged.atMin}-${judged.name}`}>
            <rect className="plot-judged" x={x(judged.atMin) - 7} y={y(judged.value) - 7} width={14} height={14} />
            {labelled.has(index) ? (
              <text
                className="plot-judged-label"
                x={within(x(judged.atMin) + 12, judged.name)}
                y={y(judged.value) - 12}
              >
                {judged.name}
              </text>
            ) : null}
          </g>
        ))}
        <line className="plot-axis" x1={0} x2={width} y1={height} y2={height} />
        {ticks.map((tick) => (
          <g key={tick}>
            <line
              className="plot-axis"
              x1={x(fromZero(props, tick))}
              x2={x(fromZero(props, tick))}
              y1={height}
              y2={height + 5}
            />
            <text className="plot-label" x={x(fromZero(props, tick))} y={height + 5 + 15 * scale} textAnchor="middle">
              {props.clockText(tick)}
            </text>
          </g>
        ))}
        {isNamed && layout.ends !== null && layout.endsMin === null ? (
          <EndLabels ends={layout.ends} x={width + 10} words={props.words} />
        ) : null}
        {props.dotsMin.length === 0 ? null : (
          <g transform={`translate(0 ${height + axis + DOT * DOT_ROWS})`}>
            <line className="plot-axis" x1={0} x2={width} y1={2} y2={2} />
            {stackDots({
              dotsMin: props.dotsMin.filter((dot) => dot >= props.fromMin && dot <= props.toMin),
              xOf: x,
              diameterPx: DOT,
              mostRows: DOT_ROWS,
            }).map((dot) => (
              <circle
                key={`${dot.x}-${dot.row}`}
                className="plot-dot"
                cx={dot.x}
                cy={-DOT / 2 - dot.row * DOT}
                r={DOT / 2 - 1}
              />
            ))}
            <text className="plot-dots-label" x={0} y={3 + 17 * scale}>
              {props.dotsLabel}
            </text>
            {isNamed ? (
              <text className="plot-label" x={width + 10} y={-4}>
                {props.words.eachDot}
              </text>
            ) : null}
          </g>
        )}
        {props.leaveMin === null ? null : (
          <line
            className="plot-leave"
            x1={x(props.leaveMin)}
            x2={x(props.leaveMin)}
            y1={height}
            y2={height + axis + DOT * DOT_ROWS + 4}
          />
        )}
      </g>
    </svg>
  );
}

const at = (props: ForecastPlotProps, minutes: number): number => props.zeroAt + minutes * 60_000;
const fromZero = (props: ForecastPlotProps, instant: number): number => (instant - props.zeroAt) / 60_000;
