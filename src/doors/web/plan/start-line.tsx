import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Notice } from '../look/notice.tsx';
import { Changed } from './changed.tsx';
import { toFiveMinutes } from './wall-clock.ts';
import { nineInTenClock } from './spans.ts';
import type { Planning } from './use-planning.ts';

/** When to light the burner and when it will be done: the answer to the sentence above. */
export function StartLine({ planning }: { readonly planning: Planning }): ReactNode {
  const { say, write } = useReader();
  const { schedule, forecast, failed } = planning;
  if (failed !== null) return <Notice kind="caution">{say('plan:failed', { why: failed })}</Notice>;
  if (forecast === null) return <p className="start-line-wait">{say('plan:computing')}</p>;
  if (schedule === null) return <Notice kind="caution">{say('plan:start.unseen')}</Notice>;
  const start = write.clock(schedule.zeroAt);
  const end = write.clock(toFiveMinutes(schedule.endAt, Math.round));
  const last = forecast.steps.find((step) => step.stepId === schedule.lastStepId)?.endMin;
  const at = (minutes: number): number => schedule.zeroAt + minutes * 60_000;
  const span =
    last === undefined
      ? ''
      : Number.isFinite(last.p95)
        ? nineInTenClock({
            earlyAt: toFiveMinutes(at(last.p5), Math.floor),
            lateAt: toFiveMinutes(at(last.p95), Math.ceil),
            say,
            write,
          })
        : say('plan:span.notBefore', { low: write.clock(toFiveMinutes(at(last.p5), Math.floor)) });
  return (
    <div className="start-line" aria-live="polite">
      <p className="start-line-when">
        {say('plan:start.lightAt')}{' '}
        <Changed text={start}>
          <strong className="numerals start-line-time">{start}</strong>
        </Changed>{' '}
        <span className="start-line-day">{write.day(schedule.zeroAt)}</span>
      </p>
      <p>
        <Changed text={end}>{say('plan:start.done', { at: end, span })}</Changed>
      </p>
      <p className="plan-note">
        {say('plan:start.kept', {
          count: schedule.keptIn20,
          late: write.clock(toFiveMinutes(schedule.endLateAt, Math.ceil)),
        })}
      </p>
      {schedule.tooLate === null ? null : (
        <Notice kind="caution">
          {say('plan:start.tooLate', { end: write.clock(toFiveMinutes(schedule.tooLate.earliestEndAt, Math.ceil)) })}
        </Notice>
      )}
      {planning.isCurrent ? null : <p className="start-line-wait">{say('plan:refreshing')}</p>}
    </div>
  );
}
