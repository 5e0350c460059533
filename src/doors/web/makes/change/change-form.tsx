import { useMemo, useState, type ReactNode } from 'react';
import { Link, useLocation } from 'wouter';
import type { Make } from '../../../../make/make.ts';
import { useReader } from '../../device/reader.tsx';
import { useLog } from '../../log/log-provider.tsx';
import { Button } from '../../look/button.tsx';
import { Card } from '../../look/card.tsx';
import { ErrorSummary } from '../../look/error-summary.tsx';
import { Notice } from '../../look/notice.tsx';
import type { OwnMake } from '../own-makes.ts';
import { checkText, differenceLines, problemText } from './change-view.ts';
import { StepsPart } from './steps-part.tsx';
import { savingOf } from './saving.ts';
import { asKept } from './unspoken.ts';
import { useChange, type Changing } from './use-change.ts';
import { MilkPart } from './milk-part.tsx';
import { AimsPart, DosesPart, RestPart, WhatPart } from './what-parts.tsx';
import { wordsOfField } from './words-of-field.ts';
import type { Written } from './written.ts';

/** The form, what to doubt beside it, and what it does otherwise than its original. */
export function ChangeForm({
  makeId,
  written,
  mine,
  original,
  basis,
}: {
  readonly makeId: string;
  readonly written: Written;
  /** Null where it is not one's own yet. */
  readonly mine: OwnMake | null;
  /** What it is told against; null where it was written from nothing. */
  readonly original: Make | null;
  /** The make that the sentences came from, as it is kept. */
  readonly basis: readonly Make[];
}): ReactNode {
  const { say, book } = useReader();
  const { log } = useLog();
  const [, go] = useLocation();
  const changing = useChange(makeId, written);
  const { edit, make, isTouched } = changing;
  const [asked, setAsked] = useState(0);
  const [failed, setFailed] = useState<string | null>(null);
  const telling = useReader();
  const problems = useMemo(
    () =>
      changing.problems.map(
        (problem) => `${wordsOfField(problem.field, edit.json, say)}: ${problemText(problem, telling)}`,
      ),
    [changing.problems, edit.json, say, telling],
  );
  const save = async (): Promise<void> => {
    if (make === null) return setAsked(asked + 1);
    const written = asKept({ written: edit.json, basis, book });
    const note = savingOf({ written, mine, basis: original, newStreamId: () => log.newStreamId('make') });
    try {
      await log.record(note.note);
      changing.forget();
      go(`/makes/${note.makeId}`);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  const name =
    typeof edit.json['name'] === 'string' && edit.json['name'] !== '' ? edit.json['name'] : say('change:unnamedMake');
  return (
    <div className="change">
      <p>
        <Link className="change-link" href={makeId === 'new' ? '/makes' : `/makes/${makeId}`}>
          {say('change:back')}
        </Link>
      </p>
      <h1>{say(mine === null && makeId !== 'new' ? 'change:titleFrom' : 'change:title', { name })}</h1>
      {mine === null ? <p>{say('change:lead')}</p> : null}
      {asked === 0 ? null : <ErrorSummary key={asked} title={say('app:problem')} problems={problems} />}
      {failed === null ? null : <Notice kind="act">{say('change:notSaved', { why: failed })}</Notice>}
      <div className="change-columns">
        <div className="change-form">
          <WhatPart edit={edit} />
          <StepsPart edit={edit} doubted={doubtedSteps(changing)} />
          <DosesPart edit={edit} />
          <MilkPart edit={edit} />
          <AimsPart edit={edit} />
          <RestPart edit={edit} />
        </div>
        <aside className="change-aside">
          <Checks changing={changing} />
          {original === null || make === null ? null : <Differences was={book.make(original)} now={make} />}
        </aside>
      </div>
      <div className="change-bar">
        <p className="change-bar-words">
          {say(problems.length === 0 ? 'change:ready' : 'change:unready', { count: problems.length })}
        </p>
        {isTouched ? <Button onClick={changing.forget}>{say('change:forget')}</Button> : null}
        <Button kind="main" onClick={() => void save()}>
          {say('change:save')}
        </Button>
      </div>
    </div>
  );
}

/** How many problems and doubts stand on each step. */
function doubtedSteps({ problems, checks }: Changing): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  for (const { field } of [...problems, ...checks]) {
    const place = /^steps\[(\d+)\]/.exec(field)?.[1];
    if (place !== undefined) counts.set(Number(place), (counts.get(Number(place)) ?? 0) + 1);
  }
  return counts;
}

function Checks({ changing }: { readonly changing: Changing }): ReactNode {
  const telling = useReader();
  const { say } = telling;
  const { checks, isChecked, make } = changing;
  return (
    <Card rim aria-labelledby="change-checks">
      <h2 id="change-checks">{say('change:checks')}</h2>
      <div aria-live="polite">
        {make === null ? (
          <p>{say('change:checksWait')}</p>
        ) : checks.length === 0 ? (
          <p>{say(isChecked ? 'change:checksNone' : 'change:checking')}</p>
        ) : (
          <ul className="change-doubts">
            {checks.map((check) => (
              <li key={`${check.code}-${check.field}`}>{checkText(check, telling)}</li>
            ))}
          </ul>
        )}
      </div>
    </Card>
  );
}

function Differences({ was, now }: { readonly was: Make; readonly now: Make }): ReactNode {
  const { say, write } = useReader();
  const lines = useMemo(() => differenceLines({ was, now, say, write }), [was, now, say, write]);
  return (
    <Card aria-labelledby="change-diff">
      <h2 id="change-diff">{say('change:diffTitle', { name: was.name })}</h2>
      {lines.length === 0 ? (
        <p>{say('change:diffNone')}</p>
      ) : (
        <ul className="change-diffs">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </Card>
  );
}
