import type { CSSProperties, ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { STOCKS, type StockId } from './label-stock.ts';
import type { LabelPart, LabelView } from './label-view.ts';

const sized = (stock: StockId): CSSProperties => ({
  width: `${STOCKS[stock].widthMm}mm`,
  height: `${STOCKS[stock].heightMm}mm`,
});

/** One label at its true size; what is not known is a ruled blank. */
export function LabelCard({ view, stock }: { readonly view: LabelView; readonly stock: StockId }): ReactNode {
  const { say } = useReader();
  return (
    <div className="label-card" style={sized(stock)}>
      <p className="label-name">
        <span>{view.name}</span>
        {view.pot === null ? null : <span className="label-pot"> {view.pot}</span>}
      </p>
      <p className="label-pair">
        <span>
          {say('labels:lot')} <strong>{view.lot}</strong>
        </span>
        <span>{say('labels:made', { day: view.made })}</span>
      </p>
      <p className="label-line">
        <strong>
          {view.until.name} {view.until.day}
        </strong>
        {view.until.day === null ? <Blank /> : null}
      </p>
      <p>{view.keep}</p>
      <p>
        <Parts parts={view.ingredients} />
      </p>
      <p className="label-contains">
        <Parts parts={view.contains} /> {view.raw === null ? null : <strong>{view.raw}</strong>}
      </p>
      <p className="label-line label-last">
        <span>
          {say('labels:net')} {view.netWeight === null ? null : <strong>{view.netWeight}</strong>}
        </span>
        {view.netWeight === null ? <Blank /> : null}
        <span>{say('labels:maker')}</span>
        <Blank />
      </p>
    </div>
  );
}

const Blank = (): ReactNode => <span className="label-blank" aria-hidden="true" />;

/** Text with the allergen in capitals and heavy ink, so that it stands out without colour. */
export function Parts({ parts }: { readonly parts: readonly LabelPart[] }): ReactNode {
  return parts.map((part) =>
    part.isAllergen ? (
      <strong key={part.text} className="label-allergen">
        {part.text}
      </strong>
    ) : (
      <span key={part.text}>{part.text}</span>
    ),
  );
}

/** The note behind the last label: is the size true, and who decides what a label says. */
export function CheckCard({ stock }: { readonly stock: StockId }): ReactNode {
  const { say } = useReader();
  return (
    <div className="label-card label-check" style={sized(stock)}>
      <svg className="label-bar" width="50mm" height="4mm" viewBox="0 0 50 4" aria-hidden="true">
        <rect x="0" y="0" width="50" height="2" />
      </svg>
      <p>{say('labels:bar')}</p>
      <p>{say('labels:law')}</p>
    </div>
  );
}
