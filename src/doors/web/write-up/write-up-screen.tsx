import { useMemo, useState, type ReactNode } from 'react';
import { Link } from 'wouter';
import type { Make } from '../../../make/make.ts';
import { InputError, problemText } from '../../../numbers/validity.ts';
import { asMade } from '../../../exchange/write-up/as-made.ts';
import { publishable, sourceText, type WriterSays } from '../../../exchange/write-up/publishable.ts';
import { restsOnMine } from '../../../exchange/write-up/rests-on-mine.ts';
import { seenIn, type Making } from '../../../exchange/write-up/seen.ts';
import { planOfRecord } from '../../../exchange/record-plan.ts';
import { useReader } from '../device/reader.tsx';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';
import { useTold } from '../paper/use-told.ts';
import { streamOf } from '../vat/batch.ts';
import { SeenTable } from './seen-table.tsx';
import { RestsList, StatesList } from './rests-list.tsx';
import { idOf } from './write-up-view.ts';
import { KeepWritten } from './keep-written.tsx';
import { WriterForm, type Typed } from './writer-form.tsx';
import './write-up.css';

const HIGHEST_M = 9000; // nobody makes cheese higher; our own choice

/** A make out of one or more records, as it was made. */
export function WriteUpScreen({ batchId }: { readonly batchId: string }): ReactNode {
  const { say, write, book } = useReader();
  const { held } = useLog();
  const streamId = streamOf(batchId);
  const makings = useMemo(() => makingsLike(held.streams, streamId), [held.streams, streamId]);
  const [turned, setTurned] = useState<ReadonlySet<string>>(new Set());
  // What is still under way is taken only where it was asked for.
  const isIn = ({ batchId: id, finishedAt }: Making['record']): boolean => (finishedAt !== null || id === streamId) !== turned.has(id); // prettier-ignore
  const told = useTold({ isInBoth: true });
  const chosen = makings.filter(({ record }) => isIn(record));
  const last = chosen.at(-1);
  const [typed, setTyped] = useState<Typed>({ name: '', about: '', author: '', licence: '', altitude: '', forms: '', tests: '', neutral: true }); // prettier-ignore
  if (!held.isReady && makings.length === 0) return <p>{say('vat:opening')}</p>;
  if (makings.length === 0) {
    return (
      <>
        <h1>{say('writeup:title')}</h1>
        <p>{say('writeup:noRecords')}</p>
      </>
    );
  }
  return (
    <article className="write-up">
      <header>
        <h1>{say('writeup:title')}</h1>
        <p>{say('writeup:lead')}</p>
      </header>
      <fieldset className="write-up-records">
        <legend>{say('writeup:records')}</legend>
        <p>{say('writeup:recordsHow')}</p>
        {makings.map(({ record, plan }) => (
          <label key={record.batchId}>
            <input
              type="checkbox"
              checked={isIn(record)}
              onChange={() => {
                const next = new Set(turned);
                if (!next.delete(record.batchId)) next.add(record.batchId);
                setTurned(next);
              }}
            />
            <span>
              {say('writeup:made', { pot: record.name, day: write.date(record.zeroAt), milk: write.litres(plan.setup.milk.volumeL).text })}
            </span>
          </label>
        ))}
      </fieldset>
      {last === undefined ? null : (
        <Written makings={chosen} last={last} typed={typed} told={told} streamId={streamId}>
          <WriterForm typed={typed} usual={book.make(last.plan.make)} onChange={setTyped} />
        </Written>
      )}
    </article>
  );
} // prettier-ignore

function Written({
  makings,
  last,
  typed,
  told,
  streamId,
  children,
}: {
  readonly makings: readonly Making[];
  readonly last: Making;
  readonly typed: Typed;
  readonly told: ReturnType<typeof useTold>;
  readonly streamId: string;
  /** What the writer types. */
  readonly children: ReactNode;
}): ReactNode {
  const { say, write, book } = useReader();
  const seen = useMemo(() => seenIn(makings), [makings]);
  const says = useMemo(() => saysOf(typed), [typed]);
  const result = useMemo(() => madeOf({ last, seen, says, typed, told }), [last, seen, says, typed, told]);
  const { setup } = last.plan;
  const kit = say('writeup:states.kitAs', { pot: write.litres(setup.pot.volumeL).text, burner: say(`plan:options.pot.burner.${setup.pot.burner}`), kept: say(`plan:options.pot.keptWarm.${setup.pot.keptWarm}`) }); // prettier-ignore
  if ('problems' in result) {
    return (
      <section role="alert">
        {children}
        <p>{say('writeup:wrong')}</p>
        <ul>
          {result.problems.map((problem) => (
            <li key={problem}>{problem}</li>
          ))}
        </ul>
      </section>
    );
  }
  const { make } = result;
  return (
    <>
      <SeenTable plan={book.plan(last.plan)} seen={seen} told={told} />
      <RestsList
        found={restsOnMine({ make, makings, seen, altitudeM: says.altitudeM, neutral: typed.neutral })}
        told={told}
      />{' '}
      {/* prettier-ignore */}
      {children}
      <StatesList states={publishable({ make, seen, says, kit, told })} told={told} />
      <KeepWritten make={make} seen={seen} from={last.plan.make.id} told={told} isNamed={typed.name.trim() !== ''} />
      <p>
        <Link href={`/record/${streamId}`}>{say('record:back')}</Link>
      </p>
    </>
  );
}

function saysOf({ author, licence, altitude, forms, tests }: Typed): WriterSays {
  const height = altitude.trim() === '' ? Number.NaN : Number(altitude.replace(',', '.'));
  return { author, licence, forms, tests, altitudeM: Number.isFinite(height) && height >= -500 && height <= HIGHEST_M ? height : null }; // prettier-ignore
}

function madeOf(input: {
  readonly last: Making;
  readonly seen: ReturnType<typeof seenIn>;
  readonly says: WriterSays;
  readonly typed: Typed;
  readonly told: ReturnType<typeof useTold>;
}): { readonly make: Make } | { readonly problems: readonly string[] } {
  const { last, seen, says, typed, told } = input;
  const { make } = last.plan;
  const name = typed.name.trim() === '' ? make.name : typed.name.trim();
  const id = idOf(name, `${make.id}-as-made`);
  try {
    return {
      make: asMade({
        make,
        seen,
        written: {
          id: id === make.id ? `${id}-as-made` : id,
          name,
          about: typed.about.trim() === '' ? make.about : typed.about.trim(),
          source: sourceText({ seen, says, told }),
          neutral: typed.neutral,
        },
      }),
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { problems: error.problems.map(problemText) };
  }
}

/** The makings of the same make in this log, in the order of their days, that have a step which ended. */
function makingsLike(streams: ReadonlyMap<string, readonly Parameters<typeof foldOnce>[0][number][]>, streamId: string): readonly Making[] {
  const asked = streams.get(streamId);
  if (asked === undefined || asked.length === 0) return [];
  const makeId = foldOnce(asked).make?.['id'];
  return [...streams]
    .filter(([id]) => id.startsWith('batch:'))
    .map(([, events]) => foldOnce(events))
    .filter(({ make, answers, steps }) => make !== null && answers !== null && make['id'] === makeId && steps.some(({ endedAt }) => endedAt !== null))
    .flatMap((record): Making[] => {
      try {
        return [{ record, plan: planOfRecord({ record }) }];
      } catch (error) {
        if (error instanceof InputError) return [];
        throw error;
      }
    })
    .sort((a, b) => a.record.zeroAt - b.record.zeroAt);
} // prettier-ignore
