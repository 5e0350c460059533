/** The plots of docs/forecast.md, from the stored results alone. */
import { OTHER_MODELS } from './otherwise.ts';
import { QUANTITIES } from './quantities.ts';
import type { ReplayedRun } from './curves.ts';
import type { Results } from './results.ts';
import { histograms, rowPlot, type PlotRow } from './row-plot.ts';
import { SHARPNESS } from './sharpness.ts';

export const quantityName = (id: string): string => QUANTITIES.find((one) => one.id === id)?.name ?? id;

/** Two standard deviations of a share, either way. */
function spanned(label: string, share: number, of: number): PlotRow {
  const slack = 2 * Math.sqrt((share * (1 - share)) / Math.max(of, 1));
  return { label, value: 100 * share, low: 100 * (share - slack), high: 100 * Math.min(share + slack, 1) };
}

/** How far the middle of the forecast and its ends lie from what came, as shares of what came. */
export const errorOf = (
  run: Pick<ReplayedRun, 'targetMin'>,
  { p5, p50, p95 }: ReplayedRun['forecasts'][number],
): { low: number; value: number; high: number } => {
  const off = (minutes: number): number => minutes / run.targetMin - 1;
  return { low: off(p5), value: off(p50), high: off(p95) };
};

/** Every plot by its file name. */
export function calibrationPlots(results: Results): ReadonlyMap<string, string> {
  const { quantities, byNotes, otherModels, sharpness, replayed } = results;
  const held = 'truths that the shown bands held [%]';
  return new Map([
    [
      'ranks.svg',
      histograms({
        title: 'Where the truth lay among the members, in twentieths',
        panels: quantities.map(({ id, bins }) => ({ label: quantityName(id), bins })),
      }),
    ],
    [
      'coverage.svg',
      rowPlot({
        title: 'How many truths the shown nine-in-ten bands held',
        xLabel: held,
        from: 75,
        to: 100,
        zone: [86, 94],
        rows: [
          ...quantities.map(({ id, makes, shownCovered }) => spanned(quantityName(id), shownCovered, makes)),
          ...byNotes.map(({ notes, of, covered }) => ({
            ...spanned(`all of them, ${notes} ${notes === 1 ? 'note' : 'notes'}`, covered, of),
            isLesser: true,
          })),
        ],
      }),
    ],
    [
      'other-models.svg',
      rowPlot({
        title: 'How many truths of other models the shown bands held',
        xLabel: `${held}; filled: all quantities, hollow: readiness alone`,
        from: 40,
        to: 100,
        zone: [80, 100],
        rows: OTHER_MODELS.flatMap(({ id }) => {
          const found = otherModels.find((one) => one.id === id);
          const ready = found?.quantities.find((one) => one.id === 'ready');
          return [
            spanned(id, found?.all.covered ?? 0, found?.all.of ?? 0),
            { ...spanned('', ready?.covered ?? 0, ready?.of ?? 0), isLesser: true },
          ];
        }),
      }),
    ],
    [
      'sharpness.svg',
      rowPlot({
        title: 'What notes leave of the width of a band',
        xLabel: 'width after over width before, middle half of makes; the stroke is the goal',
        from: 0,
        to: 1.2,
        rows: sharpness.map(({ id, p25, p50, p75 }) => ({
          label: SHORT[id] ?? id,
          value: p50,
          low: p25,
          high: p75,
          goal: SHARPNESS[id]?.goal ?? null,
        })),
      }),
    ],
    [
      'replays.svg',
      rowPlot({
        title: 'Published sourings replayed: how far off the forecast of their last reading was',
        xLabel: 'forecast over real time to the target, less one [%]; hollow: before any reading',
        from: -60,
        to: 100,
        rows: replayed.flatMap((run) =>
          run.forecasts.map((forecast) => {
            const { low, value, high } = errorOf(run, forecast);
            return {
              label: `${run.id}, ${forecast.readings} ${forecast.readings === 1 ? 'reading' : 'readings'}`,
              value: 100 * value,
              low: 100 * low,
              high: 100 * high,
              isLesser: forecast.readings === 0,
            };
          }),
        ),
      }),
    ],
  ]);
}

const SHORT: Readonly<Record<string, string>> = {
  bulk: 'bulk starter, pH twice',
  'freeze-dried': 'freeze-dried, pH twice',
  cheddar: 'mesophilic, pH twice',
  flocculation: 'flecks seen: cutting',
  stretching: 'three stretch tests: readiness',
  'whey-read-twice': 'whey pH twice: readiness',
  'curd-read-once': 'drained curd read: readiness',
};
