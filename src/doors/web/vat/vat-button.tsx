import { useRef, type ButtonHTMLAttributes, type ReactNode } from 'react';
import './vat-button.css';

/** After acting, the same target is deaf for this long: a drop or a trembling hand taps twice. */
const DEAF_MS = 400;

/**
 * A button for wet hands: acts on release inside itself (as a click does), hears one tap only, and answers to a key.
 * `keyHint` is told to assistive technology; the screen listens (`vat-keys.ts`).
 */
export function VatButton({
  onAct,
  keyHint,
  children,
  className = '',
  ...rest
}: {
  readonly onAct: () => void;
  readonly keyHint?: string;
  readonly children: ReactNode;
} & Omit<ButtonHTMLAttributes<HTMLButtonElement>, 'onClick'>): ReactNode {
  const actedAt = useRef(-Infinity);
  const act = (stamp: number): void => {
    if (stamp - actedAt.current < DEAF_MS) return;
    actedAt.current = stamp;
    onAct();
  };
  return (
    <button
      type="button"
      className={`vat-button ${className}`}
      {...(keyHint === undefined ? {} : { 'data-key': keyHint, 'aria-keyshortcuts': keyHint })}
      onClick={(event) => act(event.timeStamp)}
      onContextMenu={(event) => event.preventDefault()}
      {...rest}
    >
      {children}
    </button>
  );
}
