import type { MemberRun } from './run.ts';

/** How one noted value is put down in a member's run: what was expected, how far off it came, and how likely that was. */

/** Share of readings that are slips; spread flat over a span, so that one cannot end a forecast. Our own choice. */
const SLIP_SHARE = 0.03;
/** Span over which a slip may land, by what is compared: pH, degrees, a ratio's logarithm, degrees Dornic. Our own choice. */
export const SLIP_SPAN = { pH: 10, temperatureC: 100, ln: 4, dornic: 150 } as const;
/** A reading further off than this many standard deviations does not move the member's state. Our own choice. */
export const BELIEVED_SD = 4;

/** What a member expected of a reading, with its standard deviation: what a surprise is told by. */
export function note(run: MemberRun, index: number, expected: number, sd: number): void {
  run.expected[index] = expected;
  run.expectedSd[index] = sd;
}

/** Weighs a reading that lies `z` standard deviations of `sd` from what the member expected. */
export function weigh(run: MemberRun, index: number, reading: { z: number; sd: number; span: number }): void {
  run.innovations[index] = reading.z;
  run.logLikelihoods[index] = robust(reading.z, reading.sd, reading.span);
}

/** Log-density of a normal reading that may be a slip of the pen. */
function robust(z: number, sd: number, span: number): number {
  const normal = Math.exp(-0.5 * z * z) / (sd * 2.5066282746310002);
  return Math.log((1 - SLIP_SHARE) * normal + SLIP_SHARE / span);
}
