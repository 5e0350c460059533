import { useMemo, useState, type ReactNode } from 'react';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Way } from '../../../forecast/question.ts';
import { changeText, nameOf, valueText, type Telling } from '../../../exchange/solve/solve-words.ts';
import { adjustablesOf } from '../../../make/adjustable.ts';
import type { Plan } from '../../../make/plan.ts';
import type { Answers } from '../../../make/setup.ts';
import { useReader } from '../device/reader.tsx';
import { Button } from '../look/button.tsx';
import { Card } from '../look/card.tsx';
import { UndoBar } from '../look/undo-bar.tsx';
import type { Draft } from '../plan/draft.ts';
import { AimAnswer } from './aim-answer.tsx';
import { AimFree } from './aim-free.tsx';
import { AimSentence } from './aim-sentence.tsx';
import { readRow, type AimRow } from './aim-rows.ts';
import { withoutChange, withWay } from './take-way.ts';
import { useSolve } from './use-solve.ts';
import './aim.css';

const USUAL_CHANCE = 0.8;

/** What must come out: an aim and its range, what would do it, how surely, at what cost; one tap takes it into the plan. */
export function AimCard({
  plan,
  answers,
  forecast,
  zeroAt,
  endAt,
  draft,
  isIdle,
  onChange,
}: {
  readonly plan: Plan;
  readonly answers: Answers;
  readonly forecast: Forecast;
  readonly zeroAt: number;
  /** The likeliest end of the plan's day. */
  readonly endAt: number;
  readonly draft: Draft;
  /** The plan's own forecast comes first: nothing is searched while it is being computed. */
  readonly isIdle: boolean;
  readonly onChange: (draft: Draft) => void;
}): ReactNode {
  const { say, write } = useReader();
  const [rows, setRows] = useState<readonly AimRow[]>([]);
  const [chance, setChance] = useState(USUAL_CHANCE);
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const [taken, setTaken] = useState<{ readonly before: Draft; readonly words: string } | null>(null);
  const adjustables = useMemo(() => adjustablesOf(plan), [plan]);
  const telling: Telling = { say, write, plan, adjustables, zeroAt };
  const read = useMemo(() => rows.map((row) => readRow({ row, zeroAt, units: write.units })), [rows, zeroAt, write.units]); // prettier-ignore
  const aims = useMemo(() => read.flatMap((one) => ('wanted' in one ? [one.wanted] : [])), [read]);
  const isReadable = aims.length > 0 && aims.length === rows.length;
  const question = useMemo(
    () => (isReadable && isIdle ? { plan, answers, aims, free: chosen, probability: chance } : null),
    [isReadable, isIdle, plan, answers, aims, chosen, chance],
  );
  const solving = useSolve(question);
  const isAboutClock = aims.some((aim) => aim.quantity === 'endMin');

  const take = (way: Way): void => {
    setTaken({ before: draft, words: say('solve:card.taken', { change: changeText(way, telling) }) });
    onChange(withWay({ draft, way, adjustables, units: write.units, zeroAt: isAboutClock || way.startShiftMin !== 0 ? zeroAt : null })); // prettier-ignore
  };
  const changed = Object.entries(plan.changes ?? {});
  return (
    <Card aria-labelledby="aim" className="aim-card">
      <h2 id="aim">{say('solve:card.title')}</h2>
      <p className="plan-note">{say('solve:card.lead')}</p>
      <AimSentence
        rows={rows}
        read={read}
        chance={chance}
        make={plan.make}
        forecast={forecast}
        endAt={endAt}
        onRows={setRows}
        onChance={setChance}
      />
      {taken === null ? null : (
        <UndoBar
          undoLabel={say('solve:card.undo')}
          onUndo={() => {
            onChange(taken.before);
            setTaken(null);
          }}
          onGone={() => setTaken(null)}
          stays
        >
          {taken.words}
        </UndoBar>
      )}
      {isReadable ? (
        <>
          <AimFree
            movers={solving.movers}
            free={chosen ?? solving.free}
            offersStart={isAboutClock}
            telling={telling}
            onChoose={setChosen}
          />
          <AimAnswer solving={solving} isStale={question === null} telling={telling} onTake={take} />
        </>
      ) : null}
      {changed.length === 0 ? null : (
        <div className="aim-changed">
          <h3>{say('solve:card.changed')}</h3>
          <ul>
            {changed.map(([id, value]) => (
              <li key={id}>
                <span>
                  {say('solve:card.changedLine', {
                    name: nameOf(id, telling),
                    value: valueText({ ...telling, id, value }),
                  })}
                </span>{' '}
                <Button kind="quiet" onClick={() => onChange(withoutChange(draft, id))}>
                  {say('solve:card.back')}
                </Button>
              </li>
            ))}
          </ul>
        </div>
      )}
    </Card>
  );
}
