import { useMemo, useRef, useState, type ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import { parseLogFile } from '../../../exchange/log-file.ts';
import { told } from '../../../exchange/words.ts';
import { ALL_KINDS } from '../../../record/keeping-events.ts';
import { worded } from '../device/catalogues.ts';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { useLog } from '../log/log-provider.tsx';
import { later } from '../later/later.ts';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { SetAside } from './set-aside.tsx';
import { useMakes } from '../makes/use-makes.ts';
import { draftOf } from '../plan/draft-of.ts';
import { keepDraft } from '../plan/use-draft.ts';
import { FinishedList } from './finished-list.tsx';
import { openExample } from './example.ts';
import { RunningPot } from './running-pot.tsx';
import { saveCopy } from './save-copy.ts';
import { todayView } from './today-view.ts';
import './today.css';

/** Only who has made many looks for one. */
const FindMakes = later(async () => (await import('./find-makes.tsx')).FindMakes);

/** Only who ages cheese waits for what the ageing room says. */
const DueToday = later(async () => (await worded(() => import('../ageing/due-today.tsx'))).DueToday);

/** What is running, what is due, is anything off? */
export function TodayScreen(): ReactNode {
  const { say, write } = useReader();
  const { log, held } = useLog();
  const now = useNow(60_000);
  const [, go] = useLocation();
  const [wrong, setWrong] = useState<string | null>(null);
  const { listed } = useMakes();
  const makeNames = useMemo(() => new Map(listed.map(({ facts }) => [facts.id, facts.name])), [listed]);
  const view = todayView({ streams: held.streams, makeNames, now, say, write });
  const attempt = async (doing: () => Promise<void>, told: (why: string) => string): Promise<void> => {
    setWrong(null);
    try {
      await doing();
    } catch (error) {
      setWrong(told(error instanceof Error ? error.message : String(error)));
    }
  };
  const starts = (
    <Starts
      isMain={view.running.length === 0}
      withExample={![...held.streams.keys()].some((id) => id.includes(':demo-'))}
      onExample={() =>
        void attempt(
          () => openExample(log),
          (why) => say('today:exampleFailed', { why }),
        )
      }
      onFile={
        (file) =>
        void attempt(async () => log.takeIn(parseLogFile(await file.text(), ALL_KINDS)), (why) => say('today:fileFailed', { file: file.name, why })) // prettier-ignore
      }
    />
  );
  return (
    <div className="today">
      <h1>{say('today:title')}</h1>
      {wrong === null ? null : <Notice kind="caution">{wrong}</Notice>}
      {view.running.length === 0 ? null : (
        <section aria-labelledby="running">
          <h2 id="running">{say('today:running.title')}</h2>
          {view.running.length < 2 ? null : (
            <p className="today-all-pots">
              <Link href="/pots" className="button button-second">
                {say('pots:open')}
              </Link>{' '}
              {say('pots:openWhy')}
            </p>
          )}
          <ul className="today-pots">
            {view.running.map((line, index) => (
              <RunningPot key={line.batchId} line={line} isFirst={index === 0} />
            ))}
          </ul>
        </section>
      )}
      {[...held.streams.keys()].some((id) => id.startsWith('piece:')) ? <DueToday /> : null}
      {view.planned.length === 0 ? null : (
        <section aria-labelledby="planned">
          <h2 id="planned">{say('today:planned.title')}</h2>
          <ul className="today-lines">
            {view.planned.map((line) => (
              <li key={line.eventId}>
                <span>
                  <strong>{told(say, line.makeName)}</strong>, {line.when}
                  {line.body.demo === true ? <span className="pot-demo">{say('today:running.demo')}</span> : null}
                </span>
                <Button
                  onClick={() => {
                    keepDraft(draftOf({ planned: line.body, units: write.units }));
                    go('/plan');
                  }}
                >
                  {say('today:planned.open')}
                </Button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {starts}
      {view.hasMore ? <FindMakes /> : null}
      <FinishedList lines={view.finished} />
      <p className="today-kept">
        {say(view.isEmpty ? 'today:onlyHere' : log.savedWhere() === 'here' ? 'today:kept.here' : 'today:kept.both')}{' '}
        {view.isEmpty ? null : (
          <Button kind="quiet" onClick={() => saveCopy({ text: log.fileText(), now })}>
            {say('today:kept.copy')}
          </Button>
        )}
      </p>
      {held.setAside.length === 0 ? null : <SetAside log={log} refused={held.setAside} />}
      {held.problems.map((problem) => (
        <Notice key={problem} kind="note">
          {told(say, problem)}
        </Notice>
      ))}
    </div>
  );
}

/** Three ways in, no picture, no tour. */
function Starts({
  isMain,
  withExample,
  onExample,
  onFile,
}: {
  /** False where a pot runs: then the vat is the main thing. */
  readonly isMain: boolean;
  readonly withExample: boolean;
  readonly onExample: () => void;
  readonly onFile: (file: File) => void;
}): ReactNode {
  const { say } = useReader();
  const file = useRef<HTMLInputElement>(null);
  return (
    <section aria-label={say('today:starts.label')}>
      <ul className="today-starts">
        <li>
          <Link href="/plan" className={`button ${isMain ? 'button-main' : ''}`}>
            {say('today:starts.plan')}
          </Link>
          <span>{say('today:starts.planWhy')}</span>
        </li>
        <li>
          <Link href="/day" className="button">
            {say('today:starts.day')}
          </Link>
          <span>{say('today:starts.dayWhy')}</span>
        </li>
        {withExample ? (
          <li>
            <Button onClick={onExample}>{say('today:starts.example')}</Button>
            <span>{say('today:starts.exampleWhy')}</span>
          </li>
        ) : null}
        <May note="batchOpened">
          <li>
            <Button onClick={() => file.current?.click()}>{say('today:starts.file')}</Button>
            {/* Any file: phones do not know the ending of a copy and would not let it be chosen. */}
            <input
              ref={file}
              className="out-of-sight"
              type="file"
              aria-label={say('today:starts.file')}
              tabIndex={-1}
              onChange={(event) => {
                const chosen = event.target.files?.[0];
                event.target.value = '';
                if (chosen !== undefined) onFile(chosen);
              }}
            />
            <span>{say('today:starts.fileWhy')}</span>
          </li>
        </May>
      </ul>
    </section>
  );
}
