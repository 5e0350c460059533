import type { ReactNode } from 'react';
import type { Told } from '../../../exchange/paper/step-words.ts';
import type { Stated } from '../../../exchange/write-up/publishable.ts';
import type { RestsOnMine } from '../../../exchange/write-up/rests-on-mine.ts';
import { restText } from './write-up-view.ts';

const ORDER: Readonly<Record<RestsOnMine['standing'], number>> = { ask: 0, offered: 1, turned: 2 };

/** What rests on one kitchen: what somebody has to look at first, what is turned already last. */
export function RestsList({ found, told }: { readonly found: readonly RestsOnMine[]; readonly told: Told }): ReactNode {
  const { say } = told;
  const ordered = [...found].sort((a, b) => ORDER[a.standing] - ORDER[b.standing]);
  return (
    <section aria-labelledby="write-up-rests">
      <h2 id="write-up-rests">{say('writeup:rests.title')}</h2>
      {ordered.length === 0 ? <p>{say('writeup:rests.none')}</p> : null}
      <ul className="write-up-rests">
        {ordered.map((one) => (
          <li key={`${one.code} ${one.stepId ?? ''}`} data-standing={one.standing}>
            <strong>{say(`writeup:rests.${one.standing}`)}</strong>
            <span>{restText(one, told)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What a make must state, and what is still missing. */
export function StatesList({ states, told }: { readonly states: readonly Stated[]; readonly told: Told }): ReactNode {
  const { say } = told;
  const nameOf = ({ id }: Stated): string => {
    const [, dose] = /^dose\.(.+)$/.exec(id) ?? [];
    return dose === undefined
      ? say(`writeup:states.${id}`)
      : say('writeup:states.dose', { name: say(`paper:dose.${dose}`) });
  };
  return (
    <section aria-labelledby="write-up-states">
      <h2 id="write-up-states">{say('writeup:states.title')}</h2>
      <dl className="write-up-states">
        {states.map((one) => (
          <div key={one.id} data-missing={one.text === null}>
            <dt>{nameOf(one)}</dt>
            <dd>{one.text ?? say('writeup:states.missing')}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
