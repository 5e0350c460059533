import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { Button } from '../look/button.tsx';
import { useReader } from '../device/reader.tsx';
import { layoutTimeline } from '../timeline/timeline-layout.ts';
import { stepsOnClock } from '../timeline/steps-on-clock.ts';
import { Timeline } from '../timeline/timeline.tsx';
import type { Telling } from '../vat/said.ts';
import { sheetSteps } from './sheet-view.ts';
import './print.css';
import './sheet.css';

/** The make on paper: the time line in the left margin, steps numbered as on screen, blanks for real times and readings. */
export function MakeSheet({
  plan,
  forecast,
  telling,
  utcOffsetMin,
  name,
  lotCode,
  backHref,
}: {
  readonly plan: Plan;
  readonly forecast: Forecast | null;
  readonly telling: Telling;
  readonly utcOffsetMin: number;
  readonly name: string;
  readonly lotCode: string;
  readonly backHref: string;
}): ReactNode {
  const { say, write } = useReader();
  if (forecast === null) return <p role="status">{say('vat:forecasting')}</p>;
  const steps = stepsOnClock({ plan, forecast, zeroAt: telling.zeroAt });
  const layout = layoutTimeline({ steps, nowAt: null, utcOffsetMin, pxPerMin: 1.5, labelGapPx: 21, mostLanes: 2 });
  return (
    <article className="sheet">
      <div className="sheet-acts no-print">
        <Button kind="main" onClick={() => window.print()}>
          {say('record:printSheet')}
        </Button>
        <Link className="record-link" href={backHref}>
          {say('record:back')}
        </Link>
      </div>
      <header className="sheet-head">
        <h1>{plan.make.name}</h1>
        <p>
          {say('record:head', {
            pot: name,
            lot: lotCode,
            day: write.day(telling.zeroAt),
            amount: write.litres(plan.setup.milk.volumeL).text,
          })}
        </p>
      </header>
      <div className="sheet-line">
        <Timeline
          layout={layout}
          clockText={write.clock}
          summary={say('vat:whole.summary', { count: steps.length, step: '', end: '' })}
        />
      </div>
      <ol className="sheet-steps">
        {sheetSteps({ plan, forecast, telling }).map((step) => (
          <li key={step.id} className="sheet-step">
            <span className="sheet-number numerals">{step.number}</span>
            <div className="sheet-words">
              <p>
                <strong>{step.name}</strong> {step.how}
              </p>
              {step.until === null ? null : <p>{step.until}</p>}
              {step.boxes.length === 0 ? null : (
                <p className="sheet-boxes">
                  {step.boxes.map((box) => (
                    <span key={box.label} className="sheet-box">
                      {box.label} <strong className="numerals">{box.text}</strong>
                    </span>
                  ))}
                </p>
              )}
            </div>
            <dl className="sheet-blanks">
              <div>
                <dt>{say('record:sheet.expected', { at: step.expected })}</dt>
                <dd className="sheet-blank" />
              </div>
              {step.readings.map((reading) => (
                <div key={reading}>
                  <dt>{reading}</dt>
                  <dd className="sheet-blank" />
                </div>
              ))}
            </dl>
          </li>
        ))}
      </ol>
      <p className="sheet-foot">{say('record:sheet.foot')}</p>
    </article>
  );
}
