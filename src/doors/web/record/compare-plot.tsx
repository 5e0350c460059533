import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { ReactNode } from 'react';
import { useTextScale } from '../look/use-text-scale.ts';
import type { CoursePoint } from './compare-course.ts';
import type { CompareLine } from './compare-view.ts';
import { axisTicks, labelPlaces } from './compare-layout.ts';

/** The room that words have about the frame, and a letter of a name, at the usual size of text. */
const ROOM = { left: 46, top: 12, bottom: 50, letter: 9 };

/** Batches over time, this one in heavy ink, each named at the end of its line; no colour tells them apart. */
export function ComparePlot({
  lines,
  widthPx,
  heightPx,
  summary,
  axis,
  valueText,
  timeText,
  valueStep,
}: {
  readonly lines: readonly CompareLine[];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly summary: string;
  /** What the time is counted from. */
  readonly axis: string;
  readonly valueText: (value: number) => string;
  readonly timeText: (minutes: number) => string;
  /** The axis ends on multiples of this. */
  readonly valueStep: number;
}): ReactNode {
  const points = lines.flatMap((one) => one.points);
  const scale = useTextScale();
  const left = ROOM.left * scale;
  const right = 26 + ROOM.letter * scale * Math.max(0, ...lines.map(({ label }) => label.length));
  const width = widthPx - left - right;
  const height = heightPx - ROOM.top - ROOM.bottom * scale;
  const times = points.map(({ atMin }) => atMin);
  const values = points.map(({ value }) => value);
  const x = scaleLinear().domain([Math.min(...times), Math.max(...times)]).range([0, width]); // prettier-ignore
  const y = scaleLinear()
    .domain([Math.floor(Math.min(...values) / valueStep) * valueStep, Math.ceil(Math.max(...values) / valueStep) * valueStep]) // prettier-ignore
    .range([height, 0]);
  const pathOf = line<CoursePoint>((point) => x(point.atMin), (point) => y(point.value)); // prettier-ignore
  const ends = lines.flatMap((one) => {
    const end = one.points.at(-1);
    return end === undefined ? [] : [{ line: one, x: x(end.atMin), y: y(end.value) }];
  });
  const places = labelPlaces({ ideals: ends.map((end) => end.y), heightPx: height });
  // This batch last, so that its ink lies on top.
  const ordered = [...lines].sort((a, b) => Number(a.isMine) - Number(b.isMine));
  return (
    <svg className="plot compare-plot" role="img" aria-label={summary} width={widthPx} height={heightPx} viewBox={`0 0 ${widthPx} ${heightPx}`}>
      <g transform={`translate(${left} ${ROOM.top})`}>
        {y.ticks(5).filter((tick) => valueStep < 1 || Number.isInteger(tick)).map((tick) => (
          <g key={tick}>
            <line className="plot-grid" x1={0} x2={width} y1={y(tick)} y2={y(tick)} />
            <text className="plot-label" x={-8} y={y(tick)} textAnchor="end" dominantBaseline="central">
              {valueText(tick)}
            </text>
          </g>
        ))}
        <line className="plot-axis" x1={0} x2={width} y1={height} y2={height} />
        {axisTicks({ fromMin: Math.min(...times), toMin: Math.max(...times), most: Math.max(2, Math.floor(width / (80 * scale))) }).map((tick) => (
          <g key={tick} transform={`translate(${x(tick)} ${height})`}>
            <line className="plot-axis" y2={6} />
            <text className="plot-label" y={6 + 16 * scale} textAnchor="middle">
              {timeText(tick)}
            </text>
          </g>
        ))}
        <text className="plot-label" x={width / 2} y={height + 6 + 36 * scale} textAnchor="middle">
          {axis}
        </text>
        {ends.map((end, index) => (
          <line key={end.line.id} className="compare-leader" x1={end.x} y1={end.y} x2={width + 14} y2={places[index]} />
        ))}
        {ordered.map((one) => (
          <g key={one.id} data-mine={one.isMine} data-worked={one.isWorkedOut} className="compare-line">
            <path d={pathOf([...one.points]) ?? ''} data-label={one.label} data-points={one.points.map(({ atMin, value }) => `${atMin}:${value}`).join(' ')} />
            {one.isWorkedOut ? null : one.points.map((point) => (
              <circle key={`${point.atMin}-${point.value}`} cx={x(point.atMin)} cy={y(point.value)} r={one.isMine ? 6 : 3.5} />
            ))}
          </g>
        ))}
        {ends.map((end, index) => (
          <text key={end.line.id} className="compare-label" data-mine={end.line.isMine} x={width + 18} y={places[index]} dominantBaseline="central">
            {end.line.label}
          </text>
        ))}
      </g>
    </svg>
  );
} // prettier-ignore
