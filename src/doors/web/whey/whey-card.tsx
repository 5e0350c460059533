import { useMemo, type ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { useMakes } from '../makes/use-makes.ts';
import { typedText, withFact, type Draft } from '../plan/draft.ts';
import type { PlanCalm } from '../plan/plan-rest.tsx';
import { localDay, localTime, toFiveMinutes } from '../plan/wall-clock.ts';
import { WheyPortions } from './whey-portions.tsx';
import { wheyViews, type WheyView } from './whey-view.ts';

/** The whey that this plan leaves, and the second make that it is enough for. */
export function WheyCard({
  calm,
  draft,
  onChange,
}: {
  readonly calm: PlanCalm;
  readonly draft: Draft;
  readonly onChange: (draft: Draft) => void;
}): ReactNode {
  const { say, write } = useReader();
  const { listed } = useMakes();
  const { plan, forecast, zeroAt } = calm;
  const views = useMemo(
    () =>
      plan === null || forecast === null || zeroAt === null ? [] : wheyViews({ plan, forecast, zeroAt, say, write }),
    [plan, forecast, zeroAt, say, write],
  );
  const ofWhey = listed.filter(({ facts }) => facts.milk.fill === 'whey');
  if (views.length === 0) return null;
  const take = (makeId: string, { litres, at }: NonNullable<WheyView['second']>): void => {
    const startAt = toFiveMinutes(at, Math.ceil);
    const text = typedText({ path: 'milk.volumeL', value: litres, units: write.units });
    const filled = withFact(draft, 'milk.volumeL', text);
    onChange({ ...filled, makeId, clock: { mode: 'start-at', time: localTime(startAt), day: localDay(startAt) } });
  };
  return (
    <Card aria-labelledby="whey">
      <h2 id="whey">{say('whey:cardTitle')}</h2>
      <WheyPortions views={views} makes={ofWhey.map(({ facts }) => facts)} onTake={take} />
    </Card>
  );
}
