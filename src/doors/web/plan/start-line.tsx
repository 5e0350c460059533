import type { ReactNode } from 'react';
import { finishOf } from '../../../exchange/schedule.ts';
import { useReader } from '../device/reader.tsx';
import { Notice } from '../look/notice.tsx';
import { Was } from '../look/was.tsx';
import type { Draft } from './draft.ts';
import type { PlanBefore } from './held-plan.ts';
import { lastPotLagMs } from './pots-together.ts';
import { toFiveMinutes } from './wall-clock.ts';
import type { Planning } from './use-planning.ts';

/** When to light the burner and when it will be done: the answer to the sentence above. */
export function StartLine({
  planning,
  before,
  pots,
}: {
  readonly planning: Planning;
  readonly pots: Draft['pots'];
  readonly before: PlanBefore | null;
}): ReactNode {
  const { say, write } = useReader();
  const { schedule, forecast, failed } = planning;
  if (failed !== null) return <Notice kind="caution">{say('plan:failed', { why: failed })}</Notice>;
  if (forecast === null) return <p className="start-line-wait">{say('plan:computing')}</p>;
  if (schedule === null) return <Notice kind="caution">{say('plan:start.unseen')}</Notice>;
  const start = write.clock(schedule.zeroAt);
  const finish = finishOf({ schedule, forecast });
  const end = write.clock(finish.aboutAt);
  const spanOf = ({ aboutAt, earlyAt }: { readonly aboutAt: number; readonly earlyAt: number }): string =>
    say('plan:start.span', { about: write.clock(aboutAt), early: write.clock(earlyAt) });
  const was = before?.schedule ?? null;
  const wasFinish = before === null || was === null ? null : finishOf({ schedule: was, forecast: before.forecast });
  return (
    <div className="start-line" aria-live="polite">
      <p className="start-line-when">
        {say('plan:start.lightAt')} <strong className="numerals start-line-time">{start}</strong>{' '}
        <span className="start-line-day">{write.day(schedule.zeroAt)}</span>{' '}
        <Was now={start} before={was === null ? null : write.clock(was.zeroAt)} />
      </p>
      <p>
        {say('plan:start.done', { at: end, early: write.clock(finish.earlyAt) })}{' '}
        <Was now={spanOf(finish)} before={wasFinish === null ? null : spanOf(wasFinish)} />
      </p>
      <p className="plan-note">
        {say(finish.lateAt === null ? 'plan:start.keptOpen' : 'plan:start.kept', {
          count: finish.keptIn20,
          by: write.clock(finish.keptAt),
          late: finish.lateAt === null ? '' : write.clock(finish.lateAt),
        })}{' '}
        <span className="start-line-stale" data-on={planning.isCurrent ? undefined : ''}>
          {say('plan:refreshing')}
        </span>
      </p>
      {pots.count === 1 || planning.plan === null ? null : (
        <p className="start-line-pots">
          {say('plan:start.pots', {
            count: pots.count,
            each: write.litres(planning.plan.setup.milk.volumeL).text,
            all: write.litres(planning.plan.setup.milk.volumeL * pots.count).text,
            last: write.clock(schedule.zeroAt + lastPotLagMs(pots)),
            end: write.clock(finish.aboutAt + lastPotLagMs(pots)),
          })}
        </p>
      )}
      {schedule.tooLate === null ? null : (
        <Notice kind="caution">
          {say('plan:start.tooLate', { end: write.clock(toFiveMinutes(schedule.tooLate.earliestEndAt, Math.ceil)) })}
        </Notice>
      )}
    </div>
  );
}
