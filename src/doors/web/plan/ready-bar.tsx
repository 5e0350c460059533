import { useState, type ReactNode } from 'react';
import { useLocation } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { useMay } from '../log/may.tsx';
import { useLog } from '../log/log-provider.tsx';
import { foldOnce } from '../log/fold-once.ts';
import { Button } from '../look/button.tsx';
import { ONE_POT, type Draft } from './draft.ts';
import { lotCodeFor } from './lot-code.ts';
import { openBatch, openTogether } from './open-batch.ts';
import { openingsTogether, potNames } from './pots-together.ts';
import { keepDraft } from './use-draft.ts';
import { localDay, wallInstant } from './wall-clock.ts';
import type { Planning } from './use-planning.ts';

/** The main action, always in reach: the plan becomes a batch. Beside it, the plan kept for another day. */
export function ReadyBar({
  planning,
  draft,
  onRefused,
}: {
  readonly planning: Planning;
  readonly draft: Draft;
  /** Something in the answers stands in the way: say so on top. */
  readonly onRefused: () => void;
}): ReactNode {
  const { say, write } = useReader();
  const { log, held } = useLog();
  const [, go] = useLocation();
  const [told, setTold] = useState<string | null>(null);
  const whyNot = useMay().whyNot('batchOpened');
  const { planned, forecast, schedule } = planning;
  const why = (error: unknown): string => (error instanceof Error ? error.message : String(error));

  const getReady = async (): Promise<void> => {
    if (planned.plan === null || planned.answers === null) return onRefused();
    if (forecast === null || schedule === null || !planning.isCurrent) return setTold(say('plan:ready.wait'));
    const records = [...held.streams].flatMap(([id, events]) => (id.startsWith('batch:') ? [foldOnce(events)] : []));
    const taken = records.map(({ lotCode }) => lotCode);
    try {
      const running = records.filter(({ finishedAt }) => finishedAt === null).map(({ name }) => name);
      const names = potNames({ count: draft.pots.count, taken: running, say });
      if (draft.pots.count > 1) {
        await openTogether(
          log,
          openingsTogether({
            opening: { plan: planned.plan, answers: planned.answers, forecast, zeroAt: schedule.zeroAt },
            pots: draft.pots,
            names,
            id: log.newStreamId('day').replace(/^day:/, ''),
            taken,
          }),
        );
        // The next plan is for one pot again.
        keepDraft({ ...draft, pots: ONE_POT });
        return go('/pots');
      }
      const batchId = await openBatch(log, {
        plan: planned.plan,
        answers: planned.answers,
        forecast,
        zeroAt: schedule.zeroAt,
        // A pot is called by its name aloud; what is made in it stands in its record.
        name: names[0] ?? planned.plan.make.name,
        lotCode: lotCodeFor({ day: localDay(schedule.zeroAt), taken }),
      });
      go(`/vat/${batchId}`);
    } catch (error) {
      setTold(say('plan:ready.failed', { why: why(error) }));
    }
  };

  const keep = async (): Promise<void> => {
    if (planned.plan === null || planned.answers === null) return onRefused();
    if (schedule === null) return setTold(say('plan:ready.wait'));
    const doneBy = draft.clock.mode === 'done-by' ? wallInstant(draft.clock) : null;
    try {
      await log.record({
        kind: 'dayPlanned',
        streamId: log.newStreamId('day'),
        body: {
          makeId: planned.plan.make.id,
          answers: planned.answers,
          startAt: schedule.zeroAt,
          ...(doneBy === null ? {} : { doneBy }),
          ...(draft.pots.count === 1 ? {} : { pots: draft.pots }),
        },
      });
      setTold(say('plan:ready.kept'));
    } catch (error) {
      setTold(say('plan:ready.failed', { why: why(error) }));
    }
  };

  return (
    <div className="ready-bar">
      <p className="ready-bar-words" role="status" data-told={told ?? whyNot ?? undefined}>
        {told ??
          whyNot ??
          (schedule === null ? say('plan:ready.hint') : say('plan:ready.from', { at: write.clock(schedule.zeroAt) }))}
      </p>
      {whyNot === null ? (
        <>
          <Button onClick={() => void keep()}>{say('plan:ready.keep')}</Button>
          <Button kind="main" onClick={() => void getReady()}>
            {say(draft.pots.count === 1 ? 'plan:ready.action' : 'plan:ready.actionPots', { count: draft.pots.count })}
          </Button>
        </>
      ) : null}
    </div>
  );
}
