/**
 * One classical Runge-Kutta step of the acid state over a span in which the milk warms or cools. The waking up of the cells
 * and the warmth do not depend on the rest of the state, so they are worked out three times a step, not at every stage.
 */
import { rk4Work, type Rk4Work } from '../numbers/ode.ts';
import {
  ACID_STATE,
  ACID_STATE_SIZE,
  awakeShare,
  changingPlaces,
  souringRatesPerHour,
  temperatureFactor,
  type AcidConditions,
  type AcidParameters,
} from './acidification.ts';

/** Temperatures of a step, and how long it is. One object is reused: the caller overwrites its fields before each call. */
export interface AcidSpan {
  hours: number;
  startC: number;
  middleC: number;
  endC: number;
}

/** Scratch of `acidStep`; make one and reuse it. */
export interface AcidStepWork extends Rk4Work {
  /** How awake the cells were where the last step ended, and the `lnQ` that it is of: mostly where the next one starts. */
  lastLnQ: number;
  lastAwake: number;
}

/** Written out, not spread: the engine is quick with objects only where it has seen that all are alike. */
export function acidStepWork(): AcidStepWork {
  const { k1, k2, k3, k4, trial } = rk4Work(ACID_STATE_SIZE);
  return { k1, k2, k3, k4, trial, lastLnQ: 0, lastAwake: awakeShare(0) };
}

/**
 * Moves the acid state over one span, in place (kernel: no checks, no allocation): `rk4Step` over `acidRatesPerHour`, but
 * that places which do not change are left alone, and that the waking up, which asks nothing of the others, is integrated
 * on its own (the parabola through the warmth at start, middle and end).
 * @source Kutta (1901), the classical scheme, from memory
 */
export function acidStep(
  state: Float64Array,
  parameters: AcidParameters,
  conditions: AcidConditions,
  span: AcidSpan,
  work: AcidStepWork,
): void {
  const { k1, k2, k3, k4, trial } = work;
  const { culture } = parameters;
  const width = span.hours;
  const half = width / 2;
  const n = changingPlaces(conditions);
  const start = temperatureFactor(culture, span.startC);
  const middle = temperatureFactor(culture, span.middleC);
  const end = temperatureFactor(culture, span.endC);
  const lnQ = state[ACID_STATE.lnQ] ?? 0;
  const waking = (culture.growthRatePerHour * width) / 24;
  const lnQThen = lnQ + 4 * waking * (start + 4 * middle + end);
  const awakeAtStart = lnQ === work.lastLnQ ? work.lastAwake : awakeShare(lnQ);
  const awakeThen = awakeShare(lnQThen);
  const vigourMidway = middle * awakeShare(lnQ + waking * (5 * start + 8 * middle - end));
  // The first four places ask for the strength of the serum, which changes only where there is whey.
  trial[ACID_STATE.curdStrength] = state[ACID_STATE.curdStrength] ?? 1;
  souringRatesPerHour(state, k1, parameters, conditions, start * awakeAtStart, 0);
  for (let i = 0; i < n; i++) trial[i] = (state[i] ?? 0) + half * (k1[i] ?? 0);
  souringRatesPerHour(trial, k2, parameters, conditions, vigourMidway, 0);
  for (let i = 0; i < n; i++) trial[i] = (state[i] ?? 0) + half * (k2[i] ?? 0);
  souringRatesPerHour(trial, k3, parameters, conditions, vigourMidway, 0);
  for (let i = 0; i < n; i++) trial[i] = (state[i] ?? 0) + width * (k3[i] ?? 0);
  souringRatesPerHour(trial, k4, parameters, conditions, end * awakeThen, 0);
  const sixth = width / 6;
  for (let i = 0; i < n; i++) {
    state[i] = (state[i] ?? 0) + sixth * ((k1[i] ?? 0) + 2 * ((k2[i] ?? 0) + (k3[i] ?? 0)) + (k4[i] ?? 0));
  }
  state[ACID_STATE.lnQ] = lnQThen;
  work.lastLnQ = lnQThen;
  work.lastAwake = awakeThen;
}

/** How far one place of the state had come halfway through the step just made (the scheme's own curve, third order). */
export function changeToMiddle(work: Rk4Work, place: number, hours: number): number {
  const inside = (work.k2[place] ?? 0) + (work.k3[place] ?? 0);
  return (hours / 24) * (5 * (work.k1[place] ?? 0) + 4 * inside - (work.k4[place] ?? 0));
}
