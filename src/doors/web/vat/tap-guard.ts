/**
 * Which taps count. A wet or trembling hand taps twice: the second tap is heard neither by the button that has just acted
 * nor by what the first one has brought under the same finger, for nobody has read that yet.
 */

/** After acting, the same button is deaf for this long. Our own choice: half of it is a fast double tap. */
const DEAF_MS = 400;
/** So is whatever the tap brought under the same finger, for less long: two quick picks in one place are honest. Our own choice. */
const UNREAD_MS = 300;
/** Something kept by the tap left its page: what lies there now is another question, and may be answered a little later. Our own choice. */
const KEPT_MS = 600;
/** As near as two taps of one finger lie (half of a 20 mm tile at 96 px an inch, rounded up). */
const SAME_SPOT_PX = 40;

/** A tap, as the page heard it; `stampMs` on any one clock, places in CSS pixels. */
export interface Tap {
  readonly stampMs: number;
  readonly x: number;
  readonly y: number;
  /** By a finger, or one of several clicks in a row: not a single click of a mouse, and no key. */
  readonly mayBeSecond: boolean;
}

/** The last tap that was acted on, of whatever button. */
export interface Acted {
  readonly stampMs: number;
  readonly x: number;
  readonly y: number;
  /** It kept something and so left the page it was on. */
  readonly hasKept: boolean;
}

export const NEVER_TAPPED: Acted = { stampMs: -Infinity, x: 0, y: 0, hasKept: false };

/**
 * Whether a tap is to be acted on.
 * @param input.buttonActedMs when this very button acted last; -Infinity where it never did
 */
export function counts(input: { readonly tap: Tap; readonly last: Acted; readonly buttonActedMs: number }): boolean {
  const { tap, last, buttonActedMs } = input;
  if (tap.stampMs - buttonActedMs < DEAF_MS) return false;
  const isNear = Math.hypot(tap.x - last.x, tap.y - last.y) < SAME_SPOT_PX;
  return !(tap.mayBeSecond && isNear && tap.stampMs - last.stampMs < (last.hasKept ? KEPT_MS : UNREAD_MS));
}
