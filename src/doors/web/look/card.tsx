import type { HTMLAttributes, ReactNode } from 'react';
import './card.css';

/** A sheet of enamel. `rim` is for the one card of a screen that matters; nothing else has the blue edge. */
export function Card({
  rim = false,
  className = '',
  children,
  ...rest
}: {
  readonly rim?: boolean;
  readonly children: ReactNode;
} & HTMLAttributes<HTMLElement>): ReactNode {
  return (
    <section className={`card ${rim ? 'card-rim' : ''} ${className}`} {...rest}>
      {children}
    </section>
  );
}
