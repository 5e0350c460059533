import { Solver } from 'odex';
import { planFor } from '../tests/makes.ts';
import { courseOf } from '../src/forecast/course.ts';
import { groundOf, inputsOf, type Inputs } from '../src/forecast/inputs.ts';
import { runMember } from '../src/forecast/member.ts';
import { decisionsOf } from '../src/forecast/pieces.ts';
import { DIMENSIONS } from '../src/forecast/uncertain.ts';
import { newVat, type Vat } from '../src/forecast/vat-state.ts';
import { NO_HISTORY } from '../src/make/history.ts';
import { normalHypercube } from '../src/numbers/normal.ts';
import { acidRatesPerHour, ACID_STATE_SIZE } from '../src/science/acidification.ts';
import { compare } from './comparison.ts';
import { timed, timingOf } from './timing.ts';

/** Members without bands: ours, the same in C, and by general integrators. Prints JSON. */
const MEMBERS = 500;
const plan = planFor();
const ground = groundOf(plan);
const rows = normalHypercube({ members: MEMBERS, dimensions: DIMENSIONS, seed: 1 });
const memberInputs = (i: number): Inputs => inputsOf(ground, rows.subarray(i * DIMENSIONS, (i + 1) * DIMENSIONS));

/** All members of one forecast, from milk to brined cheese, without bands, by the given integrator. */
function members(moveAcid?: () => (vat: Vat) => void): () => void {
  const course = courseOf({ plan, history: NO_HISTORY });
  const vat = newVat(inputsOf(ground, new Float64Array(DIMENSIONS)));
  if (moveAcid !== undefined) vat.moveAcid = moveAcid();
  const decisions = decisionsOf({ course, moisturePercent: 56, fatPercent: 22 });
  return () => {
    for (let i = 0; i < MEMBERS; i++) {
      runMember({ course, inputs: memberInputs(i), vat, observations: [], decisions });
    }
  };
}

/** A general library in place of the fixed step: adaptive extrapolation at its own default accuracy. */
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

const comparison = compare({
  vat: newVat(memberInputs(0)),
  members: Array.from({ length: MEMBERS }, (_, i) => memberInputs(i)),
  root: process.cwd(),
});
const members500 = timed({ runs: 20, warmUp: 3, run: members() });
// Last: once a second integrator has been seen, the engine no longer makes the most of ours.
const members500ByLibrary = timed({ runs: 3, warmUp: 1, run: members(byLibrary) });
console.log(
  JSON.stringify({
    comparison,
    members500: timingOf(members500),
    members500ByLibrary: timingOf(members500ByLibrary),
  }),
);
