import type { ReactNode } from 'react';
import type { VatView } from './vat-view.ts';
import './vat-card.css';

/** When to test, how many say ready by then, and what must be hot: the detail behind "until". */
export function ReadinessLines({ view }: { readonly view: VatView }): ReactNode {
  if (view.readiness === null) return null;
  return (
    <ul className="vat-looks">
      {view.readiness.lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}
