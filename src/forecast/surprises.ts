import { weightedQuantiles } from '../numbers/stats.ts';
import type { Course } from './course.ts';
import type { Ensemble } from './ensemble.ts';
import type { Surprise } from './forecast.ts';
import type { MemberRun } from './run.ts';

/**
 * Readings outside 98 % of what was forecast just before them: kept, and asked about. What was forecast just before a reading
 * rests on everything noted earlier, so the final weights are divided by what this and later notes gave them.
 */
export function surprisesOf(course: Course, ensemble: Ensemble<MemberRun>): Surprise[] {
  const { readings } = course.history;
  const surprises: Surprise[] = [];
  for (const [index, reading] of readings.entries()) {
    const values: number[] = [];
    const weights: number[] = [];
    for (const [i, run] of ensemble.results.entries()) {
      const expected = run.expected[index] ?? Number.NaN;
      if (Number.isNaN(expected)) continue;
      let later = 0;
      for (const [j, other] of readings.entries()) {
        if (other.elapsedMin > reading.elapsedMin || j === index) later += run.logLikelihoods[j] ?? 0;
      }
      for (const [j, judged] of course.history.judgements.entries()) {
        if (judged.elapsedMin > reading.elapsedMin) later += run.logLikelihoods[readings.length + j] ?? 0;
      }
      values.push(expected);
      // No note may lift a member by more than e^12: far-off members would drown the rest in rounding.
      weights.push((ensemble.weights[i] ?? 0) * Math.exp(Math.min(-later, 12)));
    }
    if (values.length === 0 || !weights.some((weight) => weight > 0)) continue;
    const sd = meanOf(ensemble.results.map((run) => run.expectedSd[index] ?? Number.NaN));
    const [low = 0, high = 0] = weightedQuantiles(values, weights, [0.01, 0.99]);
    const p1 = low - 2.33 * sd;
    const p99 = high + 2.33 * sd;
    if (reading.value < p1 || reading.value > p99) {
      const { quantity, value, elapsedMin } = reading;
      surprises.push({ quantity, value, elapsedMin, expected: { p1, p99 } });
    }
  }
  return surprises;
}

function meanOf(values: readonly number[]): number {
  const there = values.filter((value) => !Number.isNaN(value));
  return there.length === 0 ? 0 : there.reduce((sum, value) => sum + value, 0) / there.length;
}
