/** What a calibration looks at: each quantity in a member's run, and the band of it that the forecast shows. */
import type { Course } from '../../src/forecast/course.ts';
import type { BandQuantity, Forecast } from '../../src/forecast/forecast.ts';
import {
  FIGURE_AT,
  TRACE_EVERY_MIN,
  TRACE_POINTS,
  TRACED,
  type Figure,
  type MemberRun,
} from '../../src/forecast/run.ts';

export interface Quantity {
  readonly id: string;
  readonly name: string;
  readonly unit: string;
  /** In one run; NaN where it has none, or where it is past and known. */
  readonly of: (run: MemberRun, course: Course) => number;
  readonly shown: (forecast: Forecast, course: Course) => { readonly p5: number; readonly p95: number };
}

const HOUR_AHEAD_MIN = 60;

const stepEnd = (verb: 'set' | 'restToAcid'): Pick<Quantity, 'of' | 'shown'> => {
  const at = (course: Course): number => course.steps.findLastIndex((step) => step.verb === verb);
  return {
    of: (run, course) => (course.steps[at(course)]?.endedMin === null ? (run.endMin[at(course)] ?? NaN) : NaN),
    shown: (forecast, course) => forecast.steps[at(course)]?.endMin ?? { p5: NaN, p95: NaN },
  };
};

const anHourOn = (quantity: BandQuantity): Pick<Quantity, 'of' | 'shown'> => {
  const point = (course: Course): number => Math.round((course.nowMin + HOUR_AHEAD_MIN) / TRACE_EVERY_MIN);
  return {
    of: (run, course) => run.trace[TRACED.indexOf(quantity) * TRACE_POINTS + point(course)] ?? NaN,
    shown: ({ bands }, course) => ({
      p5: bands[quantity].p5[point(course)] ?? NaN,
      p95: bands[quantity].p95[point(course)] ?? NaN,
    }),
  };
};

const finished = (figure: Figure & keyof Forecast['outcome']): Pick<Quantity, 'of' | 'shown'> => ({
  of: (run) => run.figures[FIGURE_AT[figure]] ?? NaN,
  shown: ({ outcome }) => {
    const spread = outcome[figure];
    return typeof spread === 'number' ? { p5: NaN, p95: NaN } : spread;
  },
});

/** The main quantities of a make. */
export const QUANTITIES: readonly Quantity[] = [
  { id: 'ready', name: 'ready to stretch', unit: 'min', ...stepEnd('restToAcid') },
  { id: 'cut', name: 'ready to cut', unit: 'min', ...stepEnd('set') },
  { id: 'pH', name: 'pH an hour on', unit: '', ...anHourOn('pH') },
  { id: 'curd-moisture', name: 'moisture of the curd an hour on', unit: '%', ...anHourOn('curdMoisturePercent') },
  { id: 'cheese', name: 'weight of the cheese', unit: 'kg', ...finished('cheeseKg') },
  { id: 'salt', name: 'salt in the cheese', unit: '%', ...finished('saltPercent') },
];
