import type { ReactNode } from 'react';
import type { LoggerOutcome, LoggerReading } from '../../../exchange/logger/logger-file.ts';
import type { Plan } from '../../../make/plan.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { fateLines, faultText, isSlowed, rowRanges, spanOf } from './file-view.ts';
import { LoggerPlot } from './logger-plot.tsx';

/** Faults told at once; the others are counted. */
const FAULTS_SHOWN = 8;

/** What a file comes to: drawn, counted row by row, its faults named, and the one press that notes it. */
export function FileOutcome({
  outcome,
  record,
  plan,
  onAdd,
}: {
  readonly outcome: LoggerOutcome;
  readonly record: BatchRecord;
  readonly plan: Plan;
  readonly onAdd: (readings: readonly LoggerReading[]) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { readings, faults, all, fates } = outcome;
  const span = spanOf(readings);
  const thinned = rowRanges(fates, 'thinned');
  const outside = rowRanges(fates, 'outside');
  const more = faults.length - FAULTS_SHOWN;
  const number = write.number(readings.length, 0);
  return (
    <div className="instruments-outcome">
      {(['temperatureC', 'pH'] as const).map((quantity) =>
        all.some((one) => one.quantity === quantity) ? (
          <LoggerPlot key={quantity} quantity={quantity} outcome={outcome} record={record} plan={plan} />
        ) : null,
      )}
      {span === null ? (
        <p role="alert" className="instruments-problem">
          {say(fates.includes('known') ? 'instruments:file.allKnown' : 'instruments:file.noneInHours')}
        </p>
      ) : (
        <p role="status">
          {say('instruments:file.span', {
            day: write.day(span.fromAt),
            from: write.clock(span.fromAt),
            to: write.clock(span.toAt),
          })}{' '}
          {/* prettier-ignore */}
        </p>
      )}
      <ul className="instruments-fates">
        {fateLines(outcome, { say, write }).map((text) => (
          <li key={text}>{text}</li>
        ))}
        {isSlowed(outcome) ? <li>{say('instruments:file.slowed')}</li> : null}
      </ul>
      {thinned === '' && outside === '' ? null : (
        <details className="numbers">
          <summary>{say('instruments:file.leftOut')}</summary>
          {thinned === '' ? null : <p>{say('instruments:file.leftThinned', { rows: thinned })}</p>}
          {outside === '' ? null : <p>{say('instruments:file.leftOutside', { rows: outside })}</p>}
        </details>
      )}
      {faults.length === 0 ? null : (
        <ul className="instruments-faults">
          {faults.slice(0, FAULTS_SHOWN).map((fault) => (
            <li key={`${fault.row} ${fault.column} ${fault.code}`}>{faultText(fault, say)}</li>
          ))}
        </ul>
      )}
      {more <= 0 ? null : (
        <details className="numbers">
          <summary>{say('instruments:file.moreFaults', { count: more })}</summary>
          <ul>
            {faults.slice(FAULTS_SHOWN).map((fault) => (
              <li key={`${fault.row} ${fault.column} ${fault.code}`}>{faultText(fault, say)}</li>
            ))}
          </ul>
        </details>
      )}
      <div>
        <Button kind="main" disabled={readings.length === 0} onClick={() => onAdd(readings)}>
          {say('instruments:file.add', { count: readings.length, number })}
        </Button>
      </div>
    </div>
  );
}
