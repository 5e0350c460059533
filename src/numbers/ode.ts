/** The classical fourth-order Runge-Kutta step, on arrays that are reused: nothing is allocated inside a loop. */

/**
 * Writes d(state)/dt into `derivative`. `stepFraction` says where inside the step the state stands: 0, 0.5 or 1, so that
 * inputs that change over the step (a temperature) can be given at the same three places.
 */
export type Rates = (state: Float64Array, derivative: Float64Array, stepFraction: number) => void;

/** Scratch arrays of one size; make one and reuse it for every step and every member. */
export interface Rk4Work {
  readonly k1: Float64Array;
  readonly k2: Float64Array;
  readonly k3: Float64Array;
  readonly k4: Float64Array;
  readonly trial: Float64Array;
}

/** Scratch for states of `size` numbers. */
export function rk4Work(size: number): Rk4Work {
  const array = () => new Float64Array(size);
  return { k1: array(), k2: array(), k3: array(), k4: array(), trial: array() };
}

/**
 * Moves `state` one step on, in place: error of order width^5 a step where the rates are smooth. Align steps with events
 * (drain, wash): a jump inside a step costs the order.
 *
 * @param step.state  changed in place
 * @param step.rates  the derivative
 * @param step.width  step [unit of time of the rates]
 * @param step.work  scratch of the same size
 * @source Kutta (1901), the classical scheme, from memory
 */
export function rk4Step(step: { state: Float64Array; rates: Rates; width: number; work: Rk4Work }): void {
  const { state, rates, width, work } = step;
  const { k1, k2, k3, k4, trial } = work;
  const n = state.length;
  const half = width / 2;
  rates(state, k1, 0);
  for (let i = 0; i < n; i++) trial[i] = (state[i] ?? 0) + half * (k1[i] ?? 0);
  rates(trial, k2, 0.5);
  for (let i = 0; i < n; i++) trial[i] = (state[i] ?? 0) + half * (k2[i] ?? 0);
  rates(trial, k3, 0.5);
  for (let i = 0; i < n; i++) trial[i] = (state[i] ?? 0) + width * (k3[i] ?? 0);
  rates(trial, k4, 1);
  const sixth = width / 6;
  for (let i = 0; i < n; i++) {
    state[i] = (state[i] ?? 0) + sixth * ((k1[i] ?? 0) + 2 * ((k2[i] ?? 0) + (k3[i] ?? 0)) + (k4[i] ?? 0));
  }
}
