import { Fragment, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { runLines, type DayTold, type RunLine } from '../../../exchange/day-words.ts';

/** What to do when, by the clock: the run of the day, on screen and on paper. */
export function DayRun({ told }: { readonly told: DayTold }): ReactNode {
  const { say } = useReader();
  const lines = runLines(told);
  const evening = lines.filter(({ time }) => time === null);
  const day = lines.filter(({ time }) => time !== null);
  const isHot = told.plan.preparations.some(({ by }) => by === 'kettle' || by === 'burner');
  return (
    <section className="day-run" aria-labelledby="day-run-title">
      <div className="day-run-head">
        <h2 id="day-run-title">{say('day:run.title')}</h2>
        <Button className="no-print" onClick={() => window.print()}>
          {say('day:act.print')}
        </Button>
      </div>
      {isHot ? <p className="day-caution">{say('day:run.caution')}</p> : null}
      <table>
        <thead>
          <tr>
            <th scope="col">{say('day:run.time')}</th>
            <th scope="col">{say('day:run.pots')}</th>
            <th scope="col">{say('day:run.what')}</th>
            <th scope="col" className="print-only-cell">
              {say('day:run.tick')}
            </th>
          </tr>
        </thead>
        <tbody>
          {evening.length === 0 ? null : (
            <tr>
              <th scope="rowgroup" colSpan={4} className="day-run-evening">
                {say('day:run.evening')}
              </th>
            </tr>
          )}
          {[evening, day].map((part, index) => (
            <Fragment key={index === 0 ? 'evening' : 'day'}>
              {part.map((line, nth) => (
                <Fragment key={line.key}>
                  {line.day === null ? null : (
                    <tr>
                      <th scope="rowgroup" colSpan={4} className="day-run-evening">
                        {line.day}
                      </th>
                    </tr>
                  )}
                  <Row line={line} isSameTime={part[nth - 1]?.time === line.time && line.time !== null} />
                </Fragment>
              ))}
            </Fragment>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function Row({ line, isSameTime }: { readonly line: RunLine; readonly isSameTime: boolean }): ReactNode {
  return (
    <tr data-work={line.isWork} data-same={isSameTime}>
      <td className="numerals">{isSameTime ? <span className="out-of-sight">{line.time}</span> : line.time}</td>
      <td>{line.pots}</td>
      <td>
        {line.what}
        {line.more === '' ? null : <span className="day-run-more"> {line.more}</span>}
      </td>
      <td className="print-only-cell">
        <span className="day-tick" aria-hidden="true">
          □
        </span>
      </td>
    </tr>
  );
}
