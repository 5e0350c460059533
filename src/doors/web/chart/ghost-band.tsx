import type { ReactNode } from 'react';
import type { PlotLayout } from './plot-layout.ts';

/** A band as it was before a change: its outer edges and its middle, so that what stands now is read through it. */
export function GhostBand({ layout }: { readonly layout: PlotLayout }): ReactNode {
  return (
    <g className="plot-ghost">
      <path d={layout.mostLow} />
      <path d={layout.mostHigh} />
      <path className="plot-ghost-middle" d={layout.median} />
    </g>
  );
}
