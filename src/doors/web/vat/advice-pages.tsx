import { useMemo, type ReactNode } from 'react';
import { meansTold, outsideTold } from '../../../exchange/advice-told.ts';
import type { AdviceTelling } from '../../../exchange/chance-told.ts';
import type { AdviseInput } from '../../../forecast/advise.ts';
import { choiceForecast } from '../../../forecast/choice-forecast.ts';
import { phaseOf } from '../../../forecast/choices.ts';
import { mishapNamed, type Mishap } from '../../../make/mishaps.ts';
import { useReader } from '../device/reader.tsx';
import type { Told } from '../../../make/told.ts';
import { useAdvice, type AdviceState } from '../forecasting/use-advice.ts';
import { useAllMakes } from '../makes/use-all-makes.ts';
import type { Entry } from './actions.ts';
import type { Batch } from './batch.ts';
import { mishapEntry } from './choice-entries.ts';
import { ChoicesScreen } from './choices-screen.tsx';
import { choicesShown, type Takes } from './choices-shown.ts';
import { MishapScreen, type MishapAnswer } from './mishap-screen.tsx';
import type { Telling } from './said.ts';
import { askedIngredients, toldOfDraft, type ToldDraft } from './told-draft.ts';
import { ToldQuestions } from './told-questions.tsx';
import type { Foresight } from './use-batch.ts';
import type { VatView } from './vat-view.ts';
import { WrongScreen } from './wrong-screen.tsx';

interface Around {
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly view: VatView;
  readonly foresight: Foresight;
  readonly nowAt: number;
  readonly telling: Telling;
  readonly takes: Takes;
  readonly onBack: () => void;
}

/** The choices for what is told, or for the course alone; by identity. */
function useChoices({ batch, foresight }: Around, mishap: Told | null): AdviceState {
  const { plan, answers, seed } = batch;
  const { history } = foresight;
  const others = useAllMakes();
  const input = useMemo<AdviseInput | null>(
    () => (others === null ? null : { plan, answers, history, seed, others, ...(mishap === null ? {} : { mishap }) }),
    [plan, answers, history, seed, others, mishap],
  );
  return useAdvice(input);
}

const tellingAt = ({ telling, nowAt }: Around): AdviceTelling => ({ ...telling, nowMin: (nowAt - telling.zeroAt) / 60_000 }); // prettier-ignore

/** Something is wrong: which, how much of it, and what can be done. */
export function WrongPage({
  draft,
  onDraft,
  onChoices,
  join,
  ...around
}: Around & {
  readonly join: ReactNode;
  readonly draft: ToldDraft | null;
  readonly onDraft: (draft: ToldDraft | null) => void;
  readonly onChoices: () => void;
}): ReactNode {
  const { plan } = around.batch;
  const { history } = around.foresight;
  const mishap = draft === null ? undefined : mishapNamed(draft.what);
  const told = useMemo(() => (draft === null || mishap === undefined ? null : toldOfDraft({ draft, mishap, plan, history })), [draft, mishap, plan, history]); // prettier-ignore
  // Asked from the first, without a mishap yet, so that the worker is warm once there is one.
  const state = useChoices(around, told?.told ?? null);
  const verb = around.view.standing.step?.verb ?? null;
  if (draft === null || mishap === undefined) {
    return <WrongScreen verb={verb} onMishap={(one) => onDraft({ what: one.id })} onChoices={onChoices} join={join} onBack={around.onBack} />; // prettier-ignore
  }
  return <OneMishap {...around} draft={draft} mishap={mishap} told={told} state={state} onDraft={onDraft} />;
}

