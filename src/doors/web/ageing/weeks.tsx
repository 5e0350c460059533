import { type ReactNode, useId } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { jobShape } from './job-shapes.ts';
import { LANES, type WeekMark, type WeekRow, type WeeksView } from './weeks-view.ts';
import '../chart/chart.css';
import './weeks.css';

const LANE_PX = 15;
const TOP_PX = 5;
const ROW_PX = TOP_PX + LANE_PX * LANES.length + 3;

/** The strip of weeks: past on the left of the line, what is to come on its right. Every row also stands in words. */
export function Weeks({ view, widthPx }: { readonly view: WeeksView; readonly widthPx: number }): ReactNode {
  const { say } = useReader();
  const step = widthPx / view.days;
  const x = (column: number): number => (column + 0.5) * step;
  return (
    <div className="weeks">
      <svg className="weeks-head" width={widthPx} height={24} aria-hidden="true">
        {view.weeks.map(({ column, label }) => (
          <text key={column} x={column * step + 3} y={17} className="weeks-date">
            {column * step < widthPx - 46 ? label : ''}
          </text>
        ))}
      </svg>
      <ul className="weeks-rows">
        {view.rows.map((row) => (
          <li key={row.pieceId} className="weeks-row">
            <Link href={`/ageing/${row.pieceId.replace(/^piece:/, '')}`} className="weeks-name">
              <strong>{row.name}</strong> <span>{row.about}</span>
              {row.readyWords === '' ? null : <span className="weeks-ready-words">{row.readyWords}</span>}
            </Link>
            <svg
              width={widthPx}
              height={ROW_PX}
              role="img"
              aria-label={row.told === '' ? say('ageing:weeks.nothing') : row.told}
            >
              <Ground view={view} row={row} step={step} />
              {row.marks.map((mark) => (
                <Mark key={`${mark.job} ${mark.column} ${mark.state}`} mark={mark} x={x(mark.column)} />
              ))}
            </svg>
          </li>
        ))}
      </ul>
      <ul className="weeks-legend" aria-label={say('ageing:weeks.legend')}>
        {(['turn', 'brush', 'wash', 'weigh', 'taste', 'move'] as const).map((job) => (
          <li key={job}>
            <svg width={18} height={18} aria-hidden="true">
              <Mark mark={{ job, column: 0, state: 'done', lane: 0 }} x={9} y={9} />
            </svg>{' '}
            {say(`ageing:mark.${job}`)}
          </li>
        ))}
        <li>
          <svg width={18} height={18} aria-hidden="true">
            <Mark mark={{ job: 'turn', column: 0, state: 'due', lane: 0 }} x={9} y={9} />
          </svg>{' '}
          {say('ageing:weeks.toCome')}
        </li>
        <li>
          <svg width={26} height={18} aria-hidden="true">
            <line x1={2} x2={24} y1={9} y2={9} className="weeks-gap" />
          </svg>{' '}
          {say('ageing:weeks.missed')}
        </li>
      </ul>
    </div>
  );
}

function Ground({
  view,
  row,
  step,
}: {
  readonly view: WeeksView;
  readonly row: WeekRow;
  readonly step: number;
}): ReactNode {
  const hatch = useId();
  const laneY = (lane: number): number => TOP_PX + LANE_PX * (lane + 0.5);
  return (
    <>
      <defs>
        <pattern id={hatch} width={7} height={7} patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V7" className="plot-hatch" />
        </pattern>
      </defs>
      {view.away.map(({ from, to }) => (
        <rect key={from} x={from * step} y={0} width={(to - from + 1) * step} height={ROW_PX} className="weeks-away" />
      ))}
      {view.weeks.map(({ column }) => (
        <line key={column} x1={column * step} x2={column * step} y1={0} y2={ROW_PX} className="weeks-monday" />
      ))}
      {row.ready === null ? null : (
        <>
          <rect
            x={row.ready.from * step}
            y={1}
            width={(row.ready.to - row.ready.from + 1) * step}
            height={ROW_PX - 2}
            fill={`url(#${hatch})`}
          />
          <line x1={row.ready.from * step} x2={row.ready.from * step} y1={1} y2={ROW_PX - 1} className="plot-aim" />
        </>
      )}
      {row.gaps.map(({ from, to, lane }) => (
        <line
          key={`${from} ${lane}`}
          x1={(from + 1) * step}
          x2={to * step}
          y1={laneY(lane)}
          y2={laneY(lane)}
          className="weeks-gap"
        />
      ))}
      <line
        x1={(view.todayColumn + 0.5) * step}
        x2={(view.todayColumn + 0.5) * step}
        y1={0}
        y2={ROW_PX}
        className="weeks-today"
      />
    </>
  );
}

/** A shape a job, told apart without colour: filled where done, open where to come, with a ring where somebody else must do it. */
function Mark({ mark, x, y }: { readonly mark: WeekMark; readonly x: number; readonly y?: number }): ReactNode {
  const cy = y ?? TOP_PX + LANE_PX * (mark.lane + 0.5);
  return (
    <g transform={`translate(${x} ${cy})`} className={`weeks-mark weeks-${mark.state}`}>
      <path d={jobShape(mark.job)} />
      {mark.state === 'cannot-wait' ? <circle r={7} className="weeks-ring" /> : null}
    </g>
  );
}
