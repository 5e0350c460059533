/** How far a device's clock is from the server's, as one exchange measured it. */
export interface ClockOffset {
  /** To be added to what the device's clock shows, milliseconds: positive where the device is behind. */
  readonly offsetMs: number;
  /** The true offset is no further away than this: half of how long the answer took, milliseconds. */
  readonly plusMinusMs: number;
  /** The device's clock when it was measured, milliseconds UTC. */
  readonly measuredAt: number;
}

/** Two clocks that tick for themselves drift apart by at most this share: 100 s in a million, twice what a plain quartz does (our own choice). */
const DRIFT = 1e-4;

/** A clock that is off by more than this is told of, milliseconds: a minute is what the vat counts in. */
export const CLOCK_OFF_MS = 60_000;

/**
 * The offset by one question and answer: the server's time belongs to some moment between asking and answer.
 * Offset = server's time - (asked + answered) / 2, and no further off than (answered - asked) / 2.
 *
 * @param input.askedAt, input.answeredAt  the device's clock, milliseconds UTC
 * @param input.serverAt  the server's clock while it answered, milliseconds UTC
 * @returns null where the device's clock was set back in between, so that nothing was measured
 * @source MILLS, MARTIN, BURBANK & KASCH (2010) Network Time Protocol Version 4, RFC 5905, section 8. [from memory, not seen]
 */
export function measuredOffset(input: {
  readonly askedAt: number;
  readonly serverAt: number;
  readonly answeredAt: number;
}): ClockOffset | null {
  const { askedAt, serverAt, answeredAt } = input;
  if (answeredAt < askedAt) return null;
  return {
    offsetMs: Math.round(serverAt - (askedAt + answeredAt) / 2),
    plusMinusMs: Math.ceil((answeredAt - askedAt) / 2),
    measuredAt: answeredAt,
  };
}

/**
 * Which of two measurements to go by: the earlier one as long as it agrees with the later and is still the closer of the two,
 * for all that the clocks may have drifted since; else the later, as after a clock was set.
 */
export function closerOffset(before: ClockOffset | null, after: ClockOffset): ClockOffset {
  if (before === null || after.measuredAt < before.measuredAt) return after;
  const beforeNow = before.plusMinusMs + (after.measuredAt - before.measuredAt) * DRIFT;
  const isAgreeing = Math.abs(after.offsetMs - before.offsetMs) <= beforeNow + after.plusMinusMs;
  return isAgreeing && beforeNow <= after.plusMinusMs ? before : after;
}

/** Whether the clock is off by more than a minute for certain, whatever the doubt of the measurement. */
export function isClockOff(offset: ClockOffset | null): offset is ClockOffset {
  return offset !== null && Math.abs(offset.offsetMs) - offset.plusMinusMs > CLOCK_OFF_MS;
}
