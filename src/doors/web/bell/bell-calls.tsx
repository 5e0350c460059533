import { memo, type ReactNode } from 'react';
import type { JudgementName } from '../../../make/judgement.ts';
import { useReader } from '../device/reader.tsx';
import { useMedia } from '../look/use-media.ts';
import { VatButton } from '../vat/vat-button.tsx';
import type { Shown } from './book.ts';
import { answer } from './call-parts.ts';
import type { Telling } from '../vat/said.ts';
import type { Bell } from './use-bell.ts';
import './bell.css';

/** A phone, and any window too low for several calls and the numbers under them: a tablet on its side, a desk. */
const IS_SHORT_OF_ROOM = '(max-width: 40rem), (max-height: 960px)';

interface Asked {
  readonly bell: Bell;
  readonly telling: Telling;
  readonly onTest: (judgement: JudgementName) => void;
}

/** Whether something stands where the numbers stood. */
export const hasAct = (bell: Bell): boolean => bell.shown.some(({ call }) => call.class === 'act');

/** Whether a call asks for the test itself: then the card does not offer it a second time. */
export const asksForTest = (bell: Bell): boolean =>
  bell.shown.some(({ call }) => call.class !== 'note' && call.look !== undefined);

/**
 * What the bell calls for now: Acts filled, in place of the numbers; due things as watch blocks, oldest first. Where the room is short every due
 * thing after the first is one line with its own button: the numbers of the step stay above the actions.
 */
export const BellCalls = memo(function BellCalls({
  bell,
  telling,
  onTest,
  only,
  isFolded = false,
}: Asked & {
  readonly only?: 'act';
  /** Every due thing is a line: among other pots' calls. */
  readonly isFolded?: boolean;
}): ReactNode {
  const { say } = useReader();
  const isShort = useMedia(IS_SHORT_OF_ROOM);
  const acts = bell.shown.filter(({ call }) => call.class === 'act');
  const dues = only === 'act' ? [] : bell.shown.filter(({ call }) => call.class === 'due');
  const [act] = acts;
  if (act === undefined && dues.length === 0) return null;
  return (
    <div className="bell-calls">
      {act === undefined ? null : (
        <section className="bell-act" aria-label={say('bell:act')}>
          <div role="alert">
            <p className="bell-seen">{act.call.seen}</p>
            <p>{act.call.what}</p>
            <p>{act.call.by}</p>
            <p>{act.call.cost}</p>
          </div>
          <Late shown={act} />
          {acts.length < 2 ? null : <p>{say('bell:more', { count: acts.length - 1 })}</p>}
          <Answers shown={act} bell={bell} telling={telling} onTest={onTest} />
        </section>
      )}
      {dues.map((due, place) =>
        isFolded || (isShort && (place > 0 || act !== undefined)) ? (
          <Line key={due.call.id} shown={due} bell={bell} telling={telling} onTest={onTest} />
        ) : (
          <section key={due.call.id} className="bell-due" aria-label={say('bell:due')}>
            <div role="status">
              <p className="bell-seen">{due.call.seen}</p>
              <p>
                {due.call.what} {due.call.by} {due.call.cost}
              </p>
            </div>
            <Late shown={due} />
            <Answers shown={due} bell={bell} telling={telling} onTest={onTest} />
          </section>
        ),
      )}
    </div>
  );
});

const LONG_MIN = 90;

/** "Was due 11:24, 6 min ago": outside the live region, because it changes by the minute. */
function Late({ shown }: { readonly shown: Shown }): ReactNode {
  const { say, write } = useReader();
  const { dueAt, lateMin } = shown;
  if (lateMin < 1) return null;
  const at = write.clock(dueAt);
  return (
    <p className="bell-late">
      {lateMin < LONG_MIN
        ? say('bell:late', { at, count: lateMin })
        : say('bell:lateLong', { at, duration: write.duration(lateMin) })}
    </p>
  );
}

/** A due thing that waits behind another: what it is, how late, and its first answer; the rest once the other is answered. */
function Line(asked: Asked & { readonly shown: Shown }): ReactNode {
  const { say } = useReader();
  return (
    <section className="bell-due bell-line" aria-label={say('bell:due')}>
      <div>
        <p className="bell-seen" role="status">
          {asked.shown.call.seen}
        </p>
        <Late shown={asked.shown} />
      </div>
      <Answers {...asked} only="first" />
    </section>
  );
}

function Answers({
  shown,
  bell,
  telling,
  onTest,
  only,
}: Asked & { readonly shown: Shown; readonly only?: 'first' }): ReactNode {
  const { call, dueAt } = shown;
  const { look } = call;
  const answers = only === undefined ? call.answers : look === undefined ? call.answers.slice(0, 1) : [];
  const test = answer(telling, 'look');
  return (
    <div className="bell-answers">
      {look === undefined ? null : (
        <VatButton
          className="bell-answer"
          keyHint="T"
          onAct={() => {
            bell.answer(call, test, dueAt);
            onTest(look);
          }}
        >
          {test.label}
        </VatButton>
      )}
      {answers.map((one) => (
        <VatButton key={one.id} className="bell-answer" onAct={() => bell.answer(call, one, dueAt)}>
          {one.label}
        </VatButton>
      ))}
    </div>
  );
}
