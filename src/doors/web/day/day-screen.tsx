import { useCallback, useMemo, useState, type ReactNode } from 'react';
import { useLocation } from 'wouter';
import { useNow } from '../device/use-now.ts';
import { useReader } from '../device/reader.tsx';
import { May } from '../log/may.tsx';
import { foldOnce } from '../log/fold-once.ts';
import { useLog } from '../log/log-provider.tsx';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { useAllMakes } from '../makes/use-all-makes.ts';
import { useMakes, useWholeMakes } from '../makes/use-makes.ts';
import { lotCodeFor } from '../plan/lot-code.ts';
import { openTogether, type Opening } from '../plan/open-batch.ts';
import { potNames } from '../plan/pots-together.ts';
import { problemSentence } from '../plan/problem-text.ts';
import { leftDraft } from '../plan/use-draft.ts';
import { localDay } from '../plan/wall-clock.ts';
import { startsAt } from '../pots/clash-lines.ts';
import { keepKit } from '../pots/class-kit.ts';
import { keepBurners } from '../pots/use-burners.ts';
import { DayAnswer } from './day-answer.tsx';
import { dayInputOf, planOfRow, wishedPots, type WishedPot } from './day-input.ts';
import { DayKitchen } from './day-kit.tsx';
import { DayMakes } from './day-makes.tsx';
import { DayPicture } from './day-picture.tsx';
import { DayRun } from './day-run.tsx';
import { firstDayState, hoursOf, keepDayState, keptDayState, type DayState } from './day-state.ts';
import type { DayTold } from '../../../exchange/day-words.ts';
import { takeWay } from './day-ways.ts';
import { quickMakes } from './quick-makes.ts';
import { useDayForecasts } from './use-day-forecasts.ts';
import { useDayPlan } from './use-day-plan.ts';
import { useRecorded } from './use-recorded.ts';
import '../plan/plan-screen.css';
import '../print/print.css';
import './day.css';

const MINUTE_MS = 60_000;
const FIVE_MIN_MS = 300_000;
const HOUR_MS = 3_600_000;

