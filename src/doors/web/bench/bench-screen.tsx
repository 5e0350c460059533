import { useId, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { listedSums } from './bench-list.ts';
import '../look/field.css';
import './bench.css';

/** One number now: how much, how hot, how long. */
export function BenchScreen(): ReactNode {
  const { say } = useReader();
  const [looked, setLooked] = useState('');
  const list = listedSums({ say, looked });
  const id = useId();
  return (
    <div className="bench">
      <h1>{say('bench:title')}</h1>
      <p className="bench-lead">{say('bench:lead')}</p>
      <Card rim className="bench-search">
        <label htmlFor={id} className="field-label">
          {say('bench:search')}
        </label>
        <span className="field-box">
          <input
            id={id}
            type="search"
            className="field-input"
            autoComplete="off"
            aria-describedby={`${id}-hint`}
            value={looked}
            onChange={(event) => setLooked(event.target.value)}
          />
        </span>
        <span id={`${id}-hint`} className="field-hint" role="status">
          {looked.trim() === ''
            ? say('bench:searchHint')
            : list.count === 0
              ? say('bench:foundNone')
              : say('bench:found', { count: list.count })}
        </span>
      </Card>
      <Link href="/bench/lots" className="bench-sum-link bench-lots">
        <strong>{say('bench:lots')}</strong>
        <span>{say('bench:lotsAnswers')}</span>
      </Link>
      <div className="bench-groups">
        {list.groups.map(({ group, sums }) => (
          <section key={group} className="bench-group" aria-labelledby={`group-${group}`}>
            <h2 id={`group-${group}`}>{say(`bench:groups.${group}`)}</h2>
            <ul>
              {sums.map((sum) => (
                <li key={sum.name}>
                  <Link href={`/bench/${sum.name}`} className="bench-sum-link">
                    <strong>{sum.title}</strong>
                    <span>{sum.answers}</span>
                  </Link>
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
    </div>
  );
}
