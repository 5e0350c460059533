import { useRef, type ButtonHTMLAttributes, type MouseEvent, type ReactNode } from 'react';
import { counts, NEVER_TAPPED, type Acted, type Tap } from './tap-guard.ts';
import './vat-button.css';

/** The last tap that was acted on, of whatever button: the next screen's may lie under the same finger. */
let last: Acted = NEVER_TAPPED;

function tapOf({ detail, nativeEvent, timeStamp, clientX, clientY }: MouseEvent<HTMLButtonElement>): Tap {
  const isFinger = nativeEvent instanceof PointerEvent && nativeEvent.pointerType !== 'mouse';
  return { stampMs: timeStamp, x: clientX, y: clientY, mayBeSecond: isFinger || detail > 1 };
}

/**
 * A button for wet hands: acts on release inside itself (as a click does), hears one tap only, and answers to a key.
 * `keyHint` is told to assistive technology; the screen listens (`vat-keys.ts`). One that `keeps` something at once leaves
 * its page with the tap: what comes under the finger then is deaf a little longer.
 */
export function VatButton({
  onAct,
  keyHint,
  keeps = false,
  children,
  className = '',
  ...rest
}: {
  readonly onAct: () => void;
  readonly keyHint?: string;
  readonly keeps?: boolean;
  readonly children: ReactNode;
} & Omit<ButtonHTMLAttributes<HTMLButtonElement>, 'onClick'>): ReactNode {
  const actedMs = useRef(-Infinity);
  const act = (event: MouseEvent<HTMLButtonElement>): void => {
    const tap = tapOf(event);
    if (!counts({ tap, last, buttonActedMs: actedMs.current })) return;
    actedMs.current = tap.stampMs;
    // Keys press in no place.
    if (event.detail > 0) last = { ...tap, hasKept: keeps };
    onAct();
  };
  return (
    <button
      type="button"
      className={`vat-button ${className}`}
      {...(keyHint === undefined ? {} : { 'data-key': keyHint, 'aria-keyshortcuts': keyHint })}
      onClick={act}
      onContextMenu={(event) => event.preventDefault()}
      {...rest}
    >
      {children}
    </button>
  );
}
