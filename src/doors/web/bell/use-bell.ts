import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import { uuidV7 } from '../../../record/new-event.ts';
import { useKeptParts } from '../device/use-kept-parts.ts';
import { useSteady } from '../device/use-steady.ts';
import { useLog } from '../log/log-provider.tsx';
import { whyNotHere } from '../log/for-role.ts';
import type { Entry } from '../vat/actions.ts';
import type { Batch } from '../vat/batch.ts';
import type { Telling } from '../vat/said.ts';
import type { Foresight } from '../vat/use-batch.ts';
import type { Noter } from '../vat/use-noting.ts';
import { heldBook, shownCalls, withClockSet, type Book, type Shown } from './book.ts';
import { MINUTE_MS } from './call-parts.ts';
import type { Call, CallAnswer } from './call.ts';
import { callsOf, HAND, laterTimerId } from './calls.ts';
import { clockWatch } from './clock-watch.ts';
import { bookStore } from './kept-book.ts';
import { oneTab } from './one-tab.ts';
import { ring } from './ring.ts';
import { speaker, type Armed } from './sounds.ts';
import { tell } from './tell.ts';
import { unanswered } from './unanswered.ts';

/** The bell of one batch on this device: what it calls for now, and the ways to answer. */
export interface Bell {
  readonly shown: readonly Shown[];
  readonly armed: Armed;
  /** By how much the wall clock jumped, milliseconds; null where it did not or was answered. */
  readonly jumpedMs: number | null;
  readonly timers: readonly { readonly label: string; readonly at: number }[];
  readonly arm: () => void;
  readonly answer: (call: Call, answer: CallAnswer, dueAt: number) => void;
  readonly clockWasSet: (was: boolean) => void;
  readonly setTimer: (label: string, minutes: number) => void;
}

/** Computes the calls, rings them, and keeps what it has rung through sleep and reload. */
export function useBell(input: {
  readonly batch: Extract<Batch, { state: 'open' }>;
  readonly foresight: Foresight;
  readonly nowAt: number;
  readonly telling: Telling;
  readonly language: string;
  readonly noter: Noter;
}): Bell {
  const { batch, foresight, telling, language, noter } = input;
  const { record, plan, streamId } = batch;
  const { forecast, planned, before } = foresight;
  const store = bookStore(streamId);
  const kept = useSyncExternalStore(store.subscribe, store.read);
  const nowAt = useExactNow(input.nowAt, kept);
  const calls = useMemo(
    () => callsOf({ record, plan, forecast, planned, before, telling }),
    [record, plan, forecast, planned, before, telling],
  );
  const isComplete = forecast !== null && planned !== null;
  const book = useMemo(
    () => heldBook({ book: kept, calls, record, plan, isComplete, nowAt }),
    [kept, calls, record, plan, isComplete, nowAt],
  );
  const shown = useKeptParts(useMemo(() => shownCalls({ book, record, nowAt }), [book, record, nowAt]));
  const armed = useArmed();
  const rings = useOneTab(streamId, armed);
  const { log } = useLog();
  useEffect(() => {
    if (!rings) return;
    const left = unanswered({ before: store.read(), after: book, record });
    const isForHere = left.every((entry) => whyNotHere(log.snapshot(), { streamId, ...entry }) === null);
    if (left.length > 0 && isForHere) void log.recordAll(left.map((entry) => ({ streamId, ...entry }))).catch((error: unknown) => console.warn('An unanswered call was not noted.', error)); // prettier-ignore
    const { book: after, sound } = ring({ book, shown, nowAt });
    // A book that only follows the forecast is on screen already: drawing it a second time would show the same.
    if (after === book) store.write(after, 'known');
    else store.write(after);
    if (sound !== null) tell({ sound, pot: record.name, language, tag: streamId });
  }, [rings, book, shown, nowAt, store, record, log, language, streamId]);
  const jumpedMs = useSyncExternalStore(clockWatch.subscribe, clockWatch.read);
  useEffect(() => clockWatch.look(), [nowAt]);
  const { say, write } = telling;
  const note = (entries: readonly Entry[], said: string): void =>
    void noter.note(entries, { said, expected: null, doubt: null, reads: null });
  const timers = useKeptParts(record.timers.filter((timer) => timer.timerId.startsWith(HAND)).map(({ label, startedAt, lastsMs }) => ({ label, at: startedAt + lastsMs })).filter(({ at }) => at > nowAt)); // prettier-ignore
  const answer = useSteady<Parameters<Bell['answer']>, void>((call, given, dueAt) => note(answered({ call, answer: given, dueAt, nowAt }), say('bell:answered', { seen: call.seen, answer: given.label }))); // prettier-ignore
  const clockWasSet = useSteady((was: boolean) => {
    if (was && jumpedMs !== null) store.write(withClockSet(book, jumpedMs));
    clockWatch.forget();
  });
  const setTimer = useSteady((label: string, minutes: number) => {
    const timerId = `${HAND}${uuidV7(nowAt, crypto.getRandomValues(new Uint8Array(10)))}`;
    const lastsMs = minutes * MINUTE_MS;
    note([{ kind: 'timerSet', body: { timerId, label, startedAt: nowAt, lastsMs } }], say('bell:timer.said', { label, at: write.clock(nowAt + lastsMs) })); // prettier-ignore
  });
  return useMemo(
    () => ({ shown, armed, jumpedMs, timers, arm, answer, clockWasSet, setTimer }),
    [shown, armed, jumpedMs, timers, answer, clockWasSet, setTimer],
  );
}

