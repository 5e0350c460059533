/** The fold of one piece of cheese: what it is, where it lies, what was done to it, what became of it. */
import type { CareJob, Care } from './care-plan.ts';
import type { Event } from './event.ts';
import type { KeepingBody } from './keeping-events.ts';
import { keptLog, type Kept, type KeptLine } from './kept-log.ts';

/** One job done, and when (milliseconds UTC). */
export interface DoneJob {
  readonly job: CareJob;
  readonly at: number;
  readonly eventId: string;
}

export interface PieceWeighing {
  readonly at: number;
  readonly massKg: number;
  /** Null where it is the weight it began with, told with its making. */
  readonly eventId: string | null;
}

type Made = KeepingBody<'pieceMade'>;
type Rind = Made['rind'];

export interface PieceRecord {
  readonly pieceId: string;
  /** Null until it was made; such a piece is shown nowhere. */
  readonly made: Kept<'pieceMade'> | null;
  readonly care: Care | null;
  /** By now: wax and a bag change it. */
  readonly rind: Rind;
  readonly placeId: string | null;
  readonly shelf: number | null;
  /** Milliseconds UTC since when it lies there. */
  readonly placedAt: number | null;
  readonly weighings: readonly PieceWeighing[];
  readonly done: readonly DoneJob[];
  readonly moves: readonly Kept<'pieceMoved'>[];
  readonly looked: readonly Kept<'pieceLooked'>[];
  readonly tasted: readonly Kept<'pieceTasted'>[];
  readonly split: Kept<'pieceSplit'> | null;
  readonly ended: Kept<'pieceEnded'> | null;
  /** When it left the shelf as one, cut or gone; null while it lies there. */
  readonly goneAt: number | null;
  /** Everything that stands, oldest first. */
  readonly lines: readonly KeptLine[];
}

const JOB_OF: Readonly<Record<string, CareJob>> = {
  pieceTurned: 'turn',
  pieceBrushed: 'brush',
  pieceWashed: 'wash',
  pieceWeighed: 'weigh',
  pieceLooked: 'look',
  pieceWaxed: 'wax',
  piecePacked: 'pack',
  pieceMoved: 'move',
  pieceTasted: 'taste',
};
/** What a hand on the cheese shows by itself: whoever turns, brushes or washes it has looked at it. */
const LOOKS_TOO: ReadonlySet<CareJob> = new Set(['turn', 'brush', 'wash']);

/**
 * What is known of one piece, from its events in any order and any number of times.
 * @throws EventConflictError when one id stands for two different events
 */
export function foldPiece(events: readonly Event[]): PieceRecord {
  const { streamId, lines, told } = keptLog(events);
  const made = told('pieceMade').at(-1) ?? null;
  const moves = told('pieceMoved');
  const moved = moves.at(-1);
  // Another shelf of the same place is no move that the care asks for.
  const stayed = new Set(moves.filter(({ place }, i) => place === (moves[i - 1]?.place ?? made?.place)).map(({ eventId }) => eventId)); // prettier-ignore
  const split = told('pieceSplit').at(-1) ?? null;
  const ended = told('pieceEnded').at(-1) ?? null;
  const coats = [
    ...told('pieceWaxed').flatMap(({ at, coat }) => (coat === 'wax' || coat === 'coating' ? [{ at, rind: 'waxed' as const }] : [])),
    ...told('piecePacked').flatMap(({ at, how }) => (how === 'vacuum' ? [{ at, rind: 'vacuum' as const }] : [])),
  ].sort((a, b) => a.at - b.at); // prettier-ignore
  const first: PieceWeighing[] = made?.massKg === undefined ? [] : [{ at: made.at, massKg: made.massKg, eventId: null }]; // prettier-ignore
  const goneAt = [split?.at, ended?.at].filter((at) => at !== undefined);
  return {
    pieceId: streamId,
    made,
    care: told('pieceReplanned').at(-1)?.care ?? made?.care ?? null,
    rind: coats.at(-1)?.rind ?? made?.rind ?? 'bare',
    placeId: moved?.place ?? made?.place ?? null,
    shelf: (moved === undefined ? made?.shelf : moved.shelf) ?? null,
    placedAt: moved?.at ?? made?.at ?? null,
    weighings: [...first, ...told('pieceWeighed').map(({ at, massKg, eventId }) => ({ at, massKg, eventId }))],
    done: lines
      .filter(({ eventId }) => !stayed.has(eventId))
      .flatMap(({ kind, at, eventId }) => doneBy(kind).map((job) => ({ job, at, eventId }))),
    moves,
    looked: told('pieceLooked'),
    tasted: told('pieceTasted'),
    split,
    ended,
    goneAt: goneAt.length === 0 ? null : Math.min(...goneAt),
    lines,
  };
}

function doneBy(kind: string): readonly CareJob[] {
  const job = JOB_OF[kind];
  if (job === undefined) return [];
  return LOOKS_TOO.has(job) ? [job, 'look'] : [job];
}

/**
 * A piece with what happened to the one that it was cut from, and so on up: a half was turned when the whole was.
 * @param pieces by stream id
 */
export function withAncestors(piece: PieceRecord, pieces: ReadonlyMap<string, PieceRecord>): PieceRecord {
  const seen = new Set([piece.pieceId]);
  let done = piece.done;
  let tasted = piece.tasted;
  let moves = [...asMove(piece), ...piece.moves];
  let from = piece.made?.from;
  while (from !== undefined && !seen.has(from)) {
    seen.add(from);
    const whole = pieces.get(from);
    if (whole === undefined) break;
    const until = whole.split?.at ?? Number.POSITIVE_INFINITY;
    done = [...whole.done.filter(({ at }) => at <= until), ...done];
    tasted = [...whole.tasted.filter(({ at }) => at <= until), ...tasted];
    moves = [...asMove(whole), ...whole.moves.filter(({ at }) => at <= until), ...moves];
    from = whole.made?.from;
  }
  return done === piece.done ? piece : { ...piece, done, tasted, moves };
}

/** Where it lay from its making on, as a move. */
const asMove = ({ made }: PieceRecord): PieceRecord['moves'] =>
  made?.place === undefined ? [] : [{ place: made.place, eventId: made.eventId, at: made.at, person: made.person }];
