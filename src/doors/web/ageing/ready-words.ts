/** When a cheese is usually eaten, and what a code says of raw milk: dates with their source, never that it is safe. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { dayNumber, dayText } from '../../../record/day-number.ts';
import type { KeptThings } from '../../../record/kept-things.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';
import { rawMilkAge, type CuringStay, type RawMilkAge } from '../../../science/eating-age.ts';
import { localDayNumber, noonOf } from './use-kept.ts';

/** "Ready 3 Feb to 20 Feb, in 12 days"; empty where the care says nothing. */
export function readyLine(input: {
  readonly piece: PieceRecord;
  readonly today: number;
  readonly say: Say;
  readonly write: Writer;
}): string {
  const { piece, today, say, write } = input;
  const window = piece.care?.readyDays;
  if (piece.made === null || window === undefined) return '';
  const madeDay = dayNumber(piece.made.madeOn);
  const [from, to] = [madeDay + Math.round(window.from), madeDay + Math.round(window.to)];
  const date = (day: number): string => write.shortDate(noonOf(dayText(day)));
  const state = today < from ? 'before' : today <= to ? 'now' : 'after';
  return say(`ageing:ready.${state}`, { from: date(from), to: date(to), count: state === 'before' ? from - today : today - to }); // prettier-ignore
}

/** The count of the US code for raw milk; null for heated milk, or where nobody said. */
export function rawAge(input: {
  readonly piece: PieceRecord;
  readonly kept: KeptThings;
  readonly today: number;
}): RawMilkAge | null {
  const { piece, kept, today } = input;
  if (piece.made?.treatment !== 'raw') return null;
  const madeDay = dayNumber(piece.made.madeOn);
  const warmth = (placeId: string | null | undefined): number | null => kept.places.get(placeId ?? '')?.temperatureC ?? null; // prettier-ignore
  const moves = [
    { day: madeDay, place: piece.made.place },
    ...piece.moves.map(({ at, place }) => ({ day: localDayNumber(at), place })),
  ];
  const stays = moves.map(({ day, place }, i): CuringStay => {
    const end = moves[i + 1]?.day ?? today;
    return { days: Math.max(0, end - day), temperatureC: warmth(place) };
  });
  return rawMilkAge({ stays });
}

/** What that count says in a sentence, with the day it is reached. */
export function rawLine(input: {
  readonly age: RawMilkAge;
  readonly today: number;
  readonly say: Say;
  readonly write: Writer;
}): string {
  const { age, today, say, write } = input;
  const day = write.date(noonOf(dayText(today + age.left)));
  const line = say(age.left > 0 ? 'ageing:raw.until' : 'ageing:raw.past', { day, counted: Math.floor(age.counted), needed: age.needed }); // prettier-ignore
  return age.tooCold > 0 ? `${line} ${say('ageing:raw.cold', { count: Math.round(age.tooCold) })}` : line;
}
