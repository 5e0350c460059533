import { useRef, type ButtonHTMLAttributes, type MouseEvent, type ReactNode } from 'react';
import './vat-button.css';

/** After acting, the same target is deaf for this long: a drop or a trembling hand taps twice. */
const DEAF_MS = 400;
/** So is whatever a tap brought under the same finger, for less long: nobody has read it yet. Our own choices. */
const UNREAD_MS = 300;
const SAME_SPOT_PX = 40;

/** The last tap that was acted on, of whatever button: the next screen's may lie under the same finger. */
let lastTap = { stamp: -Infinity, x: 0, y: 0 };

/** Whether this is the second tap of a double one, on what the first has only just put there. */
function isUnread({ detail, nativeEvent, timeStamp, clientX, clientY }: MouseEvent<HTMLButtonElement>): boolean {
  const isFinger = nativeEvent instanceof PointerEvent && nativeEvent.pointerType !== 'mouse';
  const isNear = Math.hypot(clientX - lastTap.x, clientY - lastTap.y) < SAME_SPOT_PX;
  return (isFinger || detail > 1) && isNear && timeStamp - lastTap.stamp < UNREAD_MS;
}

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
  const act = (event: MouseEvent<HTMLButtonElement>): void => {
    const { timeStamp, detail, clientX, clientY } = event;
    if (timeStamp - actedAt.current < DEAF_MS || isUnread(event)) return;
    actedAt.current = timeStamp;
    // Keys press in no place.
    if (detail > 0) lastTap = { stamp: timeStamp, x: clientX, y: clientY };
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