/** Several makes or pots in one kitchen: when does each begin, and who needs which burner when? */
export function DayScreen(): ReactNode {
  const { say, write, book } = useReader();
  const { listed, own } = useMakes();
  const { log, held } = useLog();
  const names = useMemo(() => listed.map(({ facts: { id, name } }) => ({ id, name })), [listed]);
  const makeNames = useMemo(() => new Map(names.map(({ id, name }) => [id, name])), [names]);
  const [, go] = useLocation();
  const now = useNow(MINUTE_MS);
  const [draft] = useState(() => leftDraft(write.units));
  const [state, setState] = useState<DayState>(() => keptDayState(now) ?? firstDayState({ makeId: draft.makeId, milk: draft.facts['milk.volumeL'] ?? '10', now })); // prettier-ignore
  const [said, setSaid] = useState<string | null>(null);
  const change = useCallback((next: DayState): void => {
    setSaid(null);
    setState(next);
    keepDayState(next);
  }, []);
  const recorded = useRecorded(now);
  // Only a day that does not fit asks what other make would; of what was asked once, the answer stays at hand.
  const [unfitFor, setUnfitFor] = useState<DayState | null>(null);
  const wantsOthers = unfitFor === state;
  // Only the makes that are chosen are fetched; all of them where the day does not fit and another could stand in.
  const wantedIds = state.rows.map(({ makeId }) => (makeNames.has(makeId) ? makeId : (names[0]?.id ?? ''))).join(' ');
  const chosen = useWholeMakes(useMemo(() => wantedIds.split(' '), [wantedIds]));
  const bundled = useAllMakes(wantsOthers);
  const makes = useMemo(() => (bundled === null ? null : [...bundled, ...own.makes.map(({ make }) => make)]), [bundled, own]); // prettier-ignore
  const planned = useMemo(() => {
    const ids = wantedIds.split(' ');
    const rows = state.rows.flatMap((row, index) => {
      const make = chosen.makes.find(({ id }) => id === ids[index]);
      return make === undefined ? [] : [{ row, make, ...planOfRow({ row, make, draft, units: write.units }) }];
    });
    return rows.length < state.rows.length ? null : rows;
  }, [state.rows, wantedIds, chosen.makes, draft, write.units]);
  const pots = useMemo(() => {
    if (planned === null) return [];
    const rows = planned.flatMap(({ row, plan, answers }) => (plan === null || answers === null ? [] : [{ row, plan, answers }]));
    const count = rows.reduce((sum, { row }) => sum + row.pots, 0);
    return wishedPots({ recorded, rows, names: potNames({ count, taken: recorded.map(({ name }) => name), say }) });
  }, [planned, recorded, say]); // prettier-ignore
  const others = useMemo(
    () => (wantsOthers && makes !== null ? quickMakes({ makes, state, draft, units: write.units }) : []),
    [wantsOthers, makes, state, draft, write.units],
  );
  const wanted = useMemo(() => [...pots, ...others], [pots, others]);
  const { forecasts, failed: noForecast } = useDayForecasts(wanted);
  // The clock alone changes a day only while it runs; of another day it is enough that it is to come.
  const minute = Math.floor(now / (recorded.length > 0 || state.day === localDay(now) ? FIVE_MIN_MS : HOUR_MS)) * (recorded.length > 0 || state.day === localDay(now) ? 1 : HOUR_MS / FIVE_MIN_MS);
  const input = useMemo(
    () => dayInputOf({ state, pots, others, forecasts, now: minute * FIVE_MIN_MS }),
    [state, pots, others, forecasts, minute],
  );
  const { plan, of, isCurrent, failed } = useDayPlan(input);
  const isUnfit = isCurrent && plan !== null && plan.findings.some(({ code }) => code === 'pot-too-long' || code === 'day-too-long');
  if (isUnfit && unfitFor !== state) setUnfitFor(state);
  const zeroAt = hoursOf(state)?.zeroAt ?? 0;
  const told = useMemo<DayTold | null>(
    () =>
      plan === null || of === null
        ? null
        : { plan, zeroAt, makeNames, say, write, pots: pots.filter(({ id }) => of.pots.some((one) => one.id === id)).map(({ id, name, makeName, plan }) => ({ id, name, makeName, makeId: plan.make.id, steps: book.plan(plan).steps })) }, // prettier-ignore
    [plan, of, zeroAt, makeNames, say, write, pots, book],
  );
  const problems = (planned ?? []).flatMap(({ make, problems }) => problems.map((problem) => say('day:problem', { make: make.name, why: problemSentence({ problem, draft, units: write.units, say }) }))); // prettier-ignore
  const startAt = (pot: WishedPot): number | null => {
    const at = plan?.pots.find(({ potId }) => potId === pot.id)?.startMin;
    return at === undefined ? null : zeroAt + at * MINUTE_MS;
  };
  const fresh = pots.filter((pot) => pot.row !== null && startAt(pot) !== null);
  const moved = pots.filter((pot) => pot.row === null && pot.begunAt === null && startAt(pot) !== null && recorded.some(({ potId, zeroAt: was }) => potId === pot.id && was !== startAt(pot))); // prettier-ignore

  const attempt = async (doing: () => Promise<void>): Promise<void> => {
    try {
      await doing();
    } catch (error) {
      setSaid(say('day:act.failed', { why: error instanceof Error ? error.message : String(error) }));
    }
  };
  const getReady = async (): Promise<void> => {
    if (!isCurrent) return setSaid(say('day:act.wait'));
    const taken = [...held.streams].flatMap(([id, events]) => (id.startsWith('batch:') ? [foldOnce(events).lotCode] : []));
    const together = log.newStreamId('day').replace(/^day:/, '');
    const openings = fresh.flatMap((pot, index): Opening[] => {
      const forecast = forecasts.get(pot.key);
      const at = startAt(pot);
      if (forecast === undefined || at === null || pot.answers === null) return [];
      const lotCode = lotCodeFor({ day: localDay(at), taken });
      taken.push(lotCode);
      return [{ plan: pot.plan, answers: pot.answers, forecast, zeroAt: at, name: pot.name, lotCode, ...(fresh.length < 2 ? {} : { together: { id: together, of: fresh.length, nth: index + 1 } }) }]; // prettier-ignore
    });
    await attempt(async () => {
      await openTogether(log, openings);
      // The kitchen that was planned with is the one that the pots stand in.
      keepBurners(state.kit.burner);
      if (fresh.length >= 2) keepKit({ together, hands: state.kit.hands + (state.mode === 'between' ? state.pupils : 0), kettles: state.kit.kettle ?? 0 });
      keepDayState({ ...state, rows: [] });
      go('/pots');
    });
  };
  const moveStarts = async (): Promise<void> => {
    const notes = moved.flatMap((pot) => {
      const events = held.streams.get(pot.id);
      const at = startAt(pot);
      return events === undefined || at === null ? [] : startsAt({ potId: pot.id, record: foldOnce(events) }, at);
    });
    await attempt(async () => {
      await log.recordAll(notes);
      setSaid(say('day:act.moved'));
    });
  };

  return (
    <div className="day plan">
      <h1>{say('day:title')}</h1>
      <p className="day-lead no-print">{say('day:lead')}</p>
      <DayMakes state={state} makes={names} recorded={recorded.map(({ name }) => name)} clock={(minutes) => write.clock(zeroAt + minutes * MINUTE_MS)} onChange={change} />
      {problems.map((problem) => (
        <Notice key={problem} kind="caution">{problem}</Notice>
      ))}
      <DayKitchen state={state} now={now} onChange={change} />
      {(noForecast ?? failed ?? chosen.failed) === null ? null : <Notice kind="caution">{say('day:failed', { why: noForecast ?? failed ?? chosen.failed ?? '' })}</Notice>}
      {told === null ? (
        <p role="status" className="plan-note">{say(input === null ? 'day:working' : 'day:planning')}</p>
      ) : (
        <>
          <DayAnswer told={told} isCurrent={isCurrent} onWay={(way) => change(takeWay(state, way))} />
          {told.plan.pots.length === 0 ? null : (
            <>
              <May note="batchOpened" tells>
              <p className="day-acts no-print">
                {fresh.length === 0 ? null : <Button kind="main" onClick={() => void getReady()}>{say('day:act.ready', { count: fresh.length })}</Button>}
                {moved.length === 0 ? null : <Button kind={fresh.length === 0 ? 'main' : 'second'} onClick={() => void moveStarts()}>{say('day:act.move', { count: moved.length })}</Button>}
                <span role="status">{said}</span>
              </p>
              </May>
              <DayPicture told={told} now={now} />
              <DayRun told={told} />
            </>
          )}
        </>
      )}
    </div>
  );
} // prettier-ignore
