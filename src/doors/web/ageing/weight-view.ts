/** The weight of a piece as a drawing and in words: what it lost, what it will lose, what that rests on. */
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { WeightCurve } from '../../../exchange/ageing/piece-weight.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import { convert } from '../../../numbers/units.ts';
import type { AgedPoint } from '../../../science/ageing-learn.ts';

export interface WeightView {
  readonly left: number;
  readonly bottom: number;
  readonly plot: { readonly band: string; readonly low: string; readonly high: string; readonly fit: string; readonly median: string }; // prettier-ignore
  readonly nowX: number;
  readonly weighed: readonly { readonly x: number; readonly y: number }[];
  readonly valueTicks: readonly { readonly y: number; readonly label: string }[];
  readonly dayTicks: readonly { readonly x: number; readonly label: string; readonly anchor: 'start' | 'middle' | 'end' }[];
  readonly told: string;
  readonly rests: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
} // prettier-ignore

const DAY_MS = 86_400_000;
const LEFT = 64;
const BOTTOM = 28;
const TOP_PX = 24;
const ROWS = 8;
const TICK_PX = 84; // room for a date

/** Draws one curve. The frame is the band's own, so that a loss of a twentieth is seen. */
export function weightView(input: {
  readonly curve: WeightCurve;
  readonly now: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly say: Say;
  readonly write: Writer;
}): WeightView {
  const { curve, now, widthPx, heightPx, say, write } = input;
  const { points, weighings, startKg, fromAt } = curve;
  const lastDay = points.at(-1)?.day ?? 1;
  const lowest = Math.min(...points.map(({ p5 }) => p5), ...weighings.map(({ massKg }) => massKg));
  const x = scaleLinear().domain([0, lastDay]).range([LEFT + 4, widthPx - 10]); // prettier-ignore
  const y = scaleLinear().domain([lowest - 0.05 * (startKg - lowest) - 1e-6, startKg]).range([heightPx, TOP_PX]); // prettier-ignore
  const nowDay = Math.min(lastDay, Math.max(0, (now - fromAt) / DAY_MS));
  const lastWeighed = Math.max(0, ...weighings.map(({ day }) => day));
  const ahead = points.filter(({ day }) => day >= lastWeighed);
  const from = (list: readonly AgedPoint[], of: (point: AgedPoint) => number): string => line<AgedPoint>((point) => x(point.day), (point) => y(of(point)))([...list]) ?? ''; // prettier-ignore
  const edge = [startPoint(curve, lastWeighed), ...ahead.filter(({ day }) => day > lastWeighed)];
  const loss = (kg: number): number => (100 * (startKg - kg)) / startKg;
  const here = pointAt(points, nowDay);
  const end = points.at(-1) ?? here;
  const date = (day: number): string => write.shortDate(fromAt + day * DAY_MS);
  const latest = weighings.at(-1);
  const percentSpan = (point: AgedPoint): string => say('ageing:weight.span', { low: write.number(Math.max(0, Math.floor(10 * loss(point.p95)) / 10), 1), high: write.percent(Math.ceil(10 * loss(point.p5)) / 10, 1).text }); // prettier-ignore
  return {
    left: LEFT,
    bottom: BOTTOM,
    plot: {
      band: area<AgedPoint>((point) => x(point.day), (point) => y(point.p5), (point) => y(point.p95))(edge) ?? '',
      low: from(edge, ({ p5 }) => p5),
      high: from(edge, ({ p95 }) => p95),
      fit: from(points.filter(({ day }) => day <= lastWeighed), ({ massKg }) => massKg),
      median: from(edge, ({ massKg }) => massKg),
    },
    nowX: x(nowDay),
    weighed: weighings.map(({ day, massKg }) => ({ x: x(day), y: y(massKg) })),
    valueTicks: y.ticks(4).map((value) => ({ y: y(value), label: tickText({ value, startKg, write }) })),
    dayTicks: ticksOf(lastDay, widthPx).map((day, i, all) => ({ x: x(day), label: date(day), anchor: i === 0 ? 'start' : i === all.length - 1 && x(day) > widthPx - 40 ? 'end' : 'middle' })),
    told: [
      latest === undefined || latest.day === 0
        ? say('ageing:weight.start', { mass: write.kilograms(startKg).text, day: date(0) })
        : say('ageing:weight.lost', { mass: write.kilograms(latest.massKg).text, day: date(latest.day), percent: write.percent(loss(latest.massKg), 1).text }),
      say('ageing:weight.expected', { day: date(end.day), mass: write.kilograms(end.massKg).text, span: percentSpan(end) }),
    ].join(' '),
    rests: restsOn({ curve, say, write }),
    columns: ['day', 'expected', 'span', 'weighed'].map((name) => say(`ageing:weight.column.${name}`)),
    rows: rowsOf({ curve, now: here, lastDay, date, percentSpan, write }),
  };
} // prettier-ignore

