/** Today's round as a walk: place after place, shelf after shelf, each job one verb and one box. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { jobsOfAll } from '../../../exchange/ageing/care-feed.ts';
import type { PlannedJob } from '../../../record/care-calendar.ts';
import type { CareJob } from '../../../record/care-plan.ts';
import { dayText } from '../../../record/day-number.ts';
import type { KeptThings } from '../../../record/kept-things.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import type { PlaceRecord } from '../../../record/place-record.ts';
import type { Note } from '../log/event-log.ts';
import { placeLine } from './place-words.ts';
import { localDayNumber, noonOf } from './use-kept.ts';

/** Jobs that a tap says all of; the others want a figure, a place or words. */
const PLAIN: Readonly<Partial<Record<CareJob, string>>> = { turn: 'pieceTurned', brush: 'pieceBrushed', wash: 'pieceWashed', look: 'pieceLooked' }; // prettier-ignore
/** The order of a hand at the shelf. */
const HAND: readonly CareJob[] = ['look', 'brush', 'wash', 'turn', 'weigh', 'taste', 'wax', 'pack', 'move'];

export interface RoundLine {
  readonly key: string;
  readonly pieceId: string;
  readonly job: CareJob;
  readonly verb: string;
  readonly piece: string;
  /** Shelf, age, cheese. */
  readonly about: string;
  readonly shelf: string;
  /** "missed 2 turns", "somebody else must do it", "before you leave"; empty on an ordinary day. */
  readonly remark: string;
  /** Null where the job wants more than a tap. */
  readonly note: Omit<Note, 'kinds'> | null;
  /** Events of today that did it; empty while it is to be done. */
  readonly doneBy: readonly string[];
}

export interface RoundPlace {
  readonly placeId: string;
  readonly name: string;
  readonly line: string;
  readonly lines: readonly RoundLine[];
}

export interface Round {
  readonly places: readonly RoundPlace[];
  readonly open: number;
  /** What a tap on *All done* notes. */
  readonly all: readonly Omit<Note, 'kinds'>[];
  /** When there is something again, and what; null where nothing is to come. */
  readonly next: string | null;
}

const AHEAD_DAYS = 120;

/** The round of a day, with what was done of it so far. */
export function roundView(input: {
  readonly kept: KeptThings;
  readonly today: number;
  readonly say: Say;
  readonly write: Writer;
}): Round {
  const { kept, today, say, write } = input;
  const jobs = jobsOfAll({ kept, dayAt: localDayNumber, today, until: today + AHEAD_DAYS });
  const due = jobs.filter(({ day }) => day === today).filter((job, _, all) => !isShownByHand(job, all));
  const open = due.flatMap((job) => {
    const piece = kept.pieces.get(job.pieceId);
    return piece === undefined ? [] : [{ piece, line: openLine({ job, piece, say, write, today }) }];
  });
  const done = [...kept.pieces.values()].filter(({ goneAt }) => goneAt === null).flatMap((piece) => doneLines({ piece, today, say, write, open: due })); // prettier-ignore
  const all = [...open, ...done];
  const places = [...new Set(all.map(({ piece }) => piece.placeId ?? ''))].map((placeId) => kept.places.get(placeId) ?? null); // prettier-ignore
  const later = jobs.filter(({ day }) => day > today);
  return {
    places: places.sort(byOrder).map((place) => roundPlace({ place, all, say, write })),
    open: open.length,
    all: open.flatMap(({ line }) => (line.note === null ? [] : [line.note])),
    next: nextLine({ later, say, write }),
  };
}

/** A hand that turns, brushes or washes a cheese looks at it. */
const isShownByHand = (job: PlannedJob, all: readonly PlannedJob[]): boolean =>
  job.job === 'look' && all.some((one) => one.pieceId === job.pieceId && ['turn', 'brush', 'wash'].includes(one.job));

const byOrder = (a: PlaceRecord | null, b: PlaceRecord | null): number =>
  (a?.told?.order ?? 99) - (b?.told?.order ?? 99) || (a?.told?.name ?? '').localeCompare(b?.told?.name ?? '');

type Placed = { readonly piece: PieceRecord; readonly line: RoundLine };

