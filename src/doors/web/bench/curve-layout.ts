import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { Curve, CurvePoint, PlotView } from './plot-view.ts';

export interface DrawnCurve {
  readonly label: string;
  readonly path: string;
  /** Empty without a band. */
  readonly band: string;
  readonly low: string;
  readonly high: string;
  /** Where its name stands: at the end of the line, moved so that names do not lie on each other. */
  readonly labelY: number;
  readonly dash: string;
}
export interface CurveLayout {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly xTicks: readonly number[];
  readonly yTicks: readonly number[];
  readonly curves: readonly DrawnCurve[];
}

const LABEL_PX = 18;
/** Lines are told apart by their names and their dashes, not by colour. */
const DASHES = ['', '10 5', '2 4', '12 4 2 4'];

/** Scales and paths of a sum's plot. */
export function curveLayout(input: {
  readonly view: Pick<PlotView, 'curves' | 'marks' | 'aims'>;
  readonly widthPx: number;
  readonly heightPx: number;
}): CurveLayout {
  const { view, widthPx, heightPx } = input;
  const points = view.curves.flatMap((curve) => curve.points);
  const xs = [...points.map((point) => point.x), ...view.marks.map((mark) => mark.x)];
  const ys = [
    ...points.flatMap((point) => [point.y, point.low ?? point.y, point.high ?? point.y]),
    ...view.marks.map((mark) => mark.y),
    ...view.aims,
  ];
  const x = scaleLinear()
    .domain([Math.min(...xs), Math.max(...xs)])
    .range([0, widthPx]);
  const y = scaleLinear()
    .domain(widened(Math.min(...ys), Math.max(...ys)))
    .nice(5)
    .range([heightPx, 0]);
  const drawn = view.curves.map((curve, index) => draw({ curve, x, y, dash: DASHES[index % DASHES.length] ?? '' }));
  return {
    x,
    y,
    xTicks: x.ticks(Math.max(2, Math.floor(widthPx / 80))),
    yTicks: y.ticks(5),
    curves: apart(drawn, heightPx),
  };
}

const widened = (low: number, high: number): [number, number] =>
  high - low < 1e-9 ? [low - 0.5, high + 0.5] : [low, high];

function draw(input: {
  readonly curve: Curve;
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly dash: string;
}): DrawnCurve {
  const { curve, x, y, dash } = input;
  const hasBand = (point: CurvePoint): boolean => point.low !== null && point.high !== null;
  const along = (value: (point: CurvePoint) => number) =>
    line<CurvePoint>(
      (point) => x(point.x),
      (point) => y(value(point)),
    );
  const band = area<CurvePoint>(
    (point) => x(point.x),
    (point) => y(point.low ?? point.y),
    (point) => y(point.high ?? point.y),
  ).defined(hasBand);
  const banded = curve.points.filter(hasBand);
  return {
    label: curve.label,
    path: along((point) => point.y)(curve.points) ?? '',
    band: banded.length < 2 ? '' : (band(curve.points) ?? ''),
    low: banded.length < 2 ? '' : (along((point) => point.low ?? point.y)(banded) ?? ''),
    high: banded.length < 2 ? '' : (along((point) => point.high ?? point.y)(banded) ?? ''),
    labelY: y(curve.points.at(-1)?.y ?? 0),
    dash,
  };
}

/** Names at least a line apart, in the order of the lines' ends. */
function apart(curves: readonly DrawnCurve[], heightPx: number): DrawnCurve[] {
  let free = 0;
  const placed = [...curves]
    .sort((a, b) => a.labelY - b.labelY)
    .map((curve) => {
      const labelY = Math.max(curve.labelY, free);
      free = labelY + LABEL_PX;
      return { ...curve, labelY };
    });
  const over = Math.max(0, free - LABEL_PX - heightPx);
  return placed.map((curve) => ({ ...curve, labelY: curve.labelY - over }));
}
