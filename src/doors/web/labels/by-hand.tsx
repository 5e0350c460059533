import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Parts } from './label-card.tsx';
import { spokenLot, type LabelView } from './label-view.ts';

/** The same label in big type, to be copied with a pen where there is no printer. */
export function ByHand({ view }: { readonly view: LabelView }): ReactNode {
  const { say } = useReader();
  const blank = <span className="by-hand-blank">{say('labels:blank')}</span>;
  return (
    <div className="by-hand">
      <p className="by-hand-name">{view.name}</p>
      <dl>
        <dt>{say('labels:lot')}</dt>
        <dd>
          <strong className="numerals">{view.lot}</strong>
          <span className="by-hand-aloud">{say('labels:aloud', { signs: spokenLot(view.lot) })}</span>
        </dd>
        <dt>{say('labels:madeOn')}</dt>
        <dd>{view.made}</dd>
        <dt>{view.until.name}</dt>
        <dd>{view.until.day ?? blank}</dd>
        <dt>{say('labels:storage')}</dt>
        <dd>{view.keep}</dd>
        <dt>{say('labels:madeOf')}</dt>
        <dd>
          <Parts parts={view.ingredients} />
          <br />
          <Parts parts={view.contains} /> {view.raw}
        </dd>
        <dt>{say('labels:net')}</dt>
        <dd>{view.netWeight ?? blank}</dd>
        <dt>{say('labels:maker')}</dt>
        <dd>{blank}</dd>
      </dl>
    </div>
  );
}
