import { useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { AimCard } from '../aim/aim-card.tsx';
import { AmountsCard } from './amounts-card.tsx';
import { amountRows } from './amounts-view.ts';
import { AssumedCard } from './assumed-card.tsx';
import { factRows, usualAssumptions } from './assumed-view.ts';
import { CautionsCard } from './cautions-card.tsx';
import { ClockCard } from './clock-card.tsx';
import type { KeptLot } from '../lots/kept-lots.ts';
import type { Draft } from './draft.ts';
import { chosenOf, type LotFacts } from './lot-facts.ts';
import { takenOf } from './lot-says.ts';
import type { Narrowing } from './narrowing.ts';
import { KnowCard } from './know-card.tsx';
import { knowView } from './know-view.ts';
import { OutcomeCard } from './outcome-card.tsx';
import { outcomeView } from './outcome-view.ts';
import { PrepareCard, ShoppingCard } from './prepare-card.tsx';
import { preparationRows } from './preparations-view.ts';
import { shoppingView } from './shopping-view.ts';
import type { Planning } from './use-planning.ts';

/** The plan below its sentence: clock, what you will get, amounts, what to know, what to buy, what was assumed. */
export function PlanSheet({
  planning,
  narrowest,
  draft,
  lots,
  lotFacts,
  now,
  onChange,
}: {
  readonly planning: Planning;
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
  return (
    <div className="plan-sheet">
      <div className="plan-column plan-column-clock">
        {plan === null || forecast === null || zeroAt === null ? null : (
          <ClockCard plan={plan} forecast={forecast} zeroAt={zeroAt} now={now} />
        )}
        {plan === null || forecast === null || zeroAt === null ? null : (
          <PrepareCard rows={preparationRows({ plan, forecast, zeroAt, now, say, write })} />
        )}
        {plan === null ? null : <ShoppingCard view={shoppingView({ plan, forecast, say, write })} />}
      </div>
      <div className="plan-column">
        {plan === null || forecast === null ? null : (
          <OutcomeCard view={outcomeView({ forecast, make: plan.make, say, write })} forecast={forecast} />
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
        {plan === null ? null : <AmountsCard rows={amountRows({ plan, forecast, say, write })} />}
        {plan === null || forecast === null ? null : (
          <KnowCard view={knowView({ plan, forecast, zeroAt, say, write })} />
        )}
        {plan === null ? null : <CautionsCard remarks={plan.remarks ?? []} findings={forecast?.findings ?? []} />}
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
