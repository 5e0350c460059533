import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { WheyView } from './whey-view.ts';
import './whey.css';

/** So many uses are told at once; the rest, and every source, by one tap. Our own choice. */
const SHOWN = 2;

/** Each whey with its best uses; the others, what it is not good for and the sources beneath. */
export function WheyPortions({
  views,
  second,
}: {
  readonly views: readonly WheyView[];
  /** What is offered beside a whey that makes another cheese. */
  readonly second?: (view: WheyView) => ReactNode;
}): ReactNode {
  const { say } = useReader();
  return (
    <ul className="whey-portions">
      {views.map((view) => (
        <li key={view.stepId}>
          <h3>{view.title}</h3>
          <p className="whey-when">{view.when}</p>
          <ol className="whey-uses">
            {view.fitting.slice(0, SHOWN).map(({ id, text }) => (
              <li key={id}>{text}</li>
            ))}
          </ol>
          {view.second === null ? null : second?.(view)}
          <details>
            <summary>{say('whey:notFor')}</summary>
            <ul className="whey-uses">
              {[...view.fitting, ...view.others].map(({ id, text, source }) => (
                <li key={id}>
                  {text} <span className="whey-source">({source})</span>
                </li>
              ))}
            </ul>
          </details>
        </li>
      ))}
    </ul>
  );
}
