import { useMemo, type ReactNode } from 'react';
import { STYLE_CARE } from '../../../exchange/ageing/styles.ts';
import { weightCurve } from '../../../exchange/ageing/piece-weight.ts';
import { dayNumber } from '../../../record/day-number.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import type { PlaceRecord } from '../../../record/place-record.ts';
import { NumbersTable } from '../chart/numbers-table.tsx';
import { useWidth } from '../chart/use-width.ts';
import { useReader } from '../device/reader.tsx';
import { weightView, type WeightView } from './weight-view.ts';
import '../chart/chart.css';

const HEIGHT_PX = 240;
const FIRST_PX = 340;
const AHEAD_DAYS = 30; // our own choice: a month beyond today, or the end of the window

/** How it loses weight: its weighings, what they teach, and the band of what is to come. */
export function PieceWeight({
  piece,
  place,
  now,
  today,
}: {
  readonly piece: PieceRecord;
  readonly place: PlaceRecord | null;
  readonly now: number;
  readonly today: number;
}): ReactNode {
  const { say, write } = useReader();
  const { ref, widthPx } = useWidth<HTMLDivElement>(FIRST_PX);
  const view = useMemo(() => {
    const to = dayNumber(piece.made?.madeOn ?? '') + (piece.care?.readyDays?.from ?? 0);
    const until = Math.max(today + AHEAD_DAYS, to);
    const untilAt = (piece.goneAt ?? now) + Math.max(0, until - today) * 86_400_000;
    const curve = weightCurve({ piece, place, untilAt: piece.goneAt ?? untilAt, moisturePercent: moistureOf(piece) });
    return curve === null ? null : weightView({ curve, now, widthPx, heightPx: HEIGHT_PX, say, write });
  }, [piece, place, now, today, widthPx, say, write]);
  return (
    <section className="weight" aria-labelledby="weight-title">
      <h2 id="weight-title">{say('ageing:weight.title')}</h2>
      {view === null ? (
        <p>{say('ageing:weight.none')}</p>
      ) : (
        <>
          <p className="weight-told">{view.told}</p>
          <div ref={ref}>
            <Plot view={view} widthPx={widthPx} />
          </div>
          <p className="piece-source">{view.rests}</p>
          <NumbersTable
            summary={say('ageing:weight.numbers')}
            caption={say('ageing:weight.title')}
            columns={view.columns}
            rows={view.rows}
          />
        </>
      )}
    </section>
  );
}

const moistureOf = ({ rind }: PieceRecord): number =>
  rind === 'mould' ? STYLE_CARE.bloomy.moisturePercent : rind === 'washed' ? STYLE_CARE['washed-rind'].moisturePercent : STYLE_CARE.own.moisturePercent; // prettier-ignore

function Plot({ view, widthPx }: { readonly view: WeightView; readonly widthPx: number }): ReactNode {
  const { say } = useReader();
  const { left, bottom, plot } = view;
  const height = HEIGHT_PX + bottom;
  return (
    <svg className="plot" width={widthPx} height={height} role="img" aria-label={view.told}>
      {view.valueTicks.map(({ y, label }) => (
        <g key={label}>
          <line x1={left} x2={widthPx} y1={y} y2={y} className="plot-grid" />
          <text x={left - 6} y={y + 5} textAnchor="end" className="plot-label">
            {label}
          </text>
        </g>
      ))}
      <path d={plot.band} className="plot-most" />
      <path d={plot.low} className="plot-most-edge" />
      <path d={plot.high} className="plot-most-edge" />
      <path d={plot.fit} className="plot-fit" />
      <path d={plot.median} className="plot-median" />
      <line x1={view.nowX} x2={view.nowX} y1={0} y2={HEIGHT_PX} className="plot-now" />
      <text
        x={view.nowX + (view.nowX > widthPx - 80 ? -6 : 6)}
        y={16}
        textAnchor={view.nowX > widthPx - 80 ? 'end' : 'start'}
        className="plot-now-label"
      >
        {say('ageing:weight.today')}
      </text>
      {view.weighed.map(({ x, y }) => (
        <circle key={`${x} ${y}`} cx={x} cy={y} r={7} className="plot-reading" />
      ))}
      <line x1={left} x2={widthPx} y1={HEIGHT_PX} y2={HEIGHT_PX} className="plot-axis" />
      {view.dayTicks.map(({ x, label, anchor }) => (
        <text key={label} x={x} y={HEIGHT_PX + 20} textAnchor={anchor} className="plot-label">
          {label}
        </text>
      ))}
    </svg>
  );
}
