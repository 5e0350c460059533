/** Judged rows as points of a plot. */
import { toleranceBand, type Judged } from '../../tests/published/rows.ts';
import type { PlotPoint } from './plot.ts';

/** Points of those rows whose id matches, at the x that `at` reads off the row; the bar is the row's own tolerance. */
export function pointsOf(of: {
  readonly rows: readonly Judged[];
  readonly id: RegExp;
  readonly at: (match: RegExpExecArray, judged: Judged) => number;
  readonly factor?: number;
}): PlotPoint[] {
  const factor = of.factor ?? 1;
  return of.rows.flatMap((judged) => {
    const match = of.id.exec(judged.row.id);
    if (match === null) return [];
    const { low, high } = toleranceBand(judged.row);
    return [{ x: of.at(match, judged), y: factor * judged.row.published, low: factor * low, high: factor * high }];
  });
}

/** Number in a column of the row. */
export const column =
  (name: string) =>
  (_: RegExpExecArray, { row }: Judged): number =>
    Number(row.columns[name]);

/** First group of the id as a number. */
export const inId = (match: RegExpExecArray): number => Number(match[1]);

/** As `pointsOf`, for rows whose published value belongs on the x axis. */
export const turnedPoints = (of: Parameters<typeof pointsOf>[0]): PlotPoint[] =>
  pointsOf(of).map(({ x, y }) => ({ x: y, y: x }));
