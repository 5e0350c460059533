/** What cutting a cheese notes: its end as one, and each part as a cheese with its past, its care and its place. */
import { readTyped } from '../../../exchange/typed-quantity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Say } from '../../../exchange/words.ts';
import type { KeepingBody } from '../../../record/keeping-events.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import type { Note } from '../log/event-log.ts';

const MOST_PARTS = 50;
const GAIN_ALLOWED = 1.02; // our own choice: more than the whole by two in a hundred is a slip of the scale

/**
 * The notes, all of one go; null where the number of parts or a weight cannot be.
 * @param input.masses as typed, blank for what nobody weighed
 */
export function splitNotes(input: {
  readonly piece: PieceRecord;
  readonly count: number;
  readonly masses: readonly string[];
  readonly today: number;
  readonly units: UnitSystem;
  readonly say: Say;
  readonly newStreamId: (type: 'piece') => string;
}): readonly Omit<Note, 'kinds'>[] | null {
  const { piece, count, units, say, newStreamId } = input;
  const { made, care, pieceId } = piece;
  if (made === null || care === null || !Number.isInteger(count) || count < 2 || count > MOST_PARTS) return null;
  const masses = Array.from({ length: count }, (_, i) => massOf(input.masses[i] ?? '', units));
  if (masses.includes(null)) return null;
  const known = masses.flatMap((mass) => mass ?? []);
  const wholeKg = piece.weighings.at(-1)?.massKg ?? null;
  if (wholeKg !== null && known.reduce((sum, mass) => sum + mass, 0) > GAIN_ALLOWED * wholeKg) return null;
  const parts = masses.map((massKg) => ({ piece: newStreamId('piece'), ...(massKg == null ? {} : { massKg }) }));
  const { eventId: _event, at: _at, person: _person, massKg: _mass, body: _body, count: _count, ...rest } = made;
  const heirs = parts.map(({ piece: streamId, massKg }, i): Omit<Note, 'kinds'> => {
    const body: KeepingBody<'pieceMade'> = {
      ...rest,
      name: partName({ name: made.name, nth: i, count, say }),
      from: pieceId,
      rind: piece.rind,
      care,
      ...(massKg === undefined ? {} : { massKg }),
      ...(piece.placeId === null ? {} : { place: piece.placeId }),
      ...(piece.shelf === null ? {} : { shelf: piece.shelf }),
    };
    return { kind: 'pieceMade', streamId, body };
  });
  return [{ kind: 'pieceSplit', streamId: pieceId, body: { into: parts } }, ...heirs];
}

/** Kilograms of what was typed; undefined where it is blank, null where it is no weight. */
function massOf(text: string, units: UnitSystem): number | null | undefined {
  if (text.trim() === '') return undefined;
  const read = readTyped({ text, field: 'massKg', unit: units === 'us' ? 'lb' : 'kg', into: 'kg' });
  return 'problem' in read || !(read.value > 0) ? null : read.value;
}

/** "Wheel 3, half a", "Wheel 3, part 5". */
function partName(input: { readonly name: string; readonly nth: number; readonly count: number; readonly say: Say }): string {
  const { name, nth, count, say } = input;
  const letter = String.fromCodePoint(A + nth);
  return count === 2 ? say('ageing:split.half', { name, letter }) : say('ageing:split.part', { name, nth: nth + 1 });
} // prettier-ignore
const A = 97; // the letter a
