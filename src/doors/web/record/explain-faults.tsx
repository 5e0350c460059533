import type { ReactNode } from 'react';
import { faultsOf, type Fault, type FaultsSaid } from '../../../forecast/explain-faults.ts';
import type { Plan } from '../../../make/plan.ts';
import { useReader } from '../device/reader.tsx';

/** What was wrong with it, as taps; what was written elsewhere is ticked already. */
export function ExplainFaults({
  plan,
  said,
  onTick,
}: {
  readonly plan: Plan;
  readonly said: FaultsSaid | null;
  readonly onTick: (fault: Fault, isThere: boolean) => void;
}): ReactNode {
  const { say } = useReader();
  const there = new Set((said ?? []).filter(({ isThere }) => isThere).map(({ fault }) => fault));
  return (
    <fieldset className="explain-faults">
      <legend>{say('explain:faults.title')}</legend>
      <p className="explain-small no-print">{say('explain:faults.hint')}</p>
      <div className="explain-tiles">
        {faultsOf(plan).map((fault) => (
          <button
            key={fault}
            type="button"
            className="explain-tile"
            aria-pressed={there.has(fault)}
            onClick={() => onTick(fault, !there.has(fault))}
          >
            {say(`explain:fault.${fault}`)}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
