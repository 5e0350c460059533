import type { ReactNode } from 'react';
import { useSearch } from 'wouter';
import { Button } from '../look/button.tsx';
import { useReader } from '../device/reader.tsx';
import { BAR_MM, cutOf, gaugeSquares } from './gauge-view.ts';
import './print.css';
import './gauge.css';

/** Room for a square's words under it, mm. */
const WORDS_MM = 12;
const PAGE_MM = 165;

/** True-size squares to lay curd on, and the bar that says whether the printer kept the size. */
export function GaugeScreen(): ReactNode {
  const { say, write } = useReader();
  const cutMm = cutOf(useSearch());
  const { squares, heightMm } = gaugeSquares(cutMm);
  const size = (mm: number): string => write.number(mm, Number.isInteger(mm) ? 0 : 1);
  const sizes = squares.map(({ edgeMm }) => size(edgeMm)).join(', ');
  return (
    <article className="gauge">
      <h1>{say('labels:gauge.title')}</h1>
      <p>{say('labels:gauge.how')}</p>
      <p className="no-print">{say('labels:gauge.screen')}</p>
      <p className="no-print">
        <Button kind="main" onClick={() => window.print()}>
          {say('labels:gauge.print')}
        </Button>
      </p>
      <div className="gauge-scroll" tabIndex={0} role="group" aria-label={say('labels:gauge.title')}>
        <svg
          className="gauge-squares"
          width={`${PAGE_MM}mm`}
          height={`${heightMm + WORDS_MM}mm`}
          viewBox={`0 0 ${PAGE_MM} ${heightMm + WORDS_MM}`}
          role="img"
          aria-label={say('labels:gauge.summary', { sizes })}
        >
          {squares.map(({ edgeMm, xMm, yMm, isYours }) => (
            <g key={edgeMm} transform={`translate(${xMm} ${yMm})`}>
              {/* Filled, not outlined: the edge of the ink is the edge of the cube. */}
              <rect className="gauge-square" data-edge={edgeMm} width={edgeMm} height={edgeMm} />
              <text className="gauge-size" y={edgeMm + 5}>
                {say('labels:gauge.mm', { mm: size(edgeMm) })}
              </text>
              {isYours ? <path className="gauge-mark" d={`M0 ${edgeMm + 8}H${edgeMm}`} /> : null}
            </g>
          ))}
        </svg>
        <svg className="gauge-bar" width={`${BAR_MM}mm`} height="6mm" viewBox={`0 0 ${BAR_MM} 6`} aria-hidden="true">
          <rect data-bar={BAR_MM} width={BAR_MM} height="4" />
        </svg>
      </div>
      <p className="gauge-bar-words">
        <strong>{say('labels:gauge.bar')}</strong> {say('labels:gauge.scaled')}
      </p>
      {cutMm === null ? null : (
        <p className="gauge-yours">
          <svg width="8mm" height="2mm" viewBox="0 0 8 2" aria-hidden="true">
            <path className="gauge-mark" d="M0 1H8" />
          </svg>{' '}
          {say('labels:gauge.yours', { mm: size(cutMm) })}
        </p>
      )}
    </article>
  );
}
