import { useMemo, type ReactNode } from 'react';
import { Link } from 'wouter';
import { jobsOfAll } from '../../../exchange/ageing/care-feed.ts';
import { useReader } from '../device/reader.tsx';
import { localDayNumber, useKept } from './use-kept.ts';

/** What is due in the ageing room, in a line of Today; nothing where nothing is. */
export function DueToday(): ReactNode {
  const { say } = useReader();
  const { kept, today } = useKept();
  const jobs = useMemo(() => {
    const counts = new Map<string, number>();
    for (const { job } of jobsOfAll({ kept, dayAt: localDayNumber, today, until: today }))
      if (job !== 'look') counts.set(job, (counts.get(job) ?? 0) + 1);
    return [...counts]
      .map(([job, count]) => say('ageing:feed.count', { job: say(`ageing:job.${job}`), count }))
      .join(', ');
  }, [kept, today, say]);
  if (jobs === '') return null;
  return (
    <section aria-labelledby="due-today">
      <h2 id="due-today">{say('ageing:title')}</h2>
      <p className="today-all-pots">
        <Link href="/ageing" className="button button-second">
          {say('ageing:round.title')}
        </Link>{' '}
        {say('ageing:piece.today', { jobs })}
      </p>
    </section>
  );
}
