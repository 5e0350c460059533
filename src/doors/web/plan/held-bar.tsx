import type { ReactNode } from 'react';
import type { Plan } from '../../../make/plan.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import type { Draft } from './draft.ts';
import { changedText } from './held-plan.ts';
import type { Held } from './use-held.ts';

/** What is being tried, beside the plan that stood; always in reach until it is kept or left. */
export function HeldBar({
  held,
  draft,
  plan,
}: {
  readonly held: Held;
  readonly draft: Draft;
  readonly plan: Plan;
}): ReactNode {
  const { say, write } = useReader();
  if (held.draft === null) return null;
  const what = changedText({ was: held.draft, now: draft, plan, units: write.units, say });
  return (
    <div className="held-bar" role="group" aria-label={say('plan:held.label')}>
      <p className="held-bar-words">
        <span className="held-bar-what">{what}</span> <span className="held-bar-key">{say('plan:held.key')}</span>
      </p>
      <Button onClick={held.goBack}>{say('plan:held.back')}</Button>
      <Button kind="second" onClick={held.keep}>
        {say('plan:held.keep')}
      </Button>
    </div>
  );
}
