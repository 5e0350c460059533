import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Notice } from '../look/notice.tsx';
import { Changed } from './changed.tsx';
import { nineInTenClock } from './spans.ts';
import type { Planning } from './use-planning.ts';

/** When to light the burner and when it will be done: the answer to the sentence above. */
export function StartLine({
  planning,
  endsFrom,
}: {
  readonly planning: Planning;
  /** Earliest likely end, minutes since zero. */
  readonly endsFrom: number | null;
}): ReactNode {
  const { say, write } = useReader();
  const { schedule, forecast, failed } = planning;
  if (failed !== null) return <Notice kind="caution">{say('plan:failed', { why: failed })}</Notice>;
  if (forecast === null) return <p className="start-line-wait">{say('plan:computing')}</p>;
  if (schedule === null) return <Notice kind="caution">{say('plan:start.unseen')}</Notice>;
  const start = write.clock(schedule.zeroAt);
  const end = write.clock(schedule.endAt);
  const span =
    endsFrom === null
      ? ''
      : nineInTenClock({ earlyAt: schedule.zeroAt + endsFrom * 60_000, lateAt: schedule.endLateAt, say, write });
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
      {schedule.tooLate === null ? null : (
        <Notice kind="caution">
          {say('plan:start.tooLate', { end: write.clock(schedule.tooLate.earliestEndAt) })}
        </Notice>
      )}
      {planning.isCurrent ? null : <p className="start-line-wait">{say('plan:refreshing')}</p>}
    </div>
  );
}
