import { useEffect, useMemo, useState, type ReactNode } from 'react';
import type { JudgementName } from '../../../make/judgement.ts';
import type { Batch } from './batch.ts';
import { useReader } from '../device/reader.tsx';
import { useSteady } from '../device/use-steady.ts';
import { LatePart } from '../later/late-part.tsx';
import { useLog } from '../log/log-provider.tsx';
import { useMedia } from '../look/use-media.ts';
import { ProbeLine } from '../instruments/probe-line.tsx';
import { InvitationLine } from './invitation-line.tsx';
import { BellTry, FinishCard, loadLater, OtherPot, PauseCard, TwiceQuestion, VatPages } from './later.ts';
import { MayLine } from './may-line.tsx';
import { NotedBar } from './noted-bar.tsx';
import type { Telling } from './said.ts';
import { SaveFailed } from './save-failed.tsx';
import { SilenceQuestion } from './silence-question.tsx';
import { useForesight, useSilence } from './use-batch.ts';
import { useSisters } from './use-sisters.ts';
import { useNoting } from './use-noting.ts';
import { useNow } from './use-now.ts';
import { useBackToCard } from './use-back-to-card.ts';
import { useViews } from './use-views.ts';
import { useVatKeys } from './vat-keys.ts';
import { useVatLight } from './vat-light.ts';
import { useWakeLock } from './use-wake-lock.ts';
import type { Written } from './foresight-store.ts';
import { useKeeping, useShown } from './use-kept-foresight.ts';
import { useWipe } from './use-wipe.ts';
import { PATH_ITEM } from './short-list.ts';
import { asksForTest, BellCalls, hasAct } from '../bell/bell-calls.tsx';
import { BellNotes } from '../bell/bell-notes.tsx';
import { BellFoot, BellStrip } from '../bell/bell-strip.tsx';
import { useBell } from '../bell/use-bell.ts';
import { VatActions } from './vat-actions.tsx';
import { VatAside } from './vat-aside.tsx';
import { VatCard } from './vat-card.tsx';
import type { Page } from './vat-pages.tsx';
import { VatStrip } from './vat-strip.tsx';
import { VatTimeline } from './vat-timeline.tsx';

/** Wide enough for the time line beside the card, as the style sheet has it; a phone draws none. */
const BESIDE = '(min-width: 43.75rem)';

/** The time line moves by less than a pixel in this time. */
const TIMELINE_MS = 15_000;

/** The taps that lead from the card to a page. */
const waysFrom = (setPage: (page: Page) => void) => ({
  judge: (judgement: JudgementName) => setPage({ at: 'judge', judgement }),
  choices: () => setPage({ at: 'choices' }),
  pad: () => setPage({ at: 'pad' }),
  wrong: () => setPage({ at: 'wrong' }),
  whole: () => setPage({ at: 'whole' }),
});

