/**
 * When each job of a piece is due: its care hung on the calendar, moved by what was really done, by days missed and by days
 * away. A missed turn leaves a gap and is not done twice; what follows is counted from the day it was done.
 */
import { type Care, type CareJob, RHYTHM_JOBS, type RhythmJob, type Stay } from './care-plan.ts';
import { dayNumber } from './day-number.ts';
import type { PieceRecord } from './piece-record.ts';

/** A run of days when nobody is there, first and last included, as day numbers. */
export interface Away {
  readonly from: number;
  readonly to: number;
}

/** A job with the day on which it is to be done, never before today. */
export interface PlannedJob {
  readonly pieceId: string;
  readonly job: CareJob;
  readonly day: number;
  /** The day on which the care had it. */
  readonly wasDue: number;
  /** Rounds that went by undone before this one; 0 for what is only a little late. */
  readonly missed: number;
  /** Put before or after days away; null where it stands on its own day. */
  readonly moved: 'before' | 'after' | null;
  /** It falls into days away and cannot be put off until after them: somebody else must do it. */
  readonly cannotWait: boolean;
  /** Null for what is done once. */
  readonly everyDays: number | null;
  /** The stay that it belongs to. */
  readonly stay: Stay;
}

/** A stay of the care on the calendar. */
export interface DatedStay {
  readonly stay: Stay;
  readonly from: number;
  /** The first day after it; Infinity for one that goes on. */
  readonly to: number;
  /** Jobs of its beginning that are still to be done. */
  readonly open: readonly CareJob[];
}

export interface CareQuestion {
  /** With its ancestors' jobs, where it was cut from another. */
  readonly piece: PieceRecord;
  /** The local day of an instant. */
  readonly dayAt: (at: number) => number;
  readonly today: number;
  /** The last day that is asked for. */
  readonly until: number;
  readonly away: readonly Away[];
}

const PATIENCE_DAYS = 3; // our own choice: a daily turn may wait over a weekend
const PATIENCE_ROUNDS = 2; // our own choice: any other rhythm may miss one round
const ONCE_PATIENCE = 0.25; // our own choice: of the stay before it, for a move, wax or a bag
const EARLY_SHARE = 0.5; // our own choice: a move in the second half of a stay is the one that ends it
/** What tells of the cheese but does nothing for it. */
const CAN_WAIT: ReadonlySet<CareJob> = new Set(['look', 'weigh']);
const LEAST_STEP = 1; // twice a day is one mark a day

/** The stays of the care as they really began: a move made late puts everything after it off. */
export function datedStays(input: Omit<CareQuestion, 'until' | 'away'>): readonly DatedStay[] {
  const { piece, dayAt, today } = input;
  if (piece.made === null || piece.care === null) return [];
  const done = piece.done.map(({ job, at }) => ({ job, day: dayAt(at) }));
  const used = new Map<CareJob, number>();
  let from = dayNumber(piece.made.madeOn);
  let before = 0;
  return piece.care.stays.map((stay) => {
    const earliest = from - EARLY_SHARE * before;
    const began: number[] = [];
    const open = (stay.once ?? []).filter((job) => {
      const nth = used.get(job) ?? -1;
      const next = done.findIndex((one, i) => i > nth && one.job === job && one.day >= earliest);
      if (next === -1) return true;
      used.set(job, next);
      began.push(done[next]?.day ?? from);
      return false;
    });
    if (open.length > 0) from = Math.max(from, today);
    else if (began.length > 0 && before > 0) from = Math.max(...began);
    const dated = { stay, from, to: stay.days === undefined ? Number.POSITIVE_INFINITY : from + stay.days, open };
    before = stay.days ?? 0;
    from = dated.to;
    return dated;
  });
}

/**
 * The jobs of a piece from today on, in the order of their days; one that is late stands on today.
 * @returns none for a piece that is cut, gone or was never made
 */
export function careJobs(question: CareQuestion): readonly PlannedJob[] {
  const { piece, until } = question;
  if (piece.made === null || piece.care === null || piece.goneAt !== null) return [];
  const stays = datedStays(question);
  const jobs = [
    ...stays.flatMap((dated, i) => onceJobs(question, { dated, before: stays[i - 1]?.stay.days ?? 0 })),
    ...tastings(question, { care: piece.care, stays }),
    ...RHYTHM_JOBS.flatMap((job) => rounds(question, { job, stays })),
  ];
  return jobs.filter(({ day }) => day <= until).sort((a, b) => a.day - b.day);
}

function onceJobs(question: CareQuestion, input: { dated: DatedStay; before: number }): PlannedJob[] {
  const { dated, before } = input;
  if (dated.open.length === 0 || dated.from > question.until) return [];
  const patience = Math.max(2, Math.round(ONCE_PATIENCE * before));
  return dated.open.map((job) => {
    const span = question.away.find((away) => dated.from >= away.from && dated.from <= away.to);
    const base = { pieceId: question.piece.pieceId, job, wasDue: dated.from, missed: 0, everyDays: null, stay: dated.stay }; // prettier-ignore
    if (span === undefined) return { ...base, day: dated.from, moved: null, cannotWait: false };
    if (span.to + 1 - dated.from <= patience) return { ...base, day: span.to + 1, moved: 'after', cannotWait: false };
    const early = span.from - 1;
    if (early >= question.today && dated.from - early <= patience)
      return { ...base, day: early, moved: 'before', cannotWait: false };
    return { ...base, day: dated.from, moved: null, cannotWait: true };
  });
}

