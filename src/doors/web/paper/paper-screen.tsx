import { useMemo, type ReactNode } from 'react';
import { Link } from 'wouter';
import { useReader } from '../device/reader.tsx';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';
import { FromClass } from './from-class.tsx';
import { FromPlan } from './from-plan.tsx';
import { FromRecord } from './from-record.tsx';
import { sheetNamed } from './offered.ts';
import './paper.css';

/** The one place for paper: of the plan on the table, of the class, of any record. */
export function PaperScreen({ of, sheet }: { readonly of?: string; readonly sheet?: string }): ReactNode {
  const named = sheetNamed(sheet);
  if (of === undefined) return <WhatFor />;
  if (of === 'plan') return <FromPlan sheet={named ?? 'ready'} />;
  if (of === 'class') return <FromClass sheet={named ?? 'run'} />;
  return <FromRecord batchId={of} sheet={named ?? 'home'} />;
}

function WhatFor(): ReactNode {
  const { say, write } = useReader();
  const { held } = useLog();
  const records = useMemo(
    () =>
      [...held.streams]
        .filter(([id]) => id.startsWith('batch:'))
        .map(([, events]) => foldOnce(events))
        .filter(({ isOpened }) => isOpened)
        .sort((a, b) => b.zeroAt - a.zeroAt),
    [held.streams],
  );
  return (
    <div className="paper-place">
      <header className="paper-place-head">
        <h1>{say('paper:title')}</h1>
        <p>{say('paper:lead')}</p>
      </header>
      <nav className="paper-choice" aria-label={say('paper:of.choose')}>
        <ul>
          <li>
            <Link href="/paper/plan">
              <strong>{say('paper:of.plan')}</strong>
              <span>{say('paper:of.planAbout')}</span>
            </Link>
          </li>
          <li>
            <Link href="/paper/class">
              <strong>{say('paper:of.class')}</strong>
              <span>{say('paper:of.classAbout')}</span>
            </Link>
          </li>
        </ul>
      </nav>
      <section aria-labelledby="paper-records">
        <h2 id="paper-records">{say('paper:openRecords')}</h2>
        {records.length === 0 ? <p>{say('paper:none.records')}</p> : null}
        <ul className="paper-records">
          {records.map((record) => (
            <li key={record.batchId}>
              <Link href={`/paper/${record.batchId}`}>
                <strong>{record.name}</strong> <span>{record.lotCode}</span> <span>{write.date(record.zeroAt)}</span>{' '}
                <span>{say(record.finishedAt === null ? 'paper:running' : 'paper:finished')}</span>
              </Link>
            </li>
          ))}
        </ul>
      </section>
    </div>
  );
}