/** One running batch: the card and its four actions, and the pages that come back to it by themselves. */
export function VatRun({
  batch,
  kept,
}: {
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly kept: Written | null;
}): ReactNode {
  const { say, write, settings } = useReader();
  const { log, held } = useLog();
  const { record, plan, seed, streamId } = batch;
  const nowAt = useNow();
  const vatLight = useVatLight(settings);
  const silence = useSilence(batch, nowAt);
  const learning = useSisters(batch, nowAt);
  const shown = useShown(kept, record);
  const foresight = useForesight({ plan, record, seed, nowAt, silence, beliefs: learning?.learned.beliefs ?? null, shown }); // prettier-ignore
  useKeeping(streamId, foresight, record);
  const noter = useNoting(streamId);
  const [page, setPage] = useState<Page>({ at: 'card' });
  const isBegun = record.steps.length > 0;
  // Until the first step has begun, the make is told as if it began now, or when it was planned to.
  const zeroAt = isBegun ? record.zeroAt : Math.max(record.zeroAt, Math.floor(nowAt / 60_000) * 60_000);
  const telling = useMemo<Telling>(() => ({ say, write, zeroAt }), [say, write, zeroAt]);
  const { asked, twice, view, invitation, sisters } = useViews({ record, plan, foresight, silence, learning, nowAt, telling }); // prettier-ignore
  const isWiping = useWipe();
  const hasRoomBeside = useMedia(BESIDE);
  useVatKeys();
  const wakeLock = useWakeLock(view.standing.stage === 'running');
  const bell = useBell({ batch, foresight, nowAt, telling, language: settings.language, noter });
  useBackToCard(page, setPage);
  // The pages are there before the first tap asks for one.
  useEffect(loadLater, []);

  const saved = noter.failed !== null ? 'not' : log.savedWhere(streamId);
  const { standing, main } = view;
  const doMain = (): void => {
    if (main === null) return;
    void noter.note(main.entries, { said: say(standing.stage === 'running' ? 'vat:saved.ended' : 'vat:saved.begun', { said: main.label, step: standing.step?.name ?? '', at: write.clock(nowAt) }), expected: null, doubt: view.tooSoon, reads: null }); // prettier-ignore
  };
  const ready = useSteady((item: { readonly id: string; readonly text: string; readonly dropped: boolean }): void => {
    void noter.note([{ kind: 'prepared', body: { item: item.id, ...(item.dropped ? { unit: 'left out' } : {}) } }], { said: say(item.dropped ? 'vat:saved.dropped' : 'vat:saved.ready', { what: item.text }), expected: null, doubt: null, reads: null }); // prettier-ignore
  });
  // What is drawn only when it changes is given the same acts each time.
  const onMain = useSteady(doMain);
  const onUndo = useSteady(() => void noter.undo());
  const onLight = useSteady(vatLight.next);
  const onTest = useSteady(() => setPage({ at: 'judge', judgement: view.readiness?.judgement ?? 'stretch' }));
  const to = useMemo(() => waysFrom(setPage), []);
  const calls = useMemo(() => <BellCalls bell={bell} telling={telling} onTest={to.judge} />, [bell, telling, to]);
  const notes = useMemo(() => (isBegun ? <BellNotes bell={bell} wakeLock={wakeLock} /> : null), [isBegun, bell, wakeLock]); // prettier-ignore
  const invited = useMemo(() => (invitation === null ? null : <InvitationLine invitation={invitation} onPage={setPage} />), [invitation]); // prettier-ignore
  const wipe = isWiping ? (
    <p className="vat-wipe" role="alert">
      {say('vat:wipe')}
    </p>
  ) : null;
  if (page.at !== 'card') {
    return (
      <>
        {wipe}
        <main className="vat vat-page" inert={isWiping}>
          <BellCalls bell={bell} telling={telling} onTest={to.judge} only="act" />
          <LatePart onBack={() => setPage({ at: 'card' })}>
            <VatPages
              page={page}
              onPage={setPage}
              batch={batch}
              view={view}
              foresight={foresight}
              nowAt={nowAt}
              telling={telling}
              noter={noter}
            />
          </LatePart>
        </main>
      </>
    );
  }
  const isStale = foresight.failed === null && foresight.isBehind;
  const isFinishing = standing.stage === 'finishing' || standing.stage === 'closed';
  const last = foresight.forecast?.steps.at(-1);
  return (
    <main className="vat" inert={isWiping} data-stage={standing.stage}>
      <div>
        <VatStrip strip={view.strip} saved={saved} light={vatLight.light} onLight={onLight} />
        <BellStrip bell={bell} isRunning={standing.stage === 'running'} step={view.verb} />
      </div>
      <div className="vat-scroll" key={`${standing.stage} ${standing.index}`}>
        <SaveFailed failed={noter.failed} />
        {wipe}
        {asked === null ? null : (
          <SilenceQuestion
            silence={asked}
            onAnswer={(entries, said) => void noter.note(entries, { said, expected: null, doubt: null, reads: null })}
          />
        )}
        {twice === null ? null : (
          <LatePart>
            <TwiceQuestion
              twice={twice}
              onAnswer={(entries, said) => void noter.note(entries, { said, expected: null, doubt: null, reads: null })}
            />
          </LatePart>
        )}
        <ProbeLine record={record} streamId={streamId} nowAt={nowAt} />
        {isFinishing || view.pause !== null ? calls : null}
        <div className="vat-body">
          <LatePart>
            {foresight.forecast === null || !isBegun || !hasRoomBeside ? null : (
              <VatTimeline
                plan={plan}
                forecast={foresight.forecast}
                telling={telling}
                nowAt={Math.floor(nowAt / TIMELINE_MS) * TIMELINE_MS}
              />
            )}
            {isFinishing && asked !== null ? null : isFinishing ? (
              <FinishCard
                record={record}
                plan={plan}
                forecast={foresight.forecast}
                telling={telling}
                streamId={streamId}
                onWeigh={(weighs) => setPage({ at: 'pad', only: 'massKg', weighs })}
                onEntries={(entries, said) =>
                  void noter.note(entries, { said, expected: null, doubt: null, reads: null })
                }
              />
            ) : view.pause !== null ? (
              <PauseCard
                pause={view.pause}
                record={record}
                telling={telling}
                goes={
                  standing.stage !== 'get-ready'
                    ? null
                    : say(last === undefined ? 'vat:pause.goesUntimed' : 'vat:pause.goes', {
                        amount: write.litres(plan.setup.milk.volumeL).text,
                        steps: plan.steps.length,
                        at: last === undefined ? '' : write.clock(zeroAt + last.endMin.p50 * 60_000),
                      })
                }
                list={standing.stage === 'get-ready' ? view.ready : null}
                onPath={(path) =>
                  void noter.note([{ kind: 'prepared', body: { item: PATH_ITEM, unit: path } }], {
                    said: say(`vat:pause.paths.${path}`),
                    expected: null,
                    doubt: null,
                    reads: null,
                  })
                }
                onReady={(item) => ready({ ...item, dropped: false })}
                onUnready={(eventId) =>
                  void noter.note([{ kind: 'retracted', body: { replaces: eventId } }], {
                    said: say('vat:saved.taken'),
                    expected: null,
                    doubt: null,
                    reads: null,
                  })
                }
                onReads={() => setPage({ at: 'pad', only: 'iceWaterC' })}
                bellTest={
                  <LatePart>
                    <BellTry
                      record={record}
                      plan={plan}
                      forecast={foresight.forecast}
                      telling={telling}
                      nowAt={nowAt}
                      onHeard={ready}
                    />
                  </LatePart>
                }
              />
            ) : (
              <VatCard
                view={view}
                calls={calls}
                isAct={hasAct(bell)}
                isStale={isStale}
                failed={foresight.failed === null ? null : say('vat:noForecast', { because: foresight.failed })}
                onChoices={to.choices}
                onTest={view.readiness === null || asksForTest(bell) ? null : onTest}
              />
            )}
            {isFinishing ? null : (
              <VatAside
                view={view}
                sisters={sisters}
                invitation={invited}
                bell={notes}
                onReady={ready}
                noting={noter.isFresh ? null : noter.last}
                onUndo={onUndo}
              />
            )}
          </LatePart>
        </div>
      </div>
      <BellFoot bell={bell} isRunning={standing.stage === 'running'} />
      {noter.last === null || !noter.isFresh ? null : (
        <NotedBar
          noting={noter.last}
          // An Act asks about the same value itself.
          asks={!hasAct(bell)}
          onUndo={() => void noter.undo()}
          onSetRight={
            noter.last.reads === null
              ? null
              : () => setPage({ at: 'pad', only: noter.last?.reads ?? undefined, replaces: noter.last?.eventIds[0] })
          }
          onGone={noter.forget}
          more={
            <LatePart>
              <OtherPot noter={noter} />
            </LatePart>
          }
        />
      )}
      {isFinishing ? (
        <MayLine access={held.access} />
      ) : (
        <VatActions
          access={held.access}
          mainLabel={asked === null ? (main?.label ?? null) : null}
          onMain={onMain}
          onReading={to.pad}
          onWrong={to.wrong}
          onWhole={to.whole}
        />
      )}
    </main>
  );
}
