/** How a piece loses weight where it lies: its weighings, the curve they teach, and what was assumed for want of a figure. */
import type { PieceRecord, PieceWeighing } from '../../record/piece-record.ts';
import type { PlaceRecord } from '../../record/place-record.ts';
import { type AgeingInput, ageingValidity } from '../../science/ageing.ts';
import { ageingCurve, type AgedPoint, learnedLeak } from '../../science/ageing-learn.ts';
import type { Body } from '../../science/body.ts';
import { boxHumidity } from '../../science/box-humidity.ts';
import { cheeseDensityFromMoistureKgPerM3 } from '../../science/salting.ts';

const DAY_MS = 86_400_000;
const MOST_POINTS = 48; // our own choice: enough for a curve on any screen
const WHEEL_FLATNESS = 0.5; // height over diameter of a wheel nobody measured: common practice (no source)
const USUAL_C = 12; // common practice (no source)
const USUAL_HUMIDITY = { low: 75, high: 90 } as const; // common practice (no source): a cellar or a box nobody has looked into
const READ_SPAN = 5; // a household hygrometer, percentage points either way: common practice (no source)

/** What the curve rests on for want of a figure. */
export type WeightAssumption = 'size' | 'moisture' | 'temperature' | 'humidity';

export interface WeightCurve {
  /** When day 0 of the points is, milliseconds UTC: since then it lies in this place, in this rind. */
  readonly fromAt: number;
  readonly startKg: number;
  readonly points: readonly AgedPoint[];
  readonly weighings: readonly { readonly day: number; readonly massKg: number }[];
  /** Weighings after the first: they narrow the band. */
  readonly learnedFrom: number;
  /** How leaky this rind is beside the usual one of its kind. */
  readonly leakFactor: number;
  readonly humidity: { readonly low: number; readonly high: number };
  readonly temperatureC: number;
  readonly assumed: readonly WeightAssumption[];
}

/**
 * The curve of a piece from the first weighing in its present place and rind.
 * @param input.untilAt how far ahead, milliseconds UTC
 * @param input.moisturePercent of its style, where nobody measured it
 * @returns null for a piece that was never weighed
 */
export function weightCurve(input: {
  readonly piece: PieceRecord;
  readonly place: PlaceRecord | null;
  readonly untilAt: number;
  readonly moisturePercent: number;
}): WeightCurve | null {
  const { piece, place, untilAt } = input;
  const start = startOf(piece);
  if (start === null) return null;
  const dayOf = (at: number): number => Math.max(0, (at - start.at) / DAY_MS);
  const weighings = piece.weighings
    .filter(({ at }) => at >= start.at)
    .map(({ at, massKg }) => ({ day: dayOf(at), massKg: Math.min(massKg, start.massKg) }));
  const { cheese, humidity, assumed } = cheeseOf({ ...input, startKg: start.massKg });
  const learnedFrom = weighings.filter(({ day }) => day > 0).length;
  const days = Math.min(ageingValidity['days']?.high ?? 1500, Math.max(1, dayOf(untilAt)));
  const grid = Array.from({ length: MOST_POINTS + 1 }, (_, i) => (days * i) / MOST_POINTS);
  const curveAt = (relativeHumidityPercent: number): readonly AgedPoint[] => ageingCurve({ ...cheese, relativeHumidityPercent, weighings, days: grid }); // prettier-ignore
  const middle = curveAt((humidity.low + humidity.high) / 2);
  // Weighings have the air in them; before the second one its range widens the band.
  const points = learnedFrom > 0 ? middle : widened(middle, curveAt(humidity.low), curveAt(humidity.high));
  const leak = learnedLeak({ ...cheese, weighings });
  return { fromAt: start.at, startKg: start.massKg, points, weighings, learnedFrom, leakFactor: leak.factor, humidity, temperatureC: place?.temperatureC ?? cheese.temperatureC, assumed }; // prettier-ignore
}

const widened = (middle: readonly AgedPoint[], dry: readonly AgedPoint[], moist: readonly AgedPoint[]): AgedPoint[] =>
  middle.map((point, i) => ({ ...point, p5: Math.min(point.p5, dry[i]?.p5 ?? point.p5), p95: Math.max(point.p95, moist[i]?.p95 ?? point.p95) })); // prettier-ignore

/** The first weighing since it lies where it lies, in the coat it has; else the last one before. */
function startOf(piece: PieceRecord): PieceWeighing | null {
  const coats = piece.lines.filter(({ kind }) => kind === 'pieceWaxed' || kind === 'piecePacked').map(({ at }) => at);
  const since = Math.max(piece.placedAt ?? 0, ...coats);
  return piece.weighings.find(({ at }) => at >= since) ?? piece.weighings.at(-1) ?? null;
}

function cheeseOf(input: {
  readonly piece: PieceRecord;
  readonly place: PlaceRecord | null;
  readonly moisturePercent: number;
  readonly startKg: number;
}): {
  readonly cheese: AgeingInput;
  readonly humidity: { low: number; high: number };
  readonly assumed: WeightAssumption[];
} {
  const { piece, place, startKg } = input;
  const { made, rind, care } = piece;
  const stay = care?.stays.at(-1);
  const moisturePercent = made?.moisturePercent ?? input.moisturePercent;
  const body: Body = made?.body ?? usualWheel({ massKg: startKg / (made?.count ?? 1), moisturePercent });
  const temperatureC = clamp(place?.temperatureC ?? stay?.temperatureC ?? USUAL_C, 1, 25);
  const { range, isRead } = humidityOf(place);
  const assumed: WeightAssumption[] = [
    ...(made?.body === undefined ? (['size'] as const) : []),
    ...(made?.moisturePercent === undefined ? (['moisture'] as const) : []),
    ...(place?.temperatureC == null ? (['temperature'] as const) : []),
    ...(isRead ? [] : (['humidity'] as const)),
  ];
  // Several that lie together are weighed together: as many surfaces, so the sizes of one and the mass of one.
  const cheese = { massKg: startKg, body: scaled(body, made?.count ?? 1), moisturePercent, temperatureC, relativeHumidityPercent: (range.low + range.high) / 2, rind }; // prettier-ignore
  return { cheese, humidity: range, assumed };
}

/** A reading, else what is seen in the box, else a cellar's usual range. */
function humidityOf(place: PlaceRecord | null): { range: { low: number; high: number }; isRead: boolean } {
  const read = place?.humidityPercent ?? null;
  if (read !== null) return { range: { low: Math.max(40, read - READ_SPAN), high: Math.min(100, read + READ_SPAN) }, isRead: true }; // prettier-ignore
  if (place !== null && (place.box !== null || place.droplets != null)) {
    const { low, high } = boxHumidity({ ...place.box, droplets: place.droplets ?? null, temperatureC: place.temperatureC }); // prettier-ignore
    return { range: { low: Math.max(40, low), high }, isRead: true };
  }
  return { range: USUAL_HUMIDITY, isRead: false };
}

function usualWheel(input: { readonly massKg: number; readonly moisturePercent: number }): Body {
  const volumeM3 = input.massKg / cheeseDensityFromMoistureKgPerM3(input.moisturePercent);
  const diameterMm = 1000 * Math.cbrt((4 * volumeM3) / (Math.PI * WHEEL_FLATNESS));
  return { shape: 'cylinder', mm: [diameterMm, WHEEL_FLATNESS * diameterMm] };
}

/** One body with the surface of so many: areas add, and area goes with the square of the size. */
const scaled = (body: Body, count: number): Body =>
  count === 1 ? body : { ...body, mm: body.mm.map((mm) => mm * Math.sqrt(count)) };

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
