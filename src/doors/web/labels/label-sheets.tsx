import type { ReactNode } from 'react';
import { CheckCard, LabelCard } from './label-card.tsx';
import { PAPERS, placesOn, type Cell, type PaperId, type StockId } from './label-stock.ts';
import type { LabelView } from './label-view.ts';

/** A page that is a hair taller than the printer's runs over onto an empty one; no label stands so near the foot. */
const SLACK_MM = 1;

/** The pages that go through the printer; on screen they stay out of sight. */
export function LabelSheets({
  pages,
  views,
  stock,
  paper,
}: {
  readonly pages: readonly (readonly Cell[])[];
  /** One for each label, in their order; a single one stands for all. */
  readonly views: readonly LabelView[];
  readonly stock: StockId;
  readonly paper: PaperId;
}): ReactNode {
  const places = placesOn({ stock, paper });
  const { widthMm, heightMm } = PAPERS[paper];
  return (
    <div className="label-pages">
      {pages.map((cells, page) => (
        // Pages have no identity beside their place in the pile.
        <div key={page} className="label-page" style={{ width: `${widthMm}mm`, height: `${heightMm - SLACK_MM}mm` }}>
          {places.map(({ leftMm, topMm }, index) => {
            const cell = cells[index];
            if (cell === undefined || cell.kind === 'empty') return null;
            const view = cell.kind === 'label' ? (views[cell.number - 1] ?? views[0]) : undefined;
            return (
              <div key={index} className="label-place" style={{ left: `${leftMm}mm`, top: `${topMm}mm` }}>
                {view === undefined ? <CheckCard stock={stock} /> : <LabelCard view={view} stock={stock} />}
              </div>
            );
          })}
        </div>
      ))}
    </div>
  );
}
