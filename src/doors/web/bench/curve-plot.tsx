import type { ReactNode } from 'react';
import { NumbersTable } from '../chart/numbers-table.tsx';
import { useWidth } from '../chart/use-width.ts';
import { useReader } from '../device/reader.tsx';
import { useTextScale } from '../look/use-text-scale.ts';
import { curveLayout } from './curve-layout.ts';
import type { PlotView } from './plot-view.ts';
import '../chart/chart.css';
import './curve-plot.css';

/** The room that words have about the frame at the usual size of text; it grows with the reader's. */
const ROOM = { left: 52, top: 34, bottom: 48 };
const HEIGHT = 300;

/** The plot of a sum: a sentence above, the drawing, and the same as numbers behind. */
export function CurvePlot({ view, title }: { readonly view: PlotView; readonly title: string }): ReactNode {
  const { say } = useReader();
  const { ref, widthPx } = useWidth<HTMLDivElement>(640);
  return (
    <figure className="curve">
      <figcaption className="curve-summary">{view.summary}</figcaption>
      <div ref={ref}>
        <Drawing view={view} title={title} widthPx={widthPx} />
      </div>
      <NumbersTable
        summary={say('bench:plot.numbers')}
        caption={view.summary}
        columns={view.columns}
        rows={view.rows}
      />
    </figure>
  );
}

const decimalsOf = (value: number): number => Number(value.toPrecision(6)).toString().split('.')[1]?.length ?? 0;

function Drawing({
  view,
  title,
  widthPx,
}: {
  readonly view: PlotView;
  readonly title: string;
  readonly widthPx: number;
}): ReactNode {
  const { write } = useReader();
  // All marks of an axis have as many decimals as the finest of them needs.
  const tick = (ticks: readonly number[], value: number): string =>
    write.number(value, Math.max(...ticks.map(decimalsOf)));
  const scale = useTextScale();
  const left = ROOM.left * scale;
  const isNarrow = widthPx < 520 * scale;
  const isNamed = view.curves.length > 1;
  const right = (isNarrow ? 14 : isNamed ? 130 : 116) * scale;
  const width = Math.max(120, widthPx - left - right);
  const height = HEIGHT - ROOM.top - ROOM.bottom;
  const heightPx = height + (ROOM.top + ROOM.bottom) * scale;
  const { x, y, xTicks, yTicks, curves } = curveLayout({ view, widthPx: width, heightPx: height });
  const banded = curves.find((curve) => curve.band !== '');
  const end = view.curves[0]?.points.at(-1);
  return (
    <svg
      className="plot"
      role="img"
      aria-label={`${title}. ${view.summary}`}
      width={widthPx}
      height={heightPx}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
    >
      <text className="plot-label" x={0} y={14 * scale}>
        {view.yName}
      </text>
      <g transform={`translate(${left} ${ROOM.top * scale})`}>
        {yTicks.map((value) => (
          <g key={value}>
            <line className="plot-grid" x1={0} x2={width} y1={y(value)} y2={y(value)} />
            <text className="plot-label" x={-8} y={y(value)} textAnchor="end" dominantBaseline="central">
              {tick(yTicks, value)}
            </text>
          </g>
        ))}
        {curves.map((curve) => (
          <g key={curve.label}>
            <path className="plot-most" d={curve.band} />
            <path className="plot-most-edge" d={curve.low} />
            <path className="plot-most-edge" d={curve.high} />
          </g>
        ))}
        {view.aims.map((aim) => (
          <g key={aim}>
            <line className="plot-aim" x1={0} x2={width} y1={y(aim)} y2={y(aim)} />
            <text className="plot-aim-label" x={4} y={y(aim) - 6}>
              {view.yText(aim)}
            </text>
          </g>
        ))}
        {curves.map((curve) => (
          <path key={curve.label} className="curve-line" strokeDasharray={curve.dash} d={curve.path} />
        ))}
        {view.marks.map((mark) => (
          <circle key={`${mark.x}-${mark.y}`} className="plot-reading" cx={x(mark.x)} cy={y(mark.y)} r={7} />
        ))}
        <line className="plot-axis" x1={0} x2={width} y1={height} y2={height} />
        {xTicks.map((value) => (
          <g key={value}>
            <line className="plot-axis" x1={x(value)} x2={x(value)} y1={height} y2={height + 5} />
            <text className="plot-label" x={x(value)} y={height + 5 + 15 * scale} textAnchor="middle">
              {tick(xTicks, value)}
            </text>
          </g>
        ))}
        <text className="plot-label" x={width} y={height + 5 + 35 * scale} textAnchor="end">
          {view.xName}
        </text>
        {isNamed
          ? curves.map((curve) => (
              <text
                key={curve.label}
                className="curve-name"
                x={isNarrow ? width - 4 : width + 8}
                y={isNarrow ? curve.labelY - 10 * scale : curve.labelY}
                textAnchor={isNarrow ? 'end' : 'start'}
                dominantBaseline="central"
              >
                {curve.label}
              </text>
            ))
          : null}
        {!isNamed && !isNarrow && banded !== undefined && end?.low != null && end.high != null ? (
          <g className="plot-label">
            <text x={width + 8} y={Math.min(y(end.high), y(end.low) - 20 * scale)} dominantBaseline="central">
              {view.bandNames.high}
            </text>
            <text x={width + 8} y={y(end.low)} dominantBaseline="central">
              {view.bandNames.low}
            </text>
          </g>
        ) : null}
      </g>
    </svg>
  );
}
