import type { ReactNode } from 'react';
import { z } from 'zod';
import { JUDGEMENT_GRADES, type JudgementName } from '../../../make/judgement.ts';
import type { Settings } from '../../../forecast/what-if.ts';
import { expectedReading } from '../chart/expected-reading.ts';
import { useReader } from '../device/reader.tsx';
import { later } from '../later/later.ts';
import { JoinOffer } from '../pots/join-offer.tsx';
import { JudgeScreen, type Outcome } from '../judge/judge-screen.tsx';
import { PadScreen, type PadReading } from '../pad/pad-screen.tsx';
import type { PadQuantity } from '../pad/pad-model.ts';
import { ChoicesPage, WrongPage } from './advice-pages.tsx';
import { AmountScreen } from './amount-screen.tsx';
import { additionOf, endOf, endsStep, flecksEntry, type Entry } from './actions.ts';
import type { Batch } from './batch.ts';
import { foreseen } from './current-step.ts';
import { entriesOf } from './reading-entries.ts';
import { nextLookAfter } from './readiness.ts';
import { readingTold } from './reading-told.ts';
import type { Takes } from './choices-shown.ts';
import { clockOf, type Telling } from './said.ts';
import type { ToldDraft } from './told-draft.ts';
import type { Foresight } from './use-batch.ts';
import type { Noter } from './use-noting.ts';
import { utcOffsetMin } from './utc-offset.ts';
import { WhatIfScreen } from './what-if-screen.tsx';
import { VatButton } from './vat-button.tsx';
import type { VatView } from './vat-view.ts';
import { WholeMake } from './whole-make.tsx';

const JoinPage = later(async () => (await import('../pots/join-page.tsx')).JoinPage);

/** A body as it is stored: only what JSON can hold. */
const storedBody = z.record(z.string(), z.json());

/** What lies over the card; each page comes back to it. */
export type Page =
  | { readonly at: 'card' }
  | {
      readonly at: 'pad';
      readonly only?: PadQuantity | undefined;
      /** What stands on the scale; as the step says where left out. */
      readonly weighs?: 'cheese' | 'piece';
      readonly replaces?: string | undefined;
      /** Where the pad comes back to; the card where left out. */
      readonly cameFrom?: Page;
    }
  | { readonly at: 'amount' }
  | { readonly at: 'judge'; readonly judgement: JudgementName }
  | { readonly at: 'wrong'; readonly draft?: ToldDraft }
  | { readonly at: 'choices' }
  | { readonly at: 'join' }
  | { readonly at: 'whatIf'; readonly settings: Settings }
  | { readonly at: 'whole' };

