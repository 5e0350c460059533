/** Everything that is kept after a make, folded from the streams of a log. */
import { type BrineRecord, foldBrine } from './brine-record.ts';
import type { Event } from './event.ts';
import { foldPiece, type PieceRecord, withAncestors } from './piece-record.ts';
import { daysAway, foldPlace, type PlaceRecord } from './place-record.ts';

export interface KeptThings {
  /** Made ones, whole and cut and gone, each with what happened to the one it was cut from. */
  readonly pieces: ReadonlyMap<string, PieceRecord>;
  readonly places: ReadonlyMap<string, PlaceRecord>;
  readonly brines: readonly BrineRecord[];
  readonly away: readonly AwayDays[];
}

/** Days when nobody is there, with the event that said so, to take it back by. */
export interface AwayDays {
  readonly from: string;
  readonly to: string;
  readonly streamId: string;
  readonly eventId: string;
}

/** A stream grows by becoming another list: each list is folded once. */
function once<Fold>(fold: (events: readonly Event[]) => Fold): (events: readonly Event[]) => Fold {
  const known = new WeakMap<readonly Event[], { readonly fold: Fold }>();
  return (events) => {
    const held = known.get(events) ?? { fold: fold(events) };
    known.set(events, held);
    return held.fold;
  };
}

const [pieceOnce, placeOnce, brineOnce, awayOnce] = [once(foldPiece), once(foldPlace), once(foldBrine), once(daysAway)];

/**
 * @param streams events by stream id, each list in any order
 * @throws EventConflictError when one id stands for two different events
 */
export function keptThings(streams: ReadonlyMap<string, readonly Event[]>): KeptThings {
  const of = (type: string): (readonly Event[])[] => [...streams].flatMap(([id, events]) => (id.startsWith(`${type}:`) ? [events] : [])); // prettier-ignore
  const made = of('piece')
    .map(pieceOnce)
    .filter((piece) => piece.made !== null);
  const byId = new Map(made.map((piece) => [piece.pieceId, piece]));
  return {
    pieces: new Map(made.map((piece) => [piece.pieceId, withAncestors(piece, byId)])),
    places: new Map(
      of('place')
        .map(placeOnce)
        .filter(({ told }) => told !== null)
        .map((place) => [place.placeId, place]),
    ),
    brines: of('brine')
      .map(brineOnce)
      .filter(({ made: began }) => began !== null)
      .sort((a, b) => (a.made?.at ?? 0) - (b.made?.at ?? 0)),
    away: of('day')
      .flatMap(awayOnce)
      .map(({ from, to, streamId, eventId }) => ({ from, to, streamId, eventId }))
      .sort((a, b) => (a.from < b.from ? -1 : 1)),
  };
}
