import { useMemo, useState, type ReactNode } from 'react';
import { openFiguresOf, type Settings } from '../../../forecast/what-if.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import { BatchPlot } from '../chart/batch-plot.tsx';
import { useReader } from '../device/reader.tsx';
import { useWhatIf } from '../forecasting/use-what-if.ts';
import type { WhatIfBase } from '../forecasting/what-if-messages.ts';
import { Was } from '../look/was.tsx';
import { stepsOnClock } from '../timeline/steps-on-clock.ts';
import { layoutTimeline } from '../timeline/timeline-layout.ts';
import { Timeline } from '../timeline/timeline.tsx';
import { useNameGap } from '../timeline/use-name-gap.ts';
import type { Entry } from './actions.ts';
import type { Batch } from './batch.ts';
import { clockOf, type Telling } from './said.ts';
import type { Foresight } from './use-batch.ts';
import { utcOffsetMin } from './utc-offset.ts';
import { VatButton } from './vat-button.tsx';
import { figureRows, meansOf, settingRows, whatIfEntries, type SettingRow } from './what-if-view.ts';
import './what-if.css';

/** As many as the running forecast has, so that what stands here is what the card says. */
const MEMBERS = 1000;
/** The nearest in the work; the rest are one tap away. Our own choice. */
const FIRST_ROWS = 4;
const NOTHING_EXPECTED: ReadonlyMap<string, Forecast> = new Map();

/** What if something were set otherwise from now on: old and new bands together, to be done or left. */
export function WhatIfScreen({
  batch,
  foresight,
  forecast,
  settings,
  onSettings,
  nowAt,
  telling,
  onDo,
  onBack,
}: {
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly foresight: Foresight;
  /** How the make stands. */
  readonly forecast: Forecast;
  readonly settings: Settings;
  readonly onSettings: (settings: Settings) => void;
  readonly nowAt: number;
  readonly telling: Telling;
  readonly onDo: (entries: readonly Entry[], said: string) => void;
  readonly onBack: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const { plan, answers, seed, record } = batch;
  const { history, beliefs } = foresight;
  const [isAll, setAll] = useState(false);
  const labelGapPx = useNameGap(26);
  const base = useMemo<WhatIfBase>(() => ({ plan, answers, history, seed, members: MEMBERS, ...(beliefs === null ? {} : { beliefs }) }), [plan, answers, history, seed, beliefs]); // prettier-ignore
  const state = useWhatIf(base, settings);
  const figures = useMemo(() => openFiguresOf({ plan, history, forecast }), [plan, history, forecast]);
  const answer = state.answer ?? { was: forecast, next: forecast, plan };
  const isChanged = Object.keys(settings).length > 0;
  const nowMin = (nowAt - telling.zeroAt) / 60_000;
  const rows = settingRows({ figures, settings, plan, telling });
  const told = isChanged && state.answer !== null ? meansOf({ answer, plan, telling, nowMin }) : say('vat:whatIf.lead');
  const steps = stepsOnClock({ plan: answer.plan, forecast: answer.next, zeroAt: telling.zeroAt });
  const was = isChanged ? stepsOnClock({ plan, forecast: answer.was, zeroAt: telling.zeroAt }) : undefined;
  const layout = layoutTimeline({ steps, was, nowAt, utcOffsetMin: utcOffsetMin(nowAt), pxPerMin: 1.7, labelGapPx, mostLanes: 2 }); // prettier-ignore
  const last = answer.next.steps.at(-1);
  const summary = say('vat:whole.summary', { count: steps.length, step: '', end: last === undefined ? '' : clockOf(telling, last.endMin.p50) }); // prettier-ignore
  const plotted = { record, plan, forecast: answer.next, range: answer.next, expected: NOTHING_EXPECTED, nowAt, utcOffsetMin: utcOffsetMin(nowAt), telling, dots: null, was: isChanged ? { forecast: answer.was, shiftMin: 0 } : null }; // prettier-ignore
  const act = (): void => {
    const { entries, title } = whatIfEntries({ answer, settings, figures, plan, telling, nowMin });
    onDo(entries, say('vat:saved.choice', { what: title }));
  };
  return (
    <section className="whatif" aria-labelledby="whatif-title">
      <h1 id="whatif-title">{say('vat:whatIf.title')}</h1>
      <p className="whatif-means" role="status">
        {state.failed === null ? told : say('vat:whatIf.failed', { why: state.failed })}
      </p>
      <div className="whatif-body">
        <div className="whatif-column">
          <div className="whatif-settings">
            {rows.slice(0, isAll ? rows.length : FIRST_ROWS).map((row) => (
              <Setting key={row.id} row={row} onSettings={onSettings} />
            ))}
            {isAll || rows.length <= FIRST_ROWS ? null : (
              <VatButton className="whatif-more" onAct={() => setAll(true)}>
                {say('vat:whatIf.more', { count: rows.length - FIRST_ROWS })}
              </VatButton>
            )}
          </div>
          <dl className="whatif-figures" data-stale={state.isCurrent ? undefined : ''}>
            {figureRows({ answer, plan, telling }).map((row) => (
              <div key={row.id} className="whatif-figure">
                <dt>{row.name}</dt>
                <dd>
                  <strong className="numerals">{row.value}</strong> <span className="whatif-span">{row.span}</span>
                  <Was now={row.value} before={isChanged ? row.was : null} />
                </dd>
              </div>
            ))}
          </dl>
        </div>
        <div className="whatif-plots">
          <BatchPlot quantity="pH" {...plotted} />
          <Timeline layout={layout} clockText={write.clock} summary={summary} withTimes />
          <BatchPlot quantity="temperatureC" {...plotted} />
        </div>
      </div>
      <div className="whatif-acts">
        <VatButton className="vat-second" keyHint="Escape" onAct={onBack}>
          {say(isChanged ? 'vat:whatIf.leave' : 'vat:action.back')}
        </VatButton>
        <VatButton
          className="vat-main"
          keyHint="Enter"
          disabled={!isChanged || !state.isCurrent || state.failed !== null}
          onAct={act}
        >
          {say('vat:whatIf.do')}
        </VatButton>
      </div>
    </section>
  );
}

/** One figure with a tap down and a tap up. */
function Setting({
  row,
  onSettings,
}: {
  readonly row: SettingRow;
  readonly onSettings: (settings: Settings) => void;
}): ReactNode {
  const { say } = useReader();
  const { name, value, was, less, more } = row;
  return (
    <div className="whatif-setting" role="group" aria-label={name} data-set={was === null ? undefined : ''}>
      <p>
        {name} <strong className="pair">{value}</strong> <Was now={value} before={was} />
      </p>
      <VatButton
        className="whatif-tap"
        aria-label={say('vat:whatIf.less', { name })}
        disabled={less === null}
        onAct={() => less !== null && onSettings(less)}
      >
        −
      </VatButton>
      <VatButton
        className="whatif-tap"
        aria-label={say('vat:whatIf.moreOf', { name })}
        disabled={more === null}
        onAct={() => more !== null && onSettings(more)}
      >
        +
      </VatButton>
    </div>
  );
}