export function VatPages({
  page,
  onPage,
  batch,
  view,
  foresight,
  nowAt,
  telling,
  noter,
}: {
  readonly page: Page;
  readonly onPage: (page: Page) => void;
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly view: VatView;
  readonly foresight: Foresight;
  readonly nowAt: number;
  readonly telling: Telling;
  readonly noter: Noter;
}): ReactNode {
  const { say, write } = useReader();
  const { record, plan, streamId } = batch;
  const { step } = view.standing;
  const nowMin = (nowAt - telling.zeroAt) / 60_000;
  const back = (): void => onPage({ at: 'card' });
  const note = (entries: readonly Entry[], said: string, happenedAt?: number): void => {
    void noter.note(entries, { said, expected: null, doubt: null, reads: null }, happenedAt);
    back();
  };

  if (page.at === 'pad') {
    const save = (reading: PadReading): void => {
      // A value set right keeps the time of the first one, unless another time is said.
      const replaced = record.entries.find((entry) => entry.eventId === page.replaces);
      const at = reading.minutesAgo === 0 && replaced !== undefined ? replaced.at : nowAt - reading.minutesAgo * 60_000;
      const entries = entriesOf({ reading, step, record, weighs: page.weighs });
      const first = entries[0];
      const expected = first?.kind === 'reading' ? expectedReading({ ...first.body, elapsedMin: (at - telling.zeroAt) / 60_000, forecast: foresight.forecast, setup: plan.setup }) : null; // prettier-ignore
      const told = readingTold({ reading, entries, at, expected, telling });
      const noted: readonly Entry[] = page.replaces === undefined || first === undefined ? entries : [{ kind: 'corrected', body: { replaces: page.replaces, kind: first.kind, body: storedBody.parse(first.body) } }]; // prettier-ignore
      void noter.note(noted, told, at);
      onPage(page.cameFrom ?? { at: 'card' });
    };
    const adds = step === null ? [] : additionOf({ step, plan, fractionOfPlan: 1 });
    const flecks = step === null ? null : flecksEntry({ step, plan, record, nowAt });
    const judged = [
      ...new Set((step?.watch ?? []).flatMap((watch) => (watch.judgement === undefined ? [] : [watch.judgement]))),
    ];
    const extra = (
      <>
        {flecks === null ? null : (
          <VatButton className="pad-rare" onAct={() => note([flecks], say('vat:main.flecks'))}>
            {say('vat:pad.flecks')}
          </VatButton>
        )}
        {adds.length === 0 ? null : (
          <VatButton className="pad-rare may-decide" onAct={() => onPage({ at: 'amount' })}>
            {say('vat:action.other')}
          </VatButton>
        )}
        {judged.map((judgement) => (
          <VatButton key={judgement} className="pad-rare" onAct={() => onPage({ at: 'judge', judgement })}>
            {say(`vat:judge.${judgement}.title`)}
          </VatButton>
        ))}
      </>
    );
    return <PadScreen step={step} plan={plan} forecast={foresight.forecast} nowMin={nowMin} only={page.only} title={say('vat:pad.title', { pot: record.name, at: write.clock(nowAt) })} extra={extra} onReading={save} onBack={() => onPage(page.cameFrom ?? { at: 'card' })} />; // prettier-ignore
  }

  if (page.at === 'amount' && step !== null) {
    const planned = view.numbers[0]?.written.text ?? '';
    const onAmount = (fractionOfPlan: number): void =>
      note(endOf({ standing: view.standing, plan, record, pauses: view.pauses, fractionOfPlan }), say('vat:saved.ended', { said: step.done, at: write.clock(nowAt) })); // prettier-ignore
    return <AmountScreen planned={planned} onAmount={onAmount} onBack={back} />;
  }

  if (page.at === 'judge') {
    const { judgement } = page;
    const ahead = step === null ? undefined : foreseen({ forecast: foresight.forecast, stepId: step.id });
    const againMin = nextLookAfter({ foreseen: ahead, nowMin });
    const again = say('vat:judge.again', { at: clockOf(telling, againMin) });
    const grades = JUDGEMENT_GRADES[judgement];
    const isAwaited = view.readiness?.judgement === judgement;
    const ends = (grade: string): boolean => step !== null && endsStep({ step, grades, grade });
    const outcomes: Outcome[] = isAwaited ? [...grades, 'not-sure'].map((grade) => ({ grade, leadsTo: ends(grade) ? say('vat:judge.goesOn') : again })) : []; // prettier-ignore
    const onJudged = (grade: string): void => {
      const name = grade === 'not-sure' ? say('vat:judge.notSure.name') : say(`vat:judge.${judgement}.${grade}.name`);
      const look: Entry = { kind: 'timerSet', body: { timerId: `look.${step?.id ?? ''}`, label: say(`vat:judge.${judgement}.title`), startedAt: nowAt, lastsMs: Math.round((againMin - nowMin) * 60_000) } }; // prettier-ignore
      note([{ kind: 'judged', body: { judgement, grade, how: 'drawing' } }, ...(isAwaited && !ends(grade) ? [look] : [])], say('vat:saved.judged', { grade: name, at: write.clock(nowAt) })); // prettier-ignore
    };
    const tastes = judgement === 'wheyTaste' || judgement === 'tang';
    return <JudgeScreen judgement={judgement} outcomes={outcomes} caution={tastes && plan.setup.milk.treatment === 'raw' ? say('vat:judge.raw') : null} onJudged={onJudged} onBack={back} />; // prettier-ignore
  }

  const takes: Takes = {
    note,
    test: (judgement, entries, said) => {
      if (entries.length > 0) void noter.note(entries, { said, expected: null, doubt: null, reads: null });
      onPage({ at: 'judge', judgement });
    },
  };
  const around = { batch, view, foresight, nowAt, telling, takes, onBack: back };
  if (page.at === 'wrong') {
    return (
      <WrongPage
        {...around}
        draft={page.draft ?? null}
        onDraft={(draft) => onPage(draft === null ? { at: 'wrong' } : { at: 'wrong', draft })}
        onChoices={() => onPage({ at: 'choices' })}
        join={<JoinOffer batchId={streamId} onJoin={() => onPage({ at: 'join' })} />}
      />
    );
  }
  if (page.at === 'join') {
    return <JoinPage batch={batch} nowAt={nowAt} noter={noter} onWeigh={() => onPage({ at: 'pad', only: 'massKg', cameFrom: { at: 'join' } })} onBack={back} />; // prettier-ignore
  }
  if (page.at === 'choices') return <ChoicesPage {...around} onWhatIf={() => onPage({ at: 'whatIf', settings: {} })} />;

  if (page.at === 'whatIf' && foresight.forecast !== null) {
    return <WhatIfScreen batch={batch} foresight={foresight} forecast={foresight.forecast} settings={page.settings} onSettings={(settings) => onPage({ at: 'whatIf', settings })} nowAt={nowAt} telling={telling} onDo={note} onBack={back} />; // prettier-ignore
  }
  if (page.at === 'whole' && foresight.forecast !== null) {
    return <WholeMake record={record} plan={plan} forecast={foresight.forecast} planned={foresight.planned} nowAt={nowAt} utcOffsetMin={utcOffsetMin(nowAt)} telling={telling} streamId={streamId} onWhatIf={() => onPage({ at: 'whatIf', settings: {} })} onBack={back} />; // prettier-ignore
  }
  return (
    <div className="vat-message">
      <p>{say('vat:forecasting')}</p>
      <VatButton className="vat-back" keyHint="Escape" onAct={back}>
        {say('vat:action.back')}
      </VatButton>
    </div>
  );
}
