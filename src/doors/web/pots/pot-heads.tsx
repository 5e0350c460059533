import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { VatButton } from '../vat/vat-button.tsx';
import type { Lane } from './pots-view.ts';

/** The head of each lane: name, state in words, the step it is at and the last one done; the way to its card, and to a note. */
export function PotHeads({
  lanes,
  onNote,
}: {
  readonly lanes: readonly Lane[];
  readonly onNote: ((potId: string) => void) | null;
}): ReactNode {
  const { say } = useReader();
  return (
    <ul className="pot-heads">
      {lanes.map((lane) => (
        <li key={lane.potId} className="pot-head" data-form={lane.state.form}>
          {onNote === null ? (
            <HeadWords lane={lane} />
          ) : (
            <Link href={`/vat/${lane.potId.replace(/^batch:/, '')}`} className="pot-head-link">
              <HeadWords lane={lane} />
            </Link>
          )}
          {onNote === null ? null : (
            <VatButton
              className="vat-small pot-head-note"
              aria-label={say('pots:pot.noteFor', { pot: lane.name })}
              onAct={() => onNote(lane.potId)}
            >
              {say('pots:pot.note')}
            </VatButton>
          )}
        </li>
      ))}
    </ul>
  );
}

function HeadWords({ lane }: { readonly lane: Lane }): ReactNode {
  const { say } = useReader();
  return (
    <>
      <strong className="pot-head-name">{lane.name}</strong>
      <span className="pot-head-state" data-form={lane.state.form}>
        {lane.state.text}
      </span>
      <span className="pot-head-verb">{lane.verb}</span>
      <span className="pot-head-last">{say('pots:pot.last', { what: lane.last })}</span>
      {lane.heard === null ? null : <span className="pot-head-heard">{lane.heard}</span>}
    </>
  );
}
