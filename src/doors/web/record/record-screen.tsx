import { useMemo, type ReactNode } from 'react';
import { Link, useSearch } from 'wouter';
import { historyOf } from '../../../exchange/history.ts';
import { planOfRecord } from '../../../exchange/record-plan.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import type { Plan } from '../../../make/plan.ts';
import { BatchPlot } from '../chart/batch-plot.tsx';
import { expectedReading } from '../chart/expected-reading.ts';
import { Button } from '../look/button.tsx';
import { useReader } from '../device/reader.tsx';
import { gaugeHref } from '../print/gauge-view.ts';
import { MakeSheet } from '../print/make-sheet.tsx';
import { planKey, type Batch } from '../vat/batch.ts';
import { bandOf } from '../chart/band-of.ts';
import type { Telling } from '../vat/said.ts';
import { useBatch } from '../vat/use-batch.ts';
import { useFetched } from './use-fetched.ts';
import { utcOffsetMin } from '../vat/utc-offset.ts';
import { ExplainSection } from './explain-section.tsx';
import { recordLines } from './record-lines.ts';
import { RecordNotes } from './record-notes.tsx';
import { RecordTable } from './record-table.tsx';
import { aimLines, foresightRows, outcomeLines } from './record-view.ts';
import { useReplays, type Asked } from './replays.ts';
import './record.css';
import '../print/print.css';

const CAME_COLUMNS = ['time', 'readingOf', 'expectedBefore', 'came', 'result'] as const;

/** What happened, what was foreseen and what came of it; printable as it stands. */
export function RecordScreen({ batchId }: { readonly batchId: string }): ReactNode {
  const { say } = useReader();
  const batch = useBatch(batchId);
  const isFetching = useFetched(batchId, batch.state === 'missing');
  if (batch.state === 'opening' || isFetching) return <p>{say('vat:opening')}</p>;
  if (batch.state === 'open') return <OpenRecord batch={batch} />;
  return (
    <>
      <h1>{say(batch.state === 'missing' ? 'vat:missing.title' : 'vat:unreadable.title')}</h1>
      <p>{say(batch.state === 'missing' ? 'vat:missing.remedy' : 'vat:unreadable.remedy')}</p>
      {batch.state === 'unreadable' ? batch.because.map((reason) => <p key={reason}>{reason}</p>) : null}
    </>
  );
}