const arm = (): void => void speaker.arm();

/** What an answer notes: that it was answered, what follows from it, and when to call again. */
function answered(input: {
  readonly call: Call;
  readonly answer: CallAnswer;
  readonly dueAt: number;
  readonly nowAt: number;
}): readonly Entry[] {
  const { call, answer, dueAt, nowAt } = input;
  const { id, label, notes, againMin } = answer;
  const told = call.class === 'act' ? { answer: label, seen: call.seen, dueAt } : { answer: id };
  const again: Entry[] = againMin === null ? [] : [{ kind: 'timerSet', body: { timerId: laterTimerId(call), label: call.seen, startedAt: nowAt, lastsMs: againMin * MINUTE_MS } }]; // prettier-ignore
  return [{ kind: 'alarmAnswered', body: { alarmId: call.id, ...told } }, ...notes, ...again];
}

/** Whether this tab is the one of the device that rings this pot; the one in sight that may sound takes it over. */
function useOneTab(streamId: string, armed: Armed): boolean {
  const tab = oneTab(streamId);
  const rings = useSyncExternalStore(tab.subscribe, tab.rings);
  useEffect(() => {
    const look = (): void => {
      if (armed === 'armed' && document.visibilityState === 'visible') tab.take();
    };
    look();
    document.addEventListener('visibilitychange', look);
    window.addEventListener('focus', look);
    return () => {
      document.removeEventListener('visibilitychange', look);
      window.removeEventListener('focus', look);
    };
  }, [tab, armed]);
  return rings;
}

/** Whether the bell may sound; any tap or key on the page arms it, because the browser asks for one. */
function useArmed(): Armed {
  const armed = useSyncExternalStore(speaker.subscribe, () => speaker.state);
  useEffect(() => {
    if (armed !== 'silent' && armed !== 'asking') return;
    arm();
    document.addEventListener('pointerup', arm);
    document.addEventListener('keydown', arm);
    return () => {
      document.removeEventListener('pointerup', arm);
      document.removeEventListener('keydown', arm);
    };
  }, [armed]);
  return armed;
}

/** A moment told by a timer counts only beside the clock's own second: a clock set back is followed at once. */
const BESIDE_MS = 2_000;

/** The clock's last second, and the very moment of the next call where that comes before the next second. */
function useExactNow(secondAt: number, book: Book): number {
  const [wokenAt, wake] = useState(0);
  const nextAt = Math.min(...Object.values(book.held).map(({ dueAt }) => dueAt).filter((dueAt) => dueAt > secondAt)); // prettier-ignore
  useEffect(() => {
    const leftMs = nextAt - Date.now();
    if (!(leftMs > 0 && leftMs < BESIDE_MS)) return;
    const timer = setTimeout(() => wake(Date.now()), leftMs);
    return () => clearTimeout(timer);
  }, [nextAt, secondAt]);
  return wokenAt > secondAt && wokenAt - secondAt < BESIDE_MS ? wokenAt : secondAt;
}
