import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { LoggerQuantity, LoggerReading } from '../../../exchange/logger/logger-file.ts';
import { clockTicks } from '../chart/plot-layout.ts';

/** One quantity of a file against the clock of the make. */
export interface LoggerPlot {
  readonly widthPx: number;
  readonly heightPx: number;
  /** The course of all rows that fall on the make. */
  readonly course: string;
  /** What would be noted. */
  readonly kept: readonly { readonly x: number; readonly y: number }[];
  /** What the record has already. */
  readonly already: readonly { readonly x: number; readonly y: number }[];
  readonly clocks: readonly { readonly x: number; readonly at: number }[];
  readonly values: readonly { readonly y: number; readonly value: number }[];
  readonly steps: readonly { readonly x: number; readonly name: string; readonly isNamed: boolean }[];
}

const LEFT = 52;
const RIGHT = 8;
const TOP = 26;
const BOTTOM = 28;
/** Pixels that a step's name needs before the next one. */
const NAME_PX = 130;

interface Noted {
  readonly at: number;
  readonly value: number;
}

/** Scales, course, dots and the beginnings of the steps. */
export function loggerPlot(input: {
  readonly quantity: LoggerQuantity;
  readonly all: readonly LoggerReading[];
  readonly kept: readonly LoggerReading[];
  readonly already: readonly Noted[];
  readonly steps: readonly { readonly name: string; readonly startedAt: number }[];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly utcOffsetMin: number;
  readonly shown: (value: number) => number;
}): LoggerPlot {
  const { quantity, widthPx, heightPx, shown, steps, utcOffsetMin } = input;
  const of = (readings: readonly LoggerReading[]): readonly LoggerReading[] => readings.filter((one) => one.quantity === quantity); // prettier-ignore
  const all = of(input.all);
  const times = [...all, ...input.already].map(({ at }) => at).concat(steps.map(({ startedAt }) => startedAt));
  const values = [...all, ...input.already].map(({ value }) => shown(value));
  const fromAt = times.reduce((least, at) => Math.min(least, at), Infinity);
  const toAt = times.reduce((most, at) => Math.max(most, at), -Infinity);
  const low = values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  const room = quantity === 'pH' ? 0.1 : 2;
  const x = scaleLinear().domain([fromAt, Math.max(toAt, fromAt + 60_000)]).range([LEFT, widthPx - RIGHT]); // prettier-ignore
  const y = scaleLinear().domain([low - room, high + room]).nice(4).range([heightPx - BOTTOM, TOP]); // prettier-ignore
  const dot = ({ at, value }: Noted) => ({ x: x(at), y: y(shown(value)) });
  let freeFrom = -Infinity;
  return {
    widthPx,
    heightPx,
    course: line<Noted>(({ at }) => x(at), ({ value }) => y(shown(value)))([...all]) ?? '', // prettier-ignore
    kept: of(input.kept).map(dot),
    already: input.already.map(dot),
    clocks: clockTicks({ fromAt, toAt, utcOffsetMin, most: Math.max(2, Math.floor(widthPx / 90)) }).map((at) => ({ x: x(at), at })), // prettier-ignore
    values: y.ticks(4).map((value) => ({ y: y(value), value })),
    steps: steps.map(({ name, startedAt }) => {
      const at = x(startedAt);
      const isNamed = at >= freeFrom && at < widthPx - NAME_PX;
      if (isNamed) freeFrom = at + NAME_PX;
      return { x: at, name, isNamed };
    }),
  };
}
