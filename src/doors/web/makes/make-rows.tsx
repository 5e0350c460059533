import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import type { HoursBar, MakeRow } from './makes-view.ts';

/** The makes in a column, each with its day drawn against the hours that are free; of one that does not fit, why is enough. */
export function MakeRows({
  rows,
  scaleH,
  onChoose,
}: {
  readonly rows: readonly MakeRow[];
  readonly scaleH: number;
  readonly onChoose: (makeId: string) => void;
}): ReactNode {
  return (
    <ol className="makes-rows">
      {rows.map((row) => (
        <Row key={row.id} row={row} scaleH={scaleH} onChoose={onChoose} />
      ))}
    </ol>
  );
}

function Row({
  row,
  scaleH,
  onChoose,
}: {
  readonly row: MakeRow;
  readonly scaleH: number;
  readonly onChoose: (makeId: string) => void;
}): ReactNode {
  const { say } = useReader();
  return (
    <li className="makes-row" data-fits={row.fits}>
      <div className="makes-row-head">
        <h3 className="makes-name">
          <Link href={`/makes/${row.id}`}>{row.name}</Link>
        </h3>
        {row.tag === null ? null : <span className="makes-tag">{row.tag}</span>}
        {row.foundAs === null ? null : (
          <span className="makes-found">{say('makes:foundAs', { name: row.foundAs })}</span>
        )}
      </div>
      {row.fits ? <p className="makes-about">{row.about}</p> : null}
      <p className="makes-asks">{row.asks}</p>
      {row.bar === null ? null : <Bar bar={row.bar} scaleH={scaleH} />}
      {row.why === '' ? null : <p className="makes-why">{row.why}</p>}
      {row.stops.length === 0 ? null : (
        <ul className="makes-stops" aria-label={say('makes:stopsLabel')}>
          {row.stops.map((stop) => (
            <li key={stop}>{stop}</li>
          ))}
        </ul>
      )}
      {row.notes.length === 0 ? null : (
        <ul className="makes-notes">
          {row.notes.map(({ text, source }) => (
            <li key={text}>
              {text} {source === null ? null : <span className="makes-source">{say('plan:source', { source })}</span>}
            </li>
          ))}
        </ul>
      )}
      <div className="makes-act">
        <Button kind={row.fits ? 'second' : 'plain'} onClick={() => onChoose(row.id)}>
          {say('makes:plan', { name: row.name })}
        </Button>
      </div>
    </li>
  );
}

const percent = (share: number): string => `${(100 * share).toFixed(1)}%`;

/** Hours on one scale for all rows: the free ones as a trough, the likely day as ink, its late end as a whisker. */
function Bar({ bar, scaleH }: { readonly bar: HoursBar; readonly scaleH: number }): ReactNode {
  return (
    <div className="makes-bar" aria-hidden="true" style={{ backgroundSize: `${(100 / scaleH).toFixed(4)}% 100%` }}>
      <span className="makes-bar-free" style={{ width: percent(bar.free) }} />
      <span className="makes-bar-day" style={{ width: percent(bar.likely) }} />
      <span
        className="makes-bar-kept"
        style={{ insetInlineStart: percent(bar.likely), width: percent(Math.max(0, bar.kept - bar.likely)) }}
      />
    </div>
  );
}
