import { describe, expect, it } from 'vitest';
import { rk4Step, rk4Work } from './ode.ts';

/** Integrates y' = y cos(t) from y(0) = 1 to t = 2; exact: exp(sin 2). */
function grown(steps: number): number {
  const state = Float64Array.of(1);
  const work = rk4Work(1);
  const width = 2 / steps;
  for (let i = 0; i < steps; i++) {
    const rates = (y: Float64Array, dy: Float64Array, stepFraction: number) => {
      dy[0] = (y[0] ?? 0) * Math.cos((i + stepFraction) * width);
    };
    rk4Step({ state, rates, width, work });
  }
  return state[0] ?? Number.NaN;
}

describe('the Runge-Kutta step', () => {
  it('follows a known solution', () => {
    expect(grown(40)).toBeCloseTo(Math.exp(Math.sin(2)), 6);
  });

  it('is of fourth order: half the step, a sixteenth of the error', () => {
    const exact = Math.exp(Math.sin(2));
    const ratio = (grown(20) - exact) / (grown(40) - exact);
    expect(ratio).toBeGreaterThan(13);
    expect(ratio).toBeLessThan(19);
  });

  it('keeps what an oscillator conserves', () => {
    const state = Float64Array.of(1, 0);
    const work = rk4Work(2);
    const rates = (y: Float64Array, dy: Float64Array) => {
      dy[0] = y[1] ?? 0;
      dy[1] = -(y[0] ?? 0);
    };
    for (let i = 0; i < 1000; i++) rk4Step({ state, rates, width: 0.02, work });
    expect((state[0] ?? 0) ** 2 + (state[1] ?? 0) ** 2).toBeCloseTo(1, 8);
  });
});
