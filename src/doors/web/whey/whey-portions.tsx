import type { ReactNode } from 'react';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import type { WheyView } from './whey-view.ts';
import './whey.css';

/** So many uses are told at once; the rest, and every source, by one tap. Our own choice. */
const SHOWN = 2;

/** Each whey with its best uses; the others, what it is not good for and the sources beneath. */
export function WheyPortions({
  views,
  makes = [],
  onTake,
}: {
  readonly views: readonly WheyView[];
  /** Makes that are offered beside a whey that is good for them. */
  readonly makes?: readonly { readonly id: string; readonly name: string }[];
  readonly onTake?: (makeId: string, second: NonNullable<WheyView['second']>) => void;
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
          {view.second === null || makes.length === 0 ? null : (
            <Second second={view.second} makes={makes} onTake={onTake} />
          )}
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

function Second({
  second,
  makes,
  onTake,
}: {
  readonly second: NonNullable<WheyView['second']>;
  readonly makes: readonly { readonly id: string; readonly name: string }[];
  readonly onTake: ((makeId: string, second: NonNullable<WheyView['second']>) => void) | undefined;
}): ReactNode {
  const { say } = useReader();
  return (
    <p className="whey-second">
      {makes.map(({ id, name }) => (
        <Button key={id} onClick={() => onTake?.(id, second)}>
          {say('whey:second', { name })}
        </Button>
      ))}
    </p>
  );
}
