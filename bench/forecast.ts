import { Solver } from 'odex';
import { planFor } from '../tests/makes.ts';
import { courseOf } from '../src/forecast/course.ts';
import { groundOf, inputsOf } from '../src/forecast/inputs.ts';
import { runMember } from '../src/forecast/member.ts';
import { decisionsOf } from '../src/forecast/pieces.ts';
import type { Question } from '../src/forecast/question.ts';
import { simulate } from '../src/forecast/simulate.ts';
import { solve } from '../src/forecast/solve.ts';
import { DIMENSIONS } from '../src/forecast/uncertain.ts';
import { newVat, type Vat } from '../src/forecast/vat-state.ts';
import { STEP_MIN } from '../src/forecast/step-length.ts';
import { NO_HISTORY } from '../src/make/history.ts';
import { normalHypercube } from '../src/numbers/normal.ts';
import { quantileSorted } from '../src/numbers/stats.ts';
import { acidRatesPerHour, ACID_STATE_SIZE } from '../src/science/acidification.ts';

/**
 * How long a forecast takes, warm: a whole make of about six and a half hours with 500 members (its integration step is held
 * under 0.01 pH and 0.05 K of a fine reference by `src/forecast/step-size.test.ts`), and the same members with the acid
 * equations integrated by a general ODE library instead of the fixed step.
 */
interface Timing {
  readonly p50: number;
  readonly p95: number;
  readonly runs: number;
}

function timed(input: { runs: number; warmUp: number; run: () => void }): Timing {
  for (let i = 0; i < input.warmUp; i++) input.run();
  const times = Array.from({ length: input.runs }, () => {
    const started = performance.now();
    input.run();
    return performance.now() - started;
  }).sort((a, b) => a - b);
  const rounded = (value: number): number => Math.round(value * 10) / 10;
  return { p50: rounded(quantileSorted(times, 0.5)), p95: rounded(quantileSorted(times, 0.95)), runs: input.runs };
}

const plan = planFor();
const MEMBERS = 500;

/** All members of one forecast, without bands, by the given integrator. */
function members(moveAcid?: () => (vat: Vat) => void): () => void {
  const course = courseOf({ plan, history: NO_HISTORY });
  const ground = groundOf(plan);
  const rows = normalHypercube({ members: MEMBERS, dimensions: DIMENSIONS, seed: 1 });
  const vat = newVat(inputsOf(ground, new Float64Array(DIMENSIONS)));
  if (moveAcid !== undefined) vat.moveAcid = moveAcid();
  const decisions = decisionsOf({ course, moisturePercent: 56, fatPercent: 22 });
  return () => {
    for (let i = 0; i < MEMBERS; i++) {
      const inputs = inputsOf(ground, rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS));
      runMember({ course, inputs, vat, observations: [], decisions });
    }
  };
}

/** The general library in place of the fixed step: adaptive extrapolation at its own default accuracy. */
function byLibrary(): (vat: Vat) => void {
  const solver = new Solver(ACID_STATE_SIZE);
  solver.relativeTolerance = 1e-5;
  solver.absoluteTolerance = 1e-5;
  const derivative = new Float64Array(ACID_STATE_SIZE);
  const state = new Float64Array(ACID_STATE_SIZE);
  return ({ acid, acidParameters, conditions, span }) => {
    const { hours, startC, endC } = span;
    solver.initialStepSize = hours;
    const solution = solver.solve(
      (x, y) => {
        state.set(y);
        conditions.temperatureC = startC + (x / hours) * (endC - startC);
        acidRatesPerHour(state, derivative, acidParameters, conditions);
        return Array.from(derivative);
      },
      0,
      Array.from(acid),
      hours,
    );
    acid.set(solution.y);
  };
}

/** Two aims by three free inputs, searched and verified. */
const question: Question = {
  aims: [
    { quantity: 'endMin', low: Number.NEGATIVE_INFINITY, high: 480 },
    { quantity: 'saltInMoisturePercent', low: 1.9, high: 2.8 },
  ],
  free: [{ id: 'brine-strength' }, { id: 'brine-minutes' }, { id: 'rest-warmth' }],
  probability: 0.7,
};

const results = {
  forecast500: timed({ runs: 20, warmUp: 3, run: () => simulate({ plan, members: MEMBERS }) }),
  forecast200: timed({ runs: 20, warmUp: 3, run: () => simulate({ plan, members: 200 }) }),
  solve: timed({ runs: 10, warmUp: 2, run: () => solve({ plan, answers: { milk: { volumeL: 12 } }, question }) }),
  members500: timed({ runs: 10, warmUp: 2, run: members() }),
  members500ByLibrary: timed({ runs: 3, warmUp: 1, run: members(byLibrary) }),
};

if (process.argv.includes('--json')) {
  console.log(JSON.stringify({ ...results, stepMin: STEP_MIN, unit: 'ms' }));
} else {
  console.log(`Forecast of a whole make, fixed step ${STEP_MIN} min, warm (milliseconds)\n`);
  const names: Readonly<Record<keyof typeof results, string>> = {
    forecast500: '500 members, with bands and findings',
    forecast200: '200 members, as after a reading',
    solve: 'solve: two aims by three free inputs',
    members500: '500 members, equations only',
    members500ByLibrary: 'the same by a general ODE library',
  };
  for (const [key, timing] of Object.entries(results)) {
    const name = names[key as keyof typeof results];
    console.log(
      `${name.padEnd(40)} median ${String(timing.p50).padStart(8)}   p95 ${String(timing.p95).padStart(8)}   (${timing.runs} runs)`,
    );
  }
}
