import { effectiveSampleSize, weightedQuantiles } from '../numbers/stats.ts';
import type { Course } from './course.ts';
import type { Surprise } from './forecast.ts';
import type { MemberRun } from './run.ts';

/** What was forecast just before a reading rests on at least so many members: fewer would call anything a surprise. Our own choice. */
const LEAST_MEMBERS = 30;

/**
 * Readings outside 98 % of what was forecast just before them: kept, and asked about. The prior's members are weighed by what
 * was noted earlier, as much of it as leaves `LEAST_MEMBERS` effective.
 */
export function surprisesOf(course: Course, fromPrior: readonly MemberRun[]): Surprise[] {
  const { readings, judgements } = course.history;
  return readings.flatMap((reading, index) => {
    const earlier = [
      ...readings.map((other, j) => ({ at: other.elapsedMin, j })),
      ...judgements.map((judged, j) => ({ at: judged.elapsedMin, j: readings.length + j })),
    ].filter((note) => note.at < reading.elapsedMin);
    const there = fromPrior.filter((run) => Number.isFinite(run.expected[index] ?? Number.NaN));
    if (there.length < LEAST_MEMBERS) return [];
    const evidence = there.map((run) => earlier.reduce((sum, note) => sum + (run.logLikelihoods[note.j] ?? 0), 0));
    const values = there.map((run) => run.expected[index] ?? 0);
    const [low = 0, high = 0] = weightedQuantiles(values, tempered(evidence), [0.01, 0.99]);
    const sd = there.reduce((sum, run) => sum + (run.expectedSd[index] ?? 0), 0) / there.length;
    // 98 % of what the members expect, and of the reading's own error about it.
    const p1 = low - 2.33 * sd;
    const p99 = high + 2.33 * sd;
    if (reading.value >= p1 && reading.value <= p99) return [];
    const { quantity, value, elapsedMin } = reading;
    return [{ quantity, value, elapsedMin, expected: { p1, p99 } }];
  });
}

/** Weights by as much of the evidence as leaves enough members effective. */
function tempered(evidence: readonly number[]): Float64Array {
  const highest = Math.max(...evidence);
  for (let share = 1; share > 0.01; share *= 0.8) {
    const weights = Float64Array.from(evidence, (value) => Math.exp(share * (value - highest)));
    if (effectiveSampleSize(weights) >= LEAST_MEMBERS) return weights;
  }
  return new Float64Array(evidence.length).fill(1);
}
