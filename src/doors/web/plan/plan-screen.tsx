import { useMemo, useState, type ReactNode } from 'react';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { ErrorSummary } from '../look/error-summary.tsx';
import { bundledMakes } from './bundled-makes.ts';
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
import { useAside } from '../forecasting/use-aside.ts';
import { usePlanning } from './use-planning.ts';
import './plan-screen.css';

const MAKES = bundledMakes();
const MAKE_IDS = MAKES.map((make) => make.id);

/** What can I make with this milk, in these hours, and what will I get? */
export function PlanScreen(): ReactNode {
  const { say, write, book } = useReader();
  const now = useNow();
  const { draft, lots, facts: lotFacts, change } = useLotDraft({ makeIds: MAKE_IDS, units: write.units, now });
  const [asked, setAsked] = useState(0);
  const [brought, setBrought] = useState(() => broughtWords(history.state));
  const make = MAKES.find((one) => one.id === draft.makeId) ?? MAKES[0];
  if (make === undefined) throw new Error('no make is bundled');
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
            ...otherMakes({ makes: MAKES, draft: { facts, confirmed, changes, makeId }, units: write.units }),
            ...narrowingQuestions({ make, plan: planned.plan, answers: planned.answers }),
          ],
    [planned, make, facts, confirmed, changes, makeId, write.units],
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
      </Card>
      <MakesChoice
        options={makeOptions({ makes: MAKES, draft, units: write.units, planning, aside, say }).map((one) => ({ ...one, make: book.make(one.make) }))} // prettier-ignore
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
