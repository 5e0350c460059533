/** The strip of weeks: a row a piece, a mark a job; what was done, what was missed, what is to come, when it is ready. */
import { jobsOfAll } from '../../../exchange/ageing/care-feed.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { missedRounds } from '../../../record/care-calendar.ts';
import type { CareJob } from '../../../record/care-plan.ts';
import { dayNumber, dayText } from '../../../record/day-number.ts';
import type { KeptThings } from '../../../record/kept-things.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { readyLine } from './ready-words.ts';
import { localDayNumber, noonOf } from './use-kept.ts';

/** Jobs with a lane of their own in a row; what is looked at is not drawn. */
export const LANES: readonly (readonly CareJob[])[] = [['turn'], ['brush', 'wash'], ['weigh', 'taste', 'wax', 'pack', 'move']]; // prettier-ignore

export interface WeekMark {
  readonly job: CareJob;
  /** Columns from the first day on. */
  readonly column: number;
  readonly state: 'done' | 'due' | 'moved' | 'cannot-wait';
  readonly lane: number;
}

export interface WeekRow {
  readonly pieceId: string;
  readonly name: string;
  readonly about: string;
  readonly marks: readonly WeekMark[];
  /** Rounds that were never done, from one column to another. */
  readonly gaps: readonly { readonly from: number; readonly to: number; readonly lane: number; readonly words: string }[]; // prettier-ignore
  /** When it is ready, where that falls into the strip. */
  readonly ready: { readonly from: number; readonly to: number } | null;
  readonly readyWords: string;
  /** The whole row in words, for those who do not see it. */
  readonly told: string;
}

export interface WeeksView {
  readonly days: number;
  readonly todayColumn: number;
  /** Mondays, with their dates. */
  readonly weeks: readonly { readonly column: number; readonly label: string }[];
  readonly away: readonly { readonly from: number; readonly to: number }[];
  readonly rows: readonly WeekRow[];
}

const WEEK = 7;
const MONDAY = 4; // 1 January 1970 was a Thursday: day 4 is a Monday

/** The strip from some days back to some ahead. */
export function weeksView(input: {
  readonly kept: KeptThings;
  readonly today: number;
  readonly back: number;
  readonly ahead: number;
  readonly say: Say;
  readonly write: Writer;
}): WeeksView {
  const { kept, today, back, ahead, write } = input;
  const first = today - back;
  const days = back + ahead + 1;
  const jobs = jobsOfAll({ kept, dayAt: localDayNumber, today, until: today + ahead });
  const here = [...kept.pieces.values()].filter(({ goneAt }) => goneAt === null).sort(byShelf(kept));
  return {
    days,
    todayColumn: back,
    weeks: Array.from({ length: days }, (_, column) => column)
      .filter((column) => (first + column - MONDAY) % WEEK === 0)
      .map((column) => ({ column, label: write.shortDate(noonOf(dayText(first + column))) })),
    away: kept.away
      .map(({ from, to }) => ({
        from: Math.max(0, dayNumber(from) - first),
        to: Math.min(days - 1, dayNumber(to) - first),
      })) // prettier-ignore
      .filter(({ from, to }) => from <= to),
    rows: here.map((piece) => rowOf({ ...input, piece, first, days, jobs: jobs.filter(({ pieceId }) => pieceId === piece.pieceId) })), // prettier-ignore
  };
}

/** As one walks: by place, then by shelf. */
export const byShelf =
  (kept: KeptThings) =>
  (a: PieceRecord, b: PieceRecord): number => {
    const order = ({ placeId }: PieceRecord): number => kept.places.get(placeId ?? '')?.told?.order ?? 99;
    return order(a) - order(b) || (a.shelf ?? 999) - (b.shelf ?? 999) || (a.made?.name ?? '').localeCompare(b.made?.name ?? ''); // prettier-ignore
  };

const laneOf = (job: CareJob): number => LANES.findIndex((lane) => lane.includes(job));

function rowOf(
  input: Parameters<typeof weeksView>[0] & {
    readonly piece: PieceRecord;
    readonly first: number;
    readonly days: number;
    readonly jobs: ReturnType<typeof jobsOfAll>;
  },
): WeekRow {
  const { piece, first, days, jobs, today, say, write } = input;
  const inside = (column: number): boolean => column >= 0 && column < days;
  const done = piece.done
    .map(({ job, at }): WeekMark => ({ job, column: localDayNumber(at) - first, state: 'done', lane: laneOf(job) }))
    .filter(({ column, lane }) => inside(column) && lane >= 0);
  const due = jobs
    .map(({ job, day, moved, cannotWait }): WeekMark => ({ job, column: day - first, state: cannotWait ? 'cannot-wait' : moved === null ? 'due' : 'moved', lane: laneOf(job) })) // prettier-ignore
    .filter(({ column, lane }) => inside(column) && lane >= 0);
  const gaps = missedRounds({ piece, dayAt: localDayNumber, today })
    .filter(({ to }) => to > first)
    .map(({ job, from, to, missed }) => ({ from: Math.max(0, from - first), to: to - first, lane: laneOf(job), words: say(`ageing:missed.${job}`, { count: missed }) })); // prettier-ignore
  const window = piece.care?.readyDays;
  const madeDay = dayNumber(piece.made?.madeOn ?? '');
  const from = madeDay + (window?.from ?? 0) - first;
  const to = madeDay + (window?.to ?? 0) - first;
  const readyWords = readyLine({ piece, today, say, write });
  const next = due.find(({ job }) => job !== 'look');
  return {
    pieceId: piece.pieceId,
    name: piece.made?.name ?? '',
    about: say('ageing:round.about', { cheese: piece.made?.cheese ?? '', count: today - madeDay }),
    marks: uniqueMarks([...done, ...due]),
    gaps,
    ready: window === undefined || to < 0 || from >= days ? null : { from: Math.max(0, from), to: Math.min(days - 1, to) }, // prettier-ignore
    readyWords,
    told: [
      ...gaps.map(({ words }) => words),
      ...(next === undefined ? [] : [say('ageing:weeks.next', { job: say(`ageing:job.${next.job}`), day: write.day(noonOf(dayText(first + next.column))) })]),
      readyWords,
    ].filter((words) => words !== '').join('. '),
  };
} // prettier-ignore

function uniqueMarks(marks: readonly WeekMark[]): WeekMark[] {
  const seen = new Set<string>();
  return marks.filter(({ job, column, state }) => {
    const key = `${job} ${column} ${state}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}
