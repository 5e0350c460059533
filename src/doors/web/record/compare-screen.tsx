import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import { historyOf } from '../../../exchange/history.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import { useReader } from '../device/reader.tsx';
import { useLog } from '../log/log-provider.tsx';
import { SelectField } from '../look/select-field.tsx';
import { useBatch } from '../vat/use-batch.ts';
import { useFetched } from './use-fetched.ts';
import { MOST_OTHERS, othersOf, type OpenBatch } from './compare-batches.ts';
import { courseOf, plannedCourse, type Course } from './compare-course.ts';
import { CompareFigure } from './compare-figure.tsx';
import { CompareDifferences } from './compare-differences.tsx';
import { alignmentsOf, batchLabels, compareView } from './compare-view.ts';
import type { Alignment } from './compare-moment.ts';
import { ExplainSection } from './explain-section.tsx';
import { useReplays, type Asked } from './replays.ts';
import './record.css';
import './compare.css';
import '../print/print.css';

/** How did this one differ, where did it leave the road, what most likely made the difference? */
export function CompareScreen({ batchId }: { readonly batchId: string }): ReactNode {
  const { say } = useReader();
  const batch = useBatch(batchId);
  const isFetching = useFetched(batchId, batch.state === 'missing');
  if (batch.state === 'opening' || isFetching) return <p>{say('vat:opening')}</p>;
  if (batch.state === 'open') return <OpenCompare mine={batch} />;
  return (
    <>
      <h1>{say(batch.state === 'missing' ? 'vat:missing.title' : 'vat:unreadable.title')}</h1>
      <p>{say(batch.state === 'missing' ? 'vat:missing.remedy' : 'vat:unreadable.remedy')}</p>
    </>
  );
}

