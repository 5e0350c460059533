/** How long a sound takes, and with its words: two pots never talk at once. Our own choice. */
const SOUND_MS = 1500;
const SAID_MS = 6000;

/** What is to be heard. */
interface Heard {
  readonly isAct: boolean;
  readonly isSpoken: boolean;
}

/**
 * One voice at a time for all pots of a device. An Act waits only for the sound that is being made, never for what waits itself;
 * a due thing until the words before it are over, in the order of coming.
 * @param clock.nowMs  on any one clock that does not jump
 * @param clock.later  runs something after so many milliseconds, in the order of asking where two fall together
 */
export function turns(clock: {
  readonly nowMs: () => number;
  readonly later: (run: () => void, ms: number) => void;
}): (what: Heard, ring: () => void) => void {
  let soundsUntil = -Infinity;
  let saidUntil = -Infinity;
  return function inTurn(what, ring): void {
    const now = clock.nowMs();
    const until = what.isAct ? soundsUntil : saidUntil;
    if (now < until) {
      clock.later(() => inTurn(what, ring), until - now);
      return;
    }
    soundsUntil = now + SOUND_MS;
    saidUntil = Math.max(saidUntil, now + (what.isSpoken ? SAID_MS : SOUND_MS));
    ring();
  };
}
