import { describe, expect, it } from 'vitest';
import { MAKE_IDS, planFor, TO_DRAINED_REST, underWay } from '../../tests/makes.ts';
import { NO_HISTORY, type History } from '../make/history.ts';
import { normalHypercube } from '../numbers/normal.ts';
import { courseOf } from './course.ts';
import { groundOf, inputsOf } from './inputs.ts';
import { runMember } from './member.ts';
import { decisionsOf } from './pieces.ts';
import { TRACED, TRACE_POINTS, type MemberRun, type Traced } from './run.ts';
import { DIMENSIONS } from './uncertain.ts';
import { newVat } from './vat-state.ts';
import { STEP_MIN } from './step-length.ts';

/** The integration step against a fine reference: worst of 150 members, worst moment. */
const MEMBERS = 150;
const FINE_STEP_MIN = 0.25;

/** A make whose every step ended at a noted time: six and a half hours, states compared at the same moments. */
const CLOCKED = underWay({
  nowMin: 390,
  ended: [...TO_DRAINED_REST, ['rest-drained', 380]],
  running: 'stretch',
});

interface Worst {
  readonly pH: number;
  readonly temperatureC: number;
  /** Between the ends of steps, where the trace is a curve through few points. */
  readonly tracedPH: number;
  readonly tracedC: number;
  /** Worst but one member: a curd whose pH comes to rest just at its threshold may reach it or not. */
  readonly endMin: number;
}

function worst(input: {
  id: (typeof MAKE_IDS)[number];
  stepMin: number;
  history: History;
  kitchen?: Omit<NonNullable<Parameters<typeof planFor>[0]>, 'id'>;
}): Worst {
  const plan = planFor({ id: input.id, ...input.kitchen });
  const course = courseOf({ plan, history: input.history });
  const ground = groundOf(plan);
  const rows = normalHypercube({ members: MEMBERS, dimensions: DIMENSIONS, seed: 11 });
  const vat = newVat(inputsOf(ground, new Float64Array(DIMENSIONS)));
  const decisions = decisionsOf({ course, moisturePercent: 54, fatPercent: 22 });
  const result = { pH: 0, temperatureC: 0, tracedPH: 0, tracedC: 0, endMin: 0 };
  const ends: number[] = [];
  for (let i = 0; i < MEMBERS; i++) {
    const row = rows.slice(i * DIMENSIONS, (i + 1) * DIMENSIONS);
    const run = (stepMin: number): MemberRun =>
      runMember({ course, inputs: inputsOf(ground, row), vat, observations: [], decisions, stepMin });
    const coarse = run(input.stepMin);
    const fine = run(FINE_STEP_MIN);
    const difference = (of: 'endPH' | 'endTemperatureC' | 'leftMin', s: number): number =>
      Math.abs((coarse[of][s] ?? 0) - (fine[of][s] ?? 0));
    let end = 0;
    for (let s = 0; s < course.steps.length; s++) {
      if (Number.isNaN(fine.endPH[s] ?? Number.NaN)) continue;
      result.pH = Math.max(result.pH, difference('endPH', s));
      result.temperatureC = Math.max(result.temperatureC, difference('endTemperatureC', s));
      end = Math.max(end, difference('leftMin', s));
    }
    ends.push(end);
    const traced = (quantity: Traced): number => {
      const from = TRACED.indexOf(quantity) * TRACE_POINTS;
      const ours = coarse.trace.subarray(from, from + TRACE_POINTS);
      return ours.reduce((most, value, p) => Math.max(most, Math.abs(value - (fine.trace[from + p] ?? 0)) || 0), 0);
    };
    result.tracedPH = Math.max(result.tracedPH, traced('pH'));
    result.tracedC = Math.max(result.tracedC, traced('temperatureC'));
  }
  result.endMin = ends.sort((a, b) => a - b).at(-2) ?? Number.NaN;
  return result;
}

describe('the integration step', () => {
  it.each(MAKE_IDS)('%s: stays under 0.01 pH and 0.05 K of a fine reference over a whole make', (id) => {
    const error = worst({ id, stepMin: STEP_MIN, history: CLOCKED });
    expect(error.pH).toBeLessThan(0.01);
    expect(error.temperatureC).toBeLessThan(0.05);
    expect(error.tracedPH).toBeLessThan(0.01);
    expect(error.tracedC).toBeLessThan(0.05);
  });

  it.each([
    ['two litres in a cold room', { milkL: 2, answers: { room: { temperatureC: 12 } } }],
    ['three times the culture', { answers: { culture: { packetFraction: 3 } } }],
    ['sixty litres with hardly any culture', { milkL: 60, answers: { culture: { packetFraction: 0.3 } } }],
  ])('stays so with %s', (_, kitchen) => {
    const error = worst({ id: 'stretched-string', stepMin: STEP_MIN, history: CLOCKED, kitchen });
    expect(error.pH).toBeLessThan(0.01);
    expect(error.temperatureC).toBeLessThan(0.05);
    expect(worst({ id: 'stretched-string', stepMin: STEP_MIN, history: NO_HISTORY, kitchen }).endMin).toBeLessThan(1);
  });

  it.each(MAKE_IDS)('%s: finds the end of every step within a minute, for all members but one', (id) => {
    const error = worst({ id, stepMin: STEP_MIN, history: NO_HISTORY });
    expect(error.pH).toBeLessThan(0.01);
    expect(error.endMin).toBeLessThan(1);
  });

  it('could not be three times as long', () => {
    const error = worst({ id: 'stretched-string', stepMin: 3 * STEP_MIN, history: NO_HISTORY });
    expect(Math.max(error.pH / 0.01, error.endMin)).toBeGreaterThan(1);
  });
});
