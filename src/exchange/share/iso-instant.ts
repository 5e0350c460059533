const LAST_MS = 8.64e15; // ECMA-262, 21.4.1.1: the range of time values

/** An instant as ISO 8601 in UTC; one that no calendar reaches, as a clock set wrong may note, as its milliseconds. */
export const isoInstant = (atMs: number): string =>
  Math.abs(atMs) <= LAST_MS ? new Date(atMs).toISOString() : `${atMs} ms`;
