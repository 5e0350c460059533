import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import type { CallLine, PotsView } from './pots-view.ts';

/** Who needs hands now, and the next three, in the order of time. */
export function QueueCard({ view, isWorking }: { readonly view: PotsView; readonly isWorking: boolean }): ReactNode {
  const { say } = useReader();
  return (
    <Card rim className="pots-queue" aria-labelledby="pots-queue-title">
      <h2 id="pots-queue-title">{say('pots:queue.title')}</h2>
      {view.now.length === 0 ? null : (
        <ol className="pots-now">
          {view.now.map((line) => (
            <CallItem key={`${line.call.potId} ${line.call.stepId}`} line={line} />
          ))}
        </ol>
      )}
      {view.nobody === null ? null : <p className="pots-nobody">{view.nobody}</p>}
      {isWorking ? <p className="pots-small">{say('pots:queue.working')}</p> : null}
      <ol className="pots-next">
        {view.next.map((line) => (
          <CallItem key={`${line.call.potId} ${line.call.stepId}`} line={line} />
        ))}
      </ol>
    </Card>
  );
}

function CallItem({ line }: { readonly line: CallLine }): ReactNode {
  return (
    <li>
      <span className="pots-call">{line.text}</span>
      {line.call.isNow ? null : <span className="pots-in pair">{line.inText}</span>}
      {line.others === null ? null : <span className="pots-others">{line.others}</span>}
    </li>
  );
}