function OpenRecord({ batch }: { readonly batch: Extract<Batch, { state: 'open' }> }): ReactNode {
  const { say, write } = useReader();
  const sheet = new URLSearchParams(useSearch()).get('sheet');
  const { record, plan, seed, streamId } = batch;
  const telling = useMemo<Telling>(() => ({ say, write, zeroAt: record.zeroAt }), [say, write, record.zeroAt]);
  const asked = useMemo<Asked[]>(
    () => [{ key: 'opening', history: NO_HISTORY, ...planAt(record, record.zeroAt - 1) }, lastKnown(record), ...beforeReadings(record)], // prettier-ignore
    [record],
  );
  const replays = useReplays(plan, seed, asked);
  const opening = replays.get('opening') ?? null;
  const final = replays.get(asked[1]?.key ?? '') ?? null;
  const offsetMin = utcOffsetMin(record.zeroAt);
  if (sheet === 'make') return <MakeSheet plan={plan} forecast={opening} telling={telling} utcOffsetMin={offsetMin} name={record.name} lotCode={record.lotCode} backHref={`/record/${streamId}`} />; // prettier-ignore

  const expected = new Map(record.readings.flatMap((reading) => {
    const before = replays.get(keyBefore(reading));
    return before === undefined ? [] : [[reading.eventId, before] as const];
  })); // prettier-ignore
  const lines = recordLines({ record, plan, telling });
  const outcome = outcomeLines({ record, plan, forecast: final, telling });
  const aims = aimLines({ record, plan, forecast: final, telling });
  const came = foresightRows({
    record,
    telling,
    expectedOf: (reading) => expectedReading({ ...reading, elapsedMin: (reading.at - record.zeroAt) / 60_000, forecast: expected.get(reading.eventId) ?? null, setup: plan.setup }), // prettier-ignore
  });
  return (
    <article className="record">
      <header className="record-head">
        <div>
          <h1>{plan.make.name}</h1>
          <p>
            {say('record:head', {
              pot: record.name,
              lot: record.lotCode,
              day: write.day(record.zeroAt),
              amount: write.litres(plan.setup.milk.volumeL).text,
            })}
          </p>
          {record.demo ? <p className="record-demo">{say('record:demo')}</p> : null}
          {record.finishedAt === null ? <p>{say('record:running')}</p> : null}
        </div>
        <div className="record-acts no-print">
          <Button kind="main" onClick={() => window.print()}>
            {say('record:print')}
          </Button>
          <Link className="record-link" href={`/record/${streamId}?sheet=make`}>
            {say('record:makeSheet')}
          </Link>
          <Link className="record-link" href={`/record/${streamId}/instruments`}>
            {say('record:instruments')}
          </Link>
          {record.steps.length === 0 ? null : (
            <Link className="record-link" href={`/record/${streamId}/compare`}>
              {say('compare:open')}
            </Link>
          )}
          <Link className="record-link" href={`/record/${streamId}/labels`}>
            {say('labels:open')}
          </Link>
          <Link className="record-link" href={gaugeHref(plan)}>
            {say('labels:gauge.open')}
          </Link>
          <Link className="record-link" href={`/paper/${streamId}`}>
            {say('record:paper')}
          </Link>
          {record.steps.some(({ endedAt }) => endedAt !== null) ? (
            <Link className="record-link" href={`/record/${streamId}/write-up`}>
              {say('record:writeUp')}
            </Link>
          ) : null}
          {record.finishedAt === null ? (
            <Link className="record-link" href={`/vat/${streamId}`}>
              {say('record:toVat')}
            </Link>
          ) : null}
        </div>
      </header>
      <div className="record-columns">
        <section className="record-outcome" aria-labelledby="record-outcome">
          <h2 id="record-outcome">{say('record:outcome.title')}</h2>
          <dl>
            {outcome.map((line) => (
              <div key={line.name}>
                <dt>{line.name}</dt>
                <dd>
                  <strong className="numerals pair">{line.value}</strong>{' '}
                  <span className="record-basis">{line.basis}</span>
                </dd>
              </div>
            ))}
          </dl>
        </section>
        <section className="record-aims" aria-labelledby="record-aims">
          <h2 id="record-aims">{say('record:aims')}</h2>
          <div className="numbers-scroll">
            <table className="numbers-table">
              <thead>
                <tr>
                  <th scope="col">{say('record:aimOf')}</th>
                  <th scope="col">{say('record:wanted')}</th>
                  <th scope="col">{say('record:came')}</th>
                  <th scope="col">{say('record:result')}</th>
                </tr>
              </thead>
              <tbody>
                {aims.map((line) => (
                  <tr key={line.name}>
                    <th scope="row">{line.name}</th>
                    <td data-label={say('record:wanted')}>{line.wanted}</td>
                    <td data-label={say('record:came')}>{line.came}</td>
                    <td data-label={say('record:result')}>{line.verdict}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </section>
      </div>
      {opening === null ? (
        <p role="status">{say('vat:forecasting')}</p>
      ) : (
        <section className="record-plots" aria-labelledby="record-plots">
          <h2 id="record-plots">{say('record:foreseen')}</h2>
          <p>{say('record:foreseenHow')}</p>
          {(['pH', 'temperatureC'] as const).map((quantity) => (
            <BatchPlot
              key={quantity}
              quantity={quantity}
              record={record}
              plan={plan}
              forecast={opening}
              range={opening}
              expected={expected}
              nowAt={null}
              utcOffsetMin={offsetMin}
              telling={telling}
              dots={null}
            />
          ))}
          {came.length === 0 ? null : (
            <div className="numbers-scroll">
              <table className="numbers-table">
                <caption>{say('record:cameCaption')}</caption>
                <thead>
                  <tr>
                    {CAME_COLUMNS.map((column) => (
                      <th key={column} scope="col">
                        {say(`record:${column}`)}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {came.map((row) => (
                    <tr key={row.join('|')}>
                      {row.map((cell, index) => (
                        <td key={`${cell}-${index}`} data-label={say(`record:${CAME_COLUMNS[index] ?? 'result'}`)}>
                          {cell}
                        </td>
                      ))}
                    </tr>
                  ))}
                </tbody>
              </table>
            </div>
          )}
        </section>
      )}
      {record.steps.length === 0 ? null : <ExplainSection record={record} plan={plan} streamId={streamId} />}
      <RecordTable lines={lines} streamId={streamId} telling={telling} unknown={record.unknown.length} />
      <RecordNotes record={record} streamId={streamId} />
    </article>
  );
}

type Opened = Extract<Batch, { state: 'open' }>['record'];

const keyBefore = (reading: Opened['readings'][number]): string =>
  `before ${reading.eventId} ${reading.at} ${reading.value}`;

/** Everything that is known of the batch, for yield and composition. */
function lastKnown(record: Opened): Asked {
  const lastAt = record.entries.reduce((latest, entry) => Math.max(latest, entry.at), record.zeroAt);
  return { key: `all ${lastAt} ${record.entries.length}`, history: historyOf({ record, nowAt: lastAt }) };
}

function beforeReadings(record: Opened): Asked[] {
  return withoutCrowd(record.readings).flatMap((reading) =>
    bandOf(reading) === null
      ? []
      : [
          {
            key: keyBefore(reading),
            history: historyOf({ record, nowAt: reading.at - 1 }),
            ...planAt(record, reading.at - 1),
          },
        ],
  );
}

/** An instrument's values are held against the forecast this far apart: between them it has hardly moved. Our own choice. */
const INSTRUMENT_EVERY_MS = 1_200_000;

/** The readings worth a forecast each: all by hand, and of an instrument that tells many, one now and then. */
function withoutCrowd(readings: Opened['readings']): Opened['readings'] {
  const lastAt = new Map<string, number>();
  return readings.filter(({ instrumentId, quantity, at }) => {
    if (instrumentId === undefined || instrumentId.startsWith('thermometer')) return true;
    const key = `${instrumentId} ${quantity}`;
    const isFar = at - (lastAt.get(key) ?? -Infinity) >= INSTRUMENT_EVERY_MS;
    if (isFar) lastAt.set(key, at);
    return isFar;
  });
}

/** The plan as it stood at a moment; nothing where it has always been the same. */
const planAt = (record: Opened, untilAt: number): { readonly plan?: Plan } =>
  planKey(record) === '' ? {} : { plan: planOfRecord({ record, untilAt }) };