/** From the last weighing on, the band opens from what it weighed. */
function startPoint(curve: WeightCurve, day: number): AgedPoint {
  const massKg = curve.weighings.filter((one) => one.day === day).at(-1)?.massKg ?? curve.startKg;
  return { day, massKg, p5: massKg, p95: massKg };
}

const pointAt = (points: readonly AgedPoint[], day: number): AgedPoint =>
  points.reduce((best, each) => (Math.abs(each.day - day) < Math.abs(best.day - day) ? each : best), points[0] ?? { day: 0, massKg: 0, p5: 0, p95: 0 }); // prettier-ignore

const ticksOf = (lastDay: number, widthPx: number): readonly number[] => scaleLinear().domain([0, lastDay]).ticks(Math.max(2, Math.floor((widthPx - LEFT) / TICK_PX) - 1)).filter((day) => day <= lastDay && Number.isInteger(day)); // prettier-ignore

/** Graduations as fine as the cheese is small. */
function tickText(input: { readonly value: number; readonly startKg: number; readonly write: Writer }): string {
  const { value, startKg, write } = input;
  if (write.units === 'us') return `${write.number(convert({ value, from: 'kg', to: 'lb' }), startKg < 2 ? 2 : 1)}\u202Flb`;
  return startKg < 1 ? `${write.number(1000 * value, 0)}\u202Fg` : `${write.number(value, 2)}\u202Fkg`;
} // prettier-ignore

function restsOn(input: { readonly curve: WeightCurve; readonly say: Say; readonly write: Writer }): string {
  const { curve, say, write } = input;
  const { low, high } = curve.humidity;
  const air = say('ageing:weight.air', { temperature: write.temperature(curve.temperatureC).text, low: write.number(low, 0), high: write.percent(high).text });
  const learned = curve.learnedFrom === 0 ? say('ageing:weight.unlearned') : say('ageing:weight.learned', { count: curve.learnedFrom });
  const assumed = curve.assumed.length === 0 ? '' : say('ageing:weight.assumed', { what: curve.assumed.map((one) => say(`ageing:weight.assume.${one}`)).join(', ') });
  return [air, learned, assumed].filter((words) => words !== '').join(' ');
} // prettier-ignore

function rowsOf(input: {
  readonly curve: WeightCurve;
  readonly now: AgedPoint;
  readonly lastDay: number;
  readonly date: (day: number) => string;
  readonly percentSpan: (point: AgedPoint) => string;
  readonly write: Writer;
}): string[][] {
  const { curve, lastDay, date, percentSpan, write } = input;
  const grid = Array.from({ length: ROWS + 1 }, (_, i) => pointAt(curve.points, (lastDay * i) / ROWS));
  const foreseen = grid.map((point) => ({ day: point.day, cells: [date(point.day), write.kilograms(point.massKg).text, percentSpan(point), ''] })); // prettier-ignore
  const weighed = curve.weighings.map(({ day, massKg }) => ({ day, cells: [date(day), '', '', write.kilograms(massKg).text] })); // prettier-ignore
  return [...foreseen, ...weighed].sort((a, b) => a.day - b.day).map(({ cells }) => cells);
}
