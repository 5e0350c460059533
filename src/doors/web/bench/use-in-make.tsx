import type { ReactNode } from 'react';
import { useLocation } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { bringLotToPlan, bringToPlan } from '../plan/brought.ts';
import { factText } from '../plan/fact-text.ts';
import type { CarriedFact } from './plan-uses.ts';

/** One tap carries what a sum knows into the plan; what it carries is said beside it. */
export function UseInMake({ facts }: { readonly facts: readonly CarriedFact[] }): ReactNode {
  const { say, write } = useReader();
  const [, go] = useLocation();
  if (facts.length === 0) return null;
  const units = write.units;
  const words = facts
    .filter(({ path }) => !path.startsWith('rennet.testedSpan'))
    .map(({ path, text }) =>
      say('bench:use.fact', { fact: say(`plan:facts.${path}`), value: factText({ path, text, units, say }) }),
    ) // prettier-ignore
    .join(', ');
  return (
    <div className="use-in-make">
      <Button kind="second" onClick={() => go('/plan', { state: bringToPlan({ facts, words, units }) })}>
        {say('bench:use.action')}
      </Button>
      <p className="sum-note">{say('bench:use.takes', { facts: words })}</p>
    </div>
  );
}

/** A bottle of the list, carried into the plan as itself: the plan then asks it for its strength. */
export function UseLot({ lot }: { readonly lot: Parameters<typeof bringLotToPlan>[0]['lot'] }): ReactNode {
  const { say, write } = useReader();
  const [, go] = useLocation();
  return (
    <div className="use-in-make">
      <Button kind="second" onClick={() => go('/plan', { state: bringLotToPlan({ lot, units: write.units }) })}>
        {say('bench:use.action')}
      </Button>
      <p className="sum-note">{say('bench:use.takesLot', { name: lot.name })}</p>
    </div>
  );
}
