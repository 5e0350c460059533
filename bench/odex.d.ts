/** The part of the general ODE library (package `odex`) that the bench uses; the package carries no declarations of its own. */
export class Solver {
  constructor(dimensions: number);
  relativeTolerance: number;
  absoluteTolerance: number;
  initialStepSize: number;
  solve(
    derivative: (x: number, y: number[]) => number[],
    from: number,
    start: number[],
    to: number,
  ): { y: number[]; nEval: number };
}
