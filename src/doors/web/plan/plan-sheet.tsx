import { useDeferredValue, useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { AimCard } from '../aim/aim-card.tsx';
import { AcidCard } from './acid-card.tsx';
import { AssumedCard } from './assumed-card.tsx';
import { factRows, usualAssumptions } from './assumed-view.ts';
import { ClockCard } from './clock-card.tsx';
import type { KeptLot } from '../lots/kept-lots.ts';
import type { Draft } from './draft.ts';
import { chosenOf, type LotFacts } from './lot-facts.ts';
import { takenOf } from './lot-says.ts';
import type { PlanBefore } from './held-plan.ts';
import type { Narrowing } from './narrowing.ts';
import { OutcomeCard } from './outcome-card.tsx';
import { outcomeView } from './outcome-view.ts';
import { Knowing, Preparing } from './plan-rest.tsx';
import type { Planning } from './use-planning.ts';
import { WheyCard } from '../whey/whey-card.tsx';

/** The plan below its sentence: clock, what you will get, amounts, what to know, what to buy, what was assumed. */
export function PlanSheet({
  planning,
  before,
  narrowest,
  draft,
  lots,
  lotFacts,
  now,
  onChange,
}: {
  readonly planning: Planning;
  /** The plan before what is being tried; null where nothing is. */
  readonly before: PlanBefore | null;
  /** The answer that would narrow the finish most. */
  readonly narrowest: Narrowing | null;
  readonly draft: Draft;
  readonly lots: readonly KeptLot[];
  /** What the chosen packets and bottles say. */
  readonly lotFacts: LotFacts;
  readonly now: number;
  readonly onChange: (draft: Draft) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { plan, schedule } = planning;
  const { assumed = [] } = plan ?? {};
  const usual = useMemo(() => (plan === null ? [] : usualAssumptions({ plan })), [plan]);
  // Another make's forecast does not belong to this one's steps.
  const forecast = useMemo(
    () =>
      planning.forecast?.steps.some((step) => step.stepId === plan?.steps[0]?.id) === true ? planning.forecast : null,
    [planning.forecast, plan],
  );
  const zeroAt = schedule?.zeroAt ?? null;
  const calm = useDeferredValue(useMemo(() => ({ plan, forecast, zeroAt, before }), [plan, forecast, zeroAt, before]));
  return (
    <div className="plan-sheet">
      <div className="plan-column plan-column-clock">
        {plan === null || forecast === null || zeroAt === null ? null : (
          <ClockCard plan={plan} forecast={forecast} zeroAt={zeroAt} now={now} before={before} />
        )}
        {plan === null || forecast === null || zeroAt === null ? null : (
          <AcidCard plan={plan} forecast={forecast} zeroAt={zeroAt} before={before} />
        )}
        <Preparing calm={calm} now={now} />
        <WheyCard calm={calm} draft={draft} onChange={onChange} />
      </div>
      <div className="plan-column">
        {plan === null || forecast === null ? null : (
          <OutcomeCard
            view={outcomeView({ forecast, make: plan.make, say, write })}
            forecast={forecast}
            before={
              before === null ? null : outcomeView({ forecast: before.forecast, make: before.plan.make, say, write })
            }
          />
        )}
        {plan === null || forecast === null || planning.planned.answers === null || schedule === null ? null : (
          <AimCard
            plan={plan}
            answers={planning.planned.answers}
            forecast={forecast}
            zeroAt={schedule.zeroAt}
            endAt={schedule.endAt}
            draft={draft}
            isIdle={planning.isCurrent && !planning.isRefining}
            onChange={onChange}
          />
        )}
        <Knowing calm={calm} />
        <AssumedCard
          rows={factRows({ assumed, usual, draft, lotFacts, units: write.units, narrowest: narrowest?.path ?? null })}
          taken={takenOf({
            lots: chosenOf({ chosen: draft.lots, lots }),
            rennet: plan?.setup.rennet ?? null,
            now,
            say,
            write,
          })}
          narrowest={narrowest}
          draft={draft}
          problems={planning.planned.problems}
          onChange={onChange}
        />
      </div>
    </div>
  );
}