function OpenCompare({ mine }: { readonly mine: OpenBatch }): ReactNode {
  const { say, write, book } = useReader();
  const { held } = useLog();
  const candidates = useMemo(() => othersOf({ mine, streams: held.streams, book }), [mine, held.streams, book]);
  // Until somebody chooses, the newest ones; others may still be coming from the store.
  const [chosen, setChosen] = useState<ReadonlySet<string> | null>(null);
  const [wished, setWished] = useState<Alignment | null>(null);
  const others = useMemo(
    () => (chosen === null ? candidates.slice(0, MOST_OTHERS) : candidates.filter(({ streamId }) => chosen.has(streamId))), // prettier-ignore
    [candidates, chosen],
  );
  const asked = useMemo<Asked[]>(() => [...[mine, ...others].map(allKnown), { key: OPENING, history: NO_HISTORY }], [mine, others]); // prettier-ignore
  const replays = useReplays(mine.plan, mine.seed, asked);
  const alignments = alignmentsOf([mine, ...others]);
  const alignment = wished !== null && alignments.includes(wished) ? wished : (alignments[0] ?? 'clock');
  const labels = batchLabels([mine, ...others].map(({ record }) => record), { write }); // prettier-ignore
  const forecastOf = (batch: OpenBatch) => replays.get(allKnown(batch).key) ?? null;
  const [course, ...beside] = [mine, ...others].map((batch, index) =>
    courseOf({ ...batch, forecast: forecastOf(batch), alignment, label: labels[index] ?? '' }),
  );
  const opening = replays.get(OPENING) ?? null;
  const plan = others.length > 0 || opening === null ? null : plannedCourse({ plan: mine.plan, forecast: opening, zeroAt: mine.record.zeroAt, alignment, label: say('compare:thePlan') }); // prettier-ignore
  const against = [...beside, plan].filter((one): one is Course => one !== null && one !== undefined);
  const isWorking = [mine, ...others].some((batch) => forecastOf(batch) === null) || (others.length === 0 && opening === null); // prettier-ignore
  const view =
    course === null || course === undefined
      ? null
      : compareView({ mine: course, others: against, plan: mine.plan, alignment, words: { say, write } });
  const { record, plan: ownPlan, streamId } = mine;
  return (
    <article className="record compare">
      <header className="record-head">
        <div>
          <h1>{say('compare:title')}</h1>
          <p>
            {say('compare:head', {
              make: ownPlan.make.name,
              name: record.name,
              lot: record.lotCode,
              day: write.date(record.zeroAt),
            })}{' '}
            {/* prettier-ignore */}
          </p>
          {record.demo ? <p className="record-demo">{say('record:demo')}</p> : null}
        </div>
        <Link className="record-link no-print" href={`/record/${streamId}`}>
          {say('record:back')}
        </Link>
      </header>
      <div role="status">
        {view === null || (view.sentence === null && !isWorking) ? <p>{say('compare:tooLittle')}</p> : null}
        {view?.sentence === undefined || view.sentence === null ? null : (
          <p className="compare-sentence">{view.sentence}</p>
        )}
        {view?.help === undefined || view.help === null ? null : <p>{view.help}</p>}
        {isWorking ? <p>{say('compare:working')}</p> : null}
      </div>
      <div className="compare-choices no-print">
        {candidates.length === 0 ? (
          <p>{say('compare:onlyPlan')}</p>
        ) : (
          <fieldset className="compare-with">
            <legend>{say('compare:with')}</legend>
            {candidates.map(({ streamId: id, record: other }) => (
              <label key={id} className="compare-choice">
                <input
                  type="checkbox"
                  checked={others.some((one) => one.streamId === id)}
                  onChange={(event) => setChosen(toggled(others, id, event.target.checked))}
                />
                {write.date(other.zeroAt)} <span className="pair">{other.lotCode}</span>
              </label>
            ))}
            {others.length === 0 ? <p>{say('compare:withPlan')}</p> : null}
          </fieldset>
        )}
        <SelectField
          label={say('compare:align')}
          value={alignment}
          options={alignments.map((value) => ({ value, label: say(`compare:alignment.${value}`) }))}
          onChange={setWished}
        />
      </div>
      {view === null || view.lines.length === 0 ? null : <CompareFigure view={view} alignment={alignment} />}
      {view === null || view.rows.length === 0 ? null : (
        <CompareDifferences rows={view.rows} mine={course?.label ?? ''} />
      )}
      {record.steps.length === 0 ? null : (
        <>
          <p>{say('compare:causesHow')}</p>
          <ExplainSection record={record} plan={ownPlan} streamId={streamId} />
        </>
      )}
      <Notes batches={[mine, ...others]} labels={labels} />
    </article>
  );
}

const OPENING = 'opening';

/** A batch with everything that is known of it. */
function allKnown({ record, plan }: OpenBatch): Asked {
  const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), record.zeroAt);
  return { key: `all ${record.batchId} ${lastAt} ${record.entries.length}`, plan, history: historyOf({ record, nowAt: lastAt }) }; // prettier-ignore
}

function toggled(others: readonly OpenBatch[], id: string, isIn: boolean): ReadonlySet<string> {
  const kept = others.map(({ streamId }) => streamId).filter((one) => one !== id);
  return new Set(isIn ? [...kept, id] : kept);
}

/** What was written down beside the numbers: often the answer stands there. */
function Notes({ batches, labels }: { readonly batches: readonly OpenBatch[]; readonly labels: readonly string[] }): ReactNode {
  const { say } = useReader();
  const notes = batches.flatMap(({ record }, index) =>
    [...record.noted.map(({ eventId, text }) => ({ eventId, text })), ...record.tasted.map(({ eventId, words }) => ({ eventId, text: words }))] // prettier-ignore
      .map((note) => ({ ...note, label: labels[index] ?? '' })),
  );
  if (notes.length === 0) return null;
  return (
    <section aria-labelledby="compare-notes">
      <h2 id="compare-notes">{say('compare:notes')}</h2>
      {notes.map(({ eventId, text, label }) => (
        <p key={eventId} className="record-note">
          <strong>{label}</strong> {text}
        </p>
      ))}
    </section>
  );
} // prettier-ignore
