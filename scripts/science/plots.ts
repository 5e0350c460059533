/** The plot of a model: its own where there is one, else how far each row is off, counted in its own tolerance. */
import { toleranceBand, type Judged } from '../../tests/published/rows.ts';
import { HEAT_PLOTS } from './plots-heat.ts';
import { MILK_PLOTS } from './plots-milk.ts';
import type { ScienceModel } from './models.ts';
import type { Plot } from './plot.ts';

export function plotOf(model: ScienceModel, rows: readonly Judged[]): Plot | null {
  const own = MILK_PLOTS[model.id] ?? HEAT_PLOTS[model.id];
  if (own !== undefined) return own(rows);
  return rows.length === 0 ? null : errorsPlot(model, rows);
}

function errorsPlot(model: ScienceModel, rows: readonly Judged[]): Plot {
  return {
    title: `${model.title}: how far off each published value is`,
    xLabel: 'row of the table below',
    yLabel: 'error over tolerance',
    curves: [1, -1].map((y) => ({
      label: y === 1 ? 'tolerance, high' : 'tolerance, low',
      points: [
        [0, y],
        [rows.length + 1, y],
      ],
    })),
    published: [
      {
        label: 'ours',
        points: rows.map(({ row, value }, i) => {
          const { low, high } = toleranceBand(row);
          return { x: i + 1, y: (value - (low + high) / 2) / ((high - low) / 2) };
        }),
      },
    ],
  };
}