function tastings(question: CareQuestion, input: { care: Care; stays: readonly DatedStay[] }): PlannedJob[] {
  const { piece, today, until, away } = question;
  const madeDay = dayNumber(piece.made?.madeOn ?? '');
  return input.care.tasteDays.slice(piece.tasted.length).flatMap((days, i) => {
    const wasDue = madeDay + days;
    // Of tastings that were left out only the last is still worth having.
    const next = input.care.tasteDays[piece.tasted.length + i + 1];
    if (next !== undefined && madeDay + next <= today) return [];
    const due = Math.max(wasDue, today);
    const span = away.find(({ from, to }) => due >= from && due <= to);
    const day = span === undefined ? due : span.to + 1;
    const stay = stayAt(input.stays, day);
    if (stay === undefined || day > until) return [];
    return [{ pieceId: piece.pieceId, job: 'taste' as const, day, wasDue, missed: 0, moved: span === undefined ? null : ('after' as const), cannotWait: false, everyDays: null, stay: stay.stay }]; // prettier-ignore
  });
}

const stayAt = (stays: readonly DatedStay[], day: number): DatedStay | undefined =>
  stays.filter(({ from }) => from <= day).at(-1) ?? stays[0];

/** One job through all the stays: counted on from the day it was last done, round by round. */
function rounds(question: CareQuestion, input: { job: RhythmJob; stays: readonly DatedStay[] }): PlannedJob[] {
  const { piece, dayAt, today, until } = question;
  const { job, stays } = input;
  const doneDays = piece.done.filter((one) => one.job === job).map(({ at }) => dayAt(at));
  let last: number | null = doneDays.length === 0 ? null : Math.max(...doneDays);
  const planned: PlannedJob[] = [];
  for (const [index, { stay, from, to }] of stays.entries()) {
    const every = stay.every[job];
    if (every === undefined) continue;
    const step = Math.max(LEAST_STEP, every);
    const times = every < 1 ? Math.round(1 / every) : 1;
    const isOpenToday = last === today && doneDays.filter((day) => day === today).length < times;
    let at: number = isOpenToday ? today : last === null ? (index === 0 ? from + step : from) : Math.max(last + step, from); // prettier-ignore
    const end = Math.min(to, until + 1);
    // A stay that is over asks for nothing any more.
    if (to <= today) continue;
    while (Math.round(at) < end) {
      const due = Math.round(at);
      const base = { pieceId: piece.pieceId, job, wasDue: due, everyDays: every, stay };
      if (due < today) {
        const late = { ...base, missed: Math.floor((today - due) / step) };
        at = place(question, planned, { due: today, last, step, of: late });
      } else {
        at = place(question, planned, { due, last, step, of: { ...base, missed: 0 } });
      }
      last = at - step;
    }
  }
  return planned;
}

type Round = Omit<PlannedJob, 'day' | 'moved' | 'cannotWait'>;

/** Puts one round on its day, or round days away; returns when the one after it is due. */
function place(
  question: CareQuestion,
  planned: PlannedJob[],
  input: { readonly due: number; readonly last: number | null; readonly step: number; readonly of: Round },
): number {
  const { due, last, step, of } = input;
  const put = (day: number, how: Pick<PlannedJob, 'moved' | 'cannotWait'>): void => void planned.push({ ...of, day, ...how }); // prettier-ignore
  const span = question.away.find(({ from, to }) => due >= from && due <= to);
  if (span === undefined) {
    put(due, { moved: null, cannotWait: false });
    return due + step;
  }
  let here = last ?? due - step;
  const eve = span.from - 1;
  if (eve > here && eve >= question.today) {
    put(eve, { moved: 'before', cannotWait: false });
    here = eve;
  }
  const patience = CAN_WAIT.has(of.job) ? Number.POSITIVE_INFINITY : Math.max(PATIENCE_DAYS, PATIENCE_ROUNDS * step);
  while (span.to + 1 - here > patience) {
    // At the latest when a round has been missed; somebody else does it then.
    here = Math.max(Math.round(here + patience - step), question.today, span.from);
    if (here > span.to || here > question.until) break;
    put(here, { moved: null, cannotWait: true });
  }
  const back = span.to + 1;
  put(back, { moved: 'after', cannotWait: false });
  return back + step;
}

/** Rounds of a rhythm that were never done, between two that were. */
export interface MissedRounds {
  readonly job: RhythmJob;
  readonly from: number;
  readonly to: number;
  readonly missed: number;
}

/** The gaps in what was done, for the strip of weeks: "missed 2 turns". Half a round late is no gap. */
export function missedRounds(input: Omit<CareQuestion, 'until' | 'away'>): readonly MissedRounds[] {
  const { piece, dayAt } = input;
  const stays = datedStays(input);
  return RHYTHM_JOBS.filter((job) => job !== 'look').flatMap((job) => {
    const days = [...new Set(piece.done.filter((one) => one.job === job).map(({ at }) => dayAt(at)))].sort((a, b) => a - b); // prettier-ignore
    return days.slice(1).flatMap((to, i) => {
      const from = days[i] ?? to;
      const every = stayAt(stays, from)?.stay.every[job];
      if (every === undefined) return [];
      const missed = Math.floor((to - from) / Math.max(LEAST_STEP, every) + 1e-9) - 1;
      return missed < 1 ? [] : [{ job, from, to, missed }];
    });
  });
}
