import { memo, type ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { useReader } from '../device/reader.tsx';
import { AmountsCard } from './amounts-card.tsx';
import { amountRows } from './amounts-view.ts';
import { CautionsCard } from './cautions-card.tsx';
import type { PlanBefore } from './held-plan.ts';
import { KnowCard } from './know-card.tsx';
import { knowView } from './know-view.ts';
import { PrepareCard, ShoppingCard } from './prepare-card.tsx';
import { preparationRows } from './preparations-view.ts';
import { shoppingView } from './shopping-view.ts';

/** What these cards stand on; it follows the bands a moment later, so that they never wait for the rest of the page. */
export interface PlanCalm {
  readonly plan: Plan | null;
  readonly forecast: Forecast | null;
  readonly zeroAt: number | null;
  /** The plan before what is being tried; null where nothing is. */
  readonly before: PlanBefore | null;
}

/** What to start meanwhile, and what to buy. */
export const Preparing = memo(function Preparing({
  calm,
  now,
}: {
  readonly calm: PlanCalm;
  readonly now: number;
}): ReactNode {
  const { say, write } = useReader();
  const { plan, forecast, zeroAt } = calm;
  if (plan === null) return null;
  return (
    <>
      {forecast === null || zeroAt === null ? null : (
        <PrepareCard rows={preparationRows({ plan, forecast, zeroAt, now, say, write })} />
      )}
      <ShoppingCard view={shoppingView({ plan, forecast, say, write })} />
    </>
  );
});

/** Amounts, what to know of them, and cautions. */
export const Knowing = memo(function Knowing({ calm }: { readonly calm: PlanCalm }): ReactNode {
  const { say, write } = useReader();
  const { plan, forecast, zeroAt, before } = calm;
  if (plan === null) return null;
  const rowsOf = (of: { readonly plan: Plan; readonly forecast: Forecast | null }): ReturnType<typeof amountRows> =>
    amountRows({ ...of, say, write });
  return (
    <>
      <AmountsCard rows={rowsOf({ plan, forecast })} before={before === null ? [] : rowsOf(before)} />
      {forecast === null ? null : <KnowCard view={knowView({ plan, forecast, zeroAt, say, write })} />}
      <CautionsCard remarks={plan.remarks ?? []} findings={forecast?.findings ?? []} />
    </>
  );
});
