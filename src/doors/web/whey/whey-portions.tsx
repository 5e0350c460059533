import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import type { WheyView } from './whey-view.ts';
import './whey.css';

/** Each whey with its uses, best first, and beneath them what it is not good for. */
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
            {view.fitting.map(({ id, text, source }) => (
              <li key={id}>
                {text} <span className="whey-source">({source})</span>
              </li>
            ))}
          </ol>
          {view.second === null ? null : second?.(view)}
          {view.others.length === 0 ? null : (
            <details>
              <summary>{say('whey:notFor')}</summary>
              <ul className="whey-uses">
                {view.others.map(({ id, text, source }) => (
                  <li key={id}>
                    {text} <span className="whey-source">({source})</span>
                  </li>
                ))}
              </ul>
            </details>
          )}
        </li>
      ))}
    </ul>
  );
}
