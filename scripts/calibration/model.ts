/** What a calibration rests on: the code whose every change makes its results stale (`model-hash.ts`). */
export { membersOf } from '../../src/forecast/simulate.ts';
export { equalMembers, traceBands } from '../../src/forecast/bands.ts';
export { outcomeOf, stepForecasts } from '../../src/forecast/summary.ts';
