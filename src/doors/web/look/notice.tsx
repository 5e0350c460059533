import type { ReactNode } from 'react';
import './notice.css';

/**
 * `caution` has the amber bar, `act` the red fill with white words, `note` only a line: they are told apart by shape and
 * words, not by colour.
 */
export function Notice({
  kind,
  title,
  children,
}: {
  readonly kind: 'note' | 'caution' | 'act';
  readonly title?: string;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <div className={`notice notice-${kind}`}>
      {title === undefined ? null : <strong className="notice-title">{title}</strong>}
      {children}
    </div>
  );
}
