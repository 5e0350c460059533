import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { Notice } from '../look/notice.tsx';
import type { KnowView } from './know-view.ts';

/** The working facts of this pot: burner off, whey depth, water, ice, brine. */
export function KnowCard({ view }: { readonly view: KnowView }): ReactNode {
  const { say } = useReader();
  const lines: readonly (readonly [string, readonly string[]])[] = [
    ['burnerTitle', view.burner],
    ['looksTitle', view.looks],
    ['wheyTitle', view.whey === null ? [] : [view.whey]],
    ['washingTitle', view.washing === null ? [] : [view.washing]],
    ['stretchTitle', view.stretchWater === null ? [] : [view.stretchWater]],
    ['coolingTitle', view.cooling === null ? [] : [view.cooling]],
    ['briningTitle', view.brining === null ? [] : [view.brining]],
  ];
  return (
    <Card aria-labelledby="know">
      <h2 id="know">{say('plan:know.title')}</h2>
      <dl className="plan-rows">
        {lines
          .filter(([, told]) => told.length > 0)
          .map(([title, told]) => (
            <div key={title} className="plan-row">
              <dt>{say(`plan:know.${title}`)}</dt>
              <dd>
                {told.map((line) => (
                  <span key={line}>{line}</span>
                ))}
              </dd>
            </div>
          ))}
      </dl>
      <HotWater view={view} />
    </Card>
  );
}

/** Hot water wants a plan of its own, before it is hot. */
function HotWater({ view }: { readonly view: KnowView }): ReactNode {
  const { say } = useReader();
  if (view.hotWater.water === null) return null;
  return (
    <Notice kind="caution" title={say('plan:hot.title')}>
      <p>
        {view.hotWater.water} {view.hotWater.pot}
      </p>
      <p>{say('plan:hot.who')}</p>
      <p>
        {say('plan:hot.liftLabel')} <strong>{say('plan:hot.lift')}</strong>
      </p>
    </Notice>
  );
}
