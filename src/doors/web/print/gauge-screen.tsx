import type { ReactNode } from 'react';
import { useSearch } from 'wouter';
import { Button } from '../look/button.tsx';
import { useReader } from '../device/reader.tsx';
import { BAR_MM, cutOf, gaugeEdges } from './gauge-view.ts';
import './print.css';
import './gauge.css';

/** True-size squares to lay curd on, and the bar that says whether the printer kept the size. */
export function GaugeScreen(): ReactNode {
  const { say, write } = useReader();
  const cutMm = cutOf(useSearch());
  const size = (mm: number): string => write.number(mm, Number.isInteger(mm) ? 0 : 1);
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
      <ul className="gauge-squares">
        {gaugeEdges(cutMm).map((edgeMm) => (
          <li key={edgeMm}>
            <svg width={`${edgeMm}mm`} height={`${edgeMm}mm`} viewBox={`0 0 ${edgeMm} ${edgeMm}`} aria-hidden="true">
              {/* Filled, not outlined: the edge of the ink is the edge of the cube. */}
              <rect width={edgeMm} height={edgeMm} />
            </svg>
            <strong>{say('labels:gauge.mm', { mm: size(edgeMm) })}</strong>
            {edgeMm === cutMm ? <span>{say('labels:gauge.yours')}</span> : null}
          </li>
        ))}
      </ul>
      <div className="gauge-check">
        <svg width={`${BAR_MM}mm`} height="4mm" viewBox={`0 0 ${BAR_MM} 4`} aria-hidden="true">
          <rect width={BAR_MM} height="4" />
        </svg>
        <p>
          <strong>{say('labels:gauge.bar')}</strong> {say('labels:gauge.scaled')}
        </p>
      </div>
    </article>
  );
}
