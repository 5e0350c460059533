import { useMemo, useState, type ReactNode } from 'react';
import type { Make } from '../../../make/make.ts';
import { Link } from 'wouter';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { ErrorSummary } from '../look/error-summary.tsx';
import { Notice } from '../look/notice.tsx';
import { kinOf } from '../makes/kin.ts';
import { useMakes, useWholeMakes } from '../makes/use-makes.ts';
import { broughtWords } from './brought.ts';
import type { Draft } from './draft.ts';
import { LastTime } from './last-time.tsx';
import { HeldBar } from './held-bar.tsx';
import { MakesChoice } from './makes-choice.tsx';
import { makeOptions, otherMakes } from './make-options.ts';
import { PlanSheet } from './plan-sheet.tsx';
import { problemSentence } from './problem-text.ts';
import { ReadyBar } from './ready-bar.tsx';
import { Sentence } from './sentence.tsx';
import { StartLine } from './start-line.tsx';
import { useHeld } from './use-held.ts';
import { useLotDraft } from './use-lot-draft.ts';
import { narrowest, narrowingQuestions } from './narrowing.ts';
import { useAsked } from './use-asked.ts';
import { useAside } from '../forecasting/use-aside.ts';
import { usePlanning } from './use-planning.ts';
import './plan-screen.css';

/** What can I make with this milk, in these hours, and what will I get? */
export function PlanScreen(): ReactNode {
  const { say, write } = useReader();
  const now = useNow();
  const { listed } = useMakes();
  const makeIds = useMemo(() => listed.map(({ facts }) => facts.id), [listed]);
  const asked = useAsked((id) => listed.find(({ facts }) => facts.id === id)?.facts.name ?? null);
  const lotDraft = useLotDraft({ makeIds, units: write.units, now });
  const { makeId } = lotDraft.draft;
  const shown = useMemo(() => kinOf({ makes: listed.map(({ facts }) => facts), makeId }), [listed, makeId]);
  const { makes, failed } = useWholeMakes(shown);
  const make = makes.find((one) => one.id === makeId);
  if (make !== undefined) {
    return (
      <>
        {asked === null || asked.wrong === null ? null : <Notice kind="caution">{asked.wrong}</Notice>}
        <PlanTable {...lotDraft} make={make} makes={makes} now={now} />
      </>
    );
  }
  return (
    <div className="plan">
      <h1>{say('plan:title')}</h1>
      {failed === null ? null : <Notice kind="caution">{say('makes:lost', { why: failed })}</Notice>}
    </div>
  );
}

/** The plan of one make: the sentence, its neighbours to choose from, and the sheet. */
function PlanTable({
  draft,
  lots,
  facts: lotFacts,
  change,
  make,
  makes,
  now,
}: ReturnType<typeof useLotDraft> & {
  readonly make: Make;
  /** The make and those most like it, whole. */
  readonly makes: readonly Make[];
  readonly now: number;
}): ReactNode {
  const { say, write, book } = useReader();
  const [asked, setAsked] = useState(0);
  const [brought, setBrought] = useState(() => broughtWords(history.state));
  // A summary belongs to one press of the main action; the next answer takes it away.
  const planning = usePlanning({ draft, make, units: write.units, now, book });
  const held = useHeld({ draft, planning, now, change });
  const edit = (next: Draft): void => {
    setAsked(0);
    setBrought(null);
    held.edit(next);
  };
  const { planned } = planning;
  const isIdle = planning.isCurrent && !planning.isRefining;
  // The clock is part of the draft and asks nothing.
  const { facts, confirmed, changes, makeId } = draft;
  const questions = useMemo(
    () =>
      planned.plan === null || planned.answers === null
        ? []
        : [
            ...otherMakes({ makes, draft: { facts, confirmed, changes, makeId }, units: write.units }),
            ...narrowingQuestions({ make, plan: planned.plan, answers: planned.answers }),
          ],
    [planned, make, makes, facts, confirmed, changes, makeId, write.units],
  );
  const aside = useAside(questions, isIdle);
  const problems = planned.problems.map((problem) => problemSentence({ problem, draft, units: write.units, say }));
  return (
    <div className="plan">
      <h1>{say('plan:title')}</h1>
      {asked === 0 ? null : <ErrorSummary key={asked} title={say('app:problem')} problems={problems} />}
      <Card rim className="plan-ask">
        {brought === null ? null : (
          <p className="plan-brought" role="status">
            {say('plan:brought', { what: brought })}
          </p>
        )}
        <LastTime makeId={make.id} />
        <Sentence draft={draft} lots={lots} problems={planned.problems} now={now} onChange={edit} />
        {problems.length > 0 && planning.plan !== null ? (
          <p className="plan-note">{say('plan:problems.unplanned')}</p>
        ) : null}
        <StartLine planning={planning} before={held.before} pots={draft.pots} />
        <p className="plan-note">
          <Link href="/day">{say('day:link')}</Link>
        </p>
      </Card>
      <MakesChoice
        options={makeOptions({ makes, draft, units: write.units, planning, aside, say }).map((one) => ({ ...one, make: book.make(one.make) }))} // prettier-ignore
        chosen={make.id}
        onChoose={(makeId) => edit({ ...draft, makeId })}
      />
      <PlanSheet
        planning={planning}
        before={held.before}
        narrowest={narrowest(aside)}
        draft={draft}
        lots={lots}
        lotFacts={lotFacts}
        now={now}
        onChange={edit}
      />
      <div className="plan-bars">
        {planning.plan === null ? null : <HeldBar held={held} draft={draft} plan={planning.plan} />}
        <ReadyBar planning={planning} draft={draft} onRefused={() => setAsked(asked + 1)} />
      </div>
    </div>
  );
}