function roundPlace(input: {
  readonly place: PlaceRecord | null;
  readonly all: readonly Placed[];
  readonly say: Say;
  readonly write: Writer;
}): RoundPlace {
  const { place, all, say, write } = input;
  const here = all
    .filter(
      ({ piece }) => (kept(piece) ?? null) === (place?.placeId ?? null) || (place === null && piece.placeId === null),
    ) // prettier-ignore
    .sort((a, b) => walk(a) - walk(b) || a.line.piece.localeCompare(b.line.piece) || hand(a) - hand(b));
  return {
    placeId: place?.placeId ?? '',
    name: place?.told?.name ?? say('ageing:noPlace'),
    line: place === null ? '' : placeLine({ place, say, write }),
    lines: here.map(({ line }) => line),
  };
}
const kept = ({ placeId }: PieceRecord): string | null => placeId;
const walk = ({ piece }: Placed): number => piece.shelf ?? 999;
const hand = ({ line }: Placed): number => HAND.indexOf(line.job);

type Asked = { readonly piece: PieceRecord; readonly today: number; readonly say: Say; readonly write: Writer };

function openLine({ job, piece, say, write, today }: Asked & { readonly job: PlannedJob }): RoundLine {
  const kind = PLAIN[job.job];
  return {
    ...lineOf({ job: job.job, piece, say, write, today }),
    remark: remarkOf({ job, say }),
    note: kind === undefined ? null : { kind, streamId: piece.pieceId, body: {} },
    doneBy: [],
  };
}

function lineOf({ job, piece, say, today }: Asked & { readonly job: CareJob }): Omit<RoundLine, 'remark' | 'note' | 'doneBy'> {
  const { made, pieceId, shelf } = piece;
  const days = today - localDayNumber(noonOf(made?.madeOn ?? ''));
  return {
    key: `${pieceId} ${job}`,
    pieceId,
    job,
    verb: say(`ageing:verb.${job}`),
    piece: made?.name ?? '',
    about: say('ageing:round.about', { cheese: made?.cheese ?? '', count: days }),
    shelf: shelf === null ? '' : String(shelf),
  };
} // prettier-ignore

function remarkOf({ job, say }: { readonly job: PlannedJob; readonly say: Say }): string {
  if (job.cannotWait) return say('ageing:round.cannotWait');
  if (job.missed > 0) return say(`ageing:missed.${job.job}`, { count: job.missed });
  return job.moved === null ? '' : say(`ageing:round.moved.${job.moved}`);
}

/** What was done today and is not to be done again: it stays on the list, and a tap takes it back. */
function doneLines({ piece, today, say, write, open }: Asked & { readonly open: readonly PlannedJob[] }): Placed[] {
  const own = new Set(piece.lines.map(({ eventId }) => eventId));
  const todays = piece.done.filter(({ at, eventId }) => localDayNumber(at) === today && own.has(eventId));
  return HAND.flatMap((job) => {
    const by = todays.filter((one) => one.job === job).map(({ eventId }) => eventId);
    const isOpen = open.some((one) => one.pieceId === piece.pieceId && one.job === job);
    const isByHand = job === 'look' && todays.some((one) => one.job !== 'look' && by.includes(one.eventId));
    if (by.length === 0 || isOpen || isByHand || job === 'move') return [];
    return [{ piece, line: { ...lineOf({ job, piece, say, write, today }), remark: '', note: null, doneBy: by } }];
  });
}

function nextLine(input: {
  readonly later: readonly PlannedJob[];
  readonly say: Say;
  readonly write: Writer;
}): string | null {
  const { later, say, write } = input;
  const [first] = later.filter(({ job }) => job !== 'look');
  if (first === undefined) return null;
  const counts = new Map<CareJob, number>();
  for (const { job, day } of later)
    if (day === first.day && job !== 'look') counts.set(job, (counts.get(job) ?? 0) + 1);
  const jobs = [...counts].map(([job, count]) => say('ageing:feed.count', { job: say(`ageing:job.${job}`), count })).join(', '); // prettier-ignore
  return say('ageing:round.next', { day: write.day(noonOf(dayText(first.day))), jobs });
}
