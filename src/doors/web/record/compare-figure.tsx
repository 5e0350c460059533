import type { ReactNode } from 'react';
import { NumbersTable } from '../chart/numbers-table.tsx';
import { useWidth } from '../chart/use-width.ts';
import { useReader } from '../device/reader.tsx';
import type { Alignment } from './compare-moment.ts';
import { ComparePlot } from './compare-plot.tsx';
import { timeWords, type CompareView } from './compare-view.ts';

/** The plot with its words, and exactly what is plotted as numbers. */
export function CompareFigure({
  view,
  alignment,
}: {
  readonly view: CompareView;
  readonly alignment: Alignment;
}): ReactNode {
  const { say, write } = useReader();
  const { ref, widthPx } = useWidth<HTMLDivElement>(640);
  const what = say(`compare:plot.${view.plotted}`);
  const mine = view.lines.find(({ isMine }) => isMine)?.label ?? '';
  const summary = say('compare:plot.summary', {
    what,
    lines: view.lines.map(({ label }) => label).join(', '),
    mine,
  });
  return (
    <figure className="batch-plot" ref={ref}>
      <figcaption>
        <strong>{what}</strong> {say('compare:plot.thick', { mine })}{' '}
        {view.lines.some(({ isWorkedOut }) => isWorkedOut) ? say('compare:plot.worked') : null}
      </figcaption>
      <ComparePlot
        lines={view.lines}
        widthPx={Math.max(280, widthPx)}
        heightPx={380}
        summary={summary}
        axis={say(`compare:axis.${alignment}`)}
        valueText={(value) => write.number(value, view.plotted === 'pH' ? 1 : 0)}
        timeText={(minutes) => timeWords({ minutes, alignment, words: { say, write } })}
        valueStep={view.plotted === 'pH' ? 0.2 : 5}
      />
      <NumbersTable
        summary={say('compare:numbers')}
        caption={summary}
        columns={[say('compare:column.batch'), say(`compare:axis.${alignment}`), say(`compare:column.${view.plotted}`), say('compare:column.basis')]} // prettier-ignore
        rows={view.numbers}
      />
    </figure>
  );
}
