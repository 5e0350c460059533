import type { ReactNode } from 'react';
import type { Plan } from '../../../make/plan.ts';
import type { Told } from '../../../exchange/paper/step-words.ts';
import type { Seen } from '../../../exchange/write-up/seen.ts';
import { doseRows, seenRows } from './write-up-view.ts';

/** What was meant and what was seen, a row a step, and the doses as they went in. */
export function SeenTable({
  plan,
  seen,
  told,
}: {
  readonly plan: Plan;
  readonly seen: Seen;
  readonly told: Told;
}): ReactNode {
  const { say } = told;
  return (
    <section aria-labelledby="write-up-seen">
      <h2 id="write-up-seen">{say('writeup:seen')}</h2>
      <p>{say('writeup:bothUnits')}</p>
      <div className="numbers-scroll">
        <table className="numbers-table write-up-table">
          <thead>
            <tr>
              {['step', 'meant', 'came', 'words'].map((column) => (
                <th key={column} scope="col">
                  {say(`writeup:${column}`)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {seenRows({ plan, seen, told }).map((row) => (
              <tr key={row.stepId}>
                <th scope="row">{row.name}</th>
                <td data-label={say('writeup:meant')}>{row.meant}</td>
                <td data-label={say('writeup:came')}>{row.came === '' ? say('writeup:noneSeen') : row.came}</td>
                <td data-label={say('writeup:words')}>{row.words}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <h3>{say('writeup:doses')}</h3>
      <dl className="write-up-doses">
        {doseRows({ seen, told }).map(({ name, text }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
