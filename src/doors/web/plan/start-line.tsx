import type { ReactNode } from 'react';
import { finishOf } from '../../../exchange/schedule.ts';
import { useReader } from '../device/reader.tsx';
import { Notice } from '../look/notice.tsx';
import { Changed } from './changed.tsx';
import { toFiveMinutes } from './wall-clock.ts';
import type { Planning } from './use-planning.ts';

/** When to light the burner and when it will be done: the answer to the sentence above. */
export function StartLine({ planning }: { readonly planning: Planning }): ReactNode {
  const { say, write } = useReader();
  const { schedule, forecast, failed } = planning;
  if (failed !== null) return <Notice kind="caution">{say('plan:failed', { why: failed })}</Notice>;
  if (forecast === null) return <p className="start-line-wait">{say('plan:computing')}</p>;
  if (schedule === null) return <Notice kind="caution">{say('plan:start.unseen')}</Notice>;
  const start = write.clock(schedule.zeroAt);
  const finish = finishOf({ schedule, forecast });
  const end = write.clock(finish.aboutAt);
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
        <Changed text={end}>{say('plan:start.done', { at: end, early: write.clock(finish.earlyAt) })}</Changed>
      </p>
      <p className="plan-note">
        {say(finish.lateAt === null ? 'plan:start.keptOpen' : 'plan:start.kept', {
          count: finish.keptIn20,
          by: write.clock(finish.keptAt),
          late: finish.lateAt === null ? '' : write.clock(finish.lateAt),
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