function OneMishap({
  draft,
  mishap,
  told,
  state,
  onDraft,
  ...around
}: Around & {
  readonly draft: ToldDraft;
  readonly mishap: Mishap;
  readonly told: ReturnType<typeof toldOfDraft>;
  readonly state: AdviceState;
  readonly onDraft: (draft: ToldDraft | null) => void;
}): ReactNode {
  const { say } = useReader();
  const { batch, foresight, view, takes } = around;
  const { plan } = batch;
  const { history } = foresight;
  const telling = tellingAt(around);
  const name = say(`vat:mishap.${mishap.id}.name`);
  const noted: readonly Entry[] = [mishapEntry({ ...draft, elapsedMin: history.nowMin, ...told?.told })];
  const decided = (choice: string): Entry => ({
    kind: 'choiceTaken',
    body: { choice, because: name, forecastShown: {} },
  });
  const answer = answerOf({ state, told, around, telling, because: name });
  const phase = phaseOf(plan, history);
  return (
    <MishapScreen
      mishap={mishap}
      questions={
        mishap.asks.length === 0 ? null : (
          <ToldQuestions mishap={mishap} draft={draft} step={view.standing.step} ingredients={askedIngredients({ plan, history })} taken={told?.taken ?? null} onDraft={onDraft} /> // prettier-ignore
        )
      }
      answer={answer}
      trade={mishap.choices
        .filter((choice) => choice.does === null)
        .map((choice) => {
          const degrees = Object.entries(choice.degreesC ?? {}).map(([key, temperatureC]) => [key, telling.write.degrees(temperatureC).text] as const); // prettier-ignore
          const title = say(`vat:mishap.${mishap.id}.${choice.id}`, Object.fromEntries(degrees));
          return { title, brings: say(`vat:mishap.${mishap.id}.${choice.id}Brings`), onTake: () => takes.note([...noted, decided(title)], say('vat:saved.choice', { what: title })) }; // prettier-ignore
        })}
      otherwise={say(`advice:otherwise.${mishap.mayBeUnsafe ? 'unsafe' : phase}`)}
      onNote={answer.is === 'there' ? null : () => takes.note(noted, say('vat:saved.mishap', { what: name }))}
      onThrowAway={() => takes.note([...noted, decided(say('vat:wrong.throw')), { kind: 'batchFinished', body: { note: say('vat:wrong.thrown') } }], say('vat:wrong.thrown'))} // prettier-ignore
      onBack={() => onDraft(null)}
    />
  );
}

function answerOf(input: {
  readonly state: AdviceState;
  readonly told: ReturnType<typeof toldOfDraft>;
  readonly around: Around;
  readonly telling: AdviceTelling;
  readonly because: string;
}): MishapAnswer {
  const { state, told, around, telling, because } = input;
  const { say } = telling;
  if (told === null) return { is: 'asking' };
  const { answer, isCurrent, failed } = state;
  if (failed !== null && isCurrent) return { is: 'failed', because: failed };
  // Numbers of another question are never shown, not even for a moment.
  if (answer === null || state.of?.mishap?.what !== told.told.what) return { is: 'working' };
  if ('outside' in answer) return isCurrent ? { is: 'outside', ...outsideTold(answer, telling) } : { is: 'working' };
  const { batch, foresight, takes } = around;
  const before = foresight.forecast === null ? null : choiceForecast(batch.plan, foresight.forecast);
  return {
    is: 'there',
    means: meansTold(answer.goOn, before, telling),
    unconfirmed: answer.unconfirmed.map((code) => say(`advice:unconfirmed.${code}`)),
    choices: choicesShown({ advice: answer, history: foresight.history, told: told.told, because, telling, takes }),
    isCurrent,
  };
}

/** Choices reached from the course. */
export function ChoicesPage({ onWhatIf, ...around }: Around & { readonly onWhatIf: () => void }): ReactNode {
  const { view, foresight, takes, onBack } = around;
  const state = useChoices(around, null);
  const telling = tellingAt(around);
  const course = [view.course.text, view.course.because].filter((part) => part !== null).join(' ');
  const advice = state.answer === null || 'outside' in state.answer ? null : state.answer;
  const choices = advice === null ? null : choicesShown({ advice, history: foresight.history, told: null, because: course, telling, takes }); // prettier-ignore
  const isOff = view.course.form === 'off';
  const throwAway = (): void => takes.note([{ kind: 'choiceTaken', body: { choice: telling.say('vat:wrong.throw'), because: course, forecastShown: {} } }, { kind: 'batchFinished', body: { note: telling.say('vat:wrong.thrown') } }], telling.say('vat:wrong.thrown')); // prettier-ignore
  return <ChoicesScreen course={course} choices={choices} isCurrent={state.isCurrent} failed={state.failed} onThrowAway={isOff ? throwAway : null} onWhatIf={onWhatIf} onBack={onBack} />; // prettier-ignore
}
