/** How a make comes out with typical milk: its aims in a stranger's kitchen, and in one that has weighed five batches. */
import { FIGURE_AT, type Figure, type MemberRun } from '../../src/forecast/run.ts';
import { membersOf, told } from '../../src/forecast/simulate.ts';
import { AT, DIMENSIONS, type JointBeliefs, type UncertainName } from '../../src/forecast/uncertain.ts';
import type { Aim, Make } from '../../src/make/make.ts';
import type { Plan } from '../../src/make/plan.ts';
import { planMake } from '../../src/make/planning.ts';
import { inverse, leastSquares } from './linear.ts';

/** One aim of a make, and how it comes out. */
export interface AimLanding {
  readonly aim: Aim;
  readonly median: number;
  readonly isInside: boolean;
  /** Of draws inside, with the beliefs of a stranger's kitchen. */
  readonly share: number;
  readonly learnedShare: number;
}

export interface Landing {
  readonly aims: readonly AimLanding[];
  /** Codes of the stops that a typical make without a meter ends with. */
  readonly stops: readonly string[];
  /** Steps that half of the draws or more never come to the end of. */
  readonly never: readonly string[];
}

/** Of draws inside each aim, once the kitchen is known by its scale and its jug; of pH too, which no scale teaches. */
export const LEARNED_SHARE = 0.8;
const LITRES = 10;
const SEED = 20261129;

/** A make in an ordinary kitchen: whole milk of its first kind, a packet and a bottle whose labels were read, no meter. */
export function typicalPlan(make: Make): Plan {
  const [species] = make.milk.species;
  const [treatment] = make.milk.treatments;
  const form = make.steps.find((step) => step.set.pieceG !== undefined)?.set.pieceG?.value ?? 0;
  const perL = make.aims.find((aim) => aim.quantity === 'cheesePerMilkKgPerL')?.aim ?? 0.1;
  // Enough for one whole piece: a wheel is not made from a third of its milk.
  const volumeL = Math.max(LITRES, Math.ceil(form / 1000 / perL));
  return planMake({
    make,
    answers: {
      milk: {
        volumeL,
        fatPercent: make.milk.fatPercent.aim,
        ...(species === undefined ? {} : { species }),
        ...(treatment === undefined ? {} : { treatment }),
      },
      culture: { packetTreatsL: volumeL },
      rennet: { form: 'liquid', strengthImcuPerMl: 200 },
    },
  });
}

/** Simulates a make as `typicalPlan` has it. */
export function landingOf({ make, draws }: { readonly make: Make; readonly draws: number }): Landing {
  const plan = typicalPlan(make);
  const stranger = membersOf({ plan, members: draws, seed: SEED });
  const forecast = told(stranger);
  const beliefs = learnedBeliefs({ rows: stranger.ensemble.rows, runs: stranger.ensemble.results });
  const learned = told(membersOf({ plan, members: draws, seed: SEED, beliefs }));
  const aims = make.aims.map((aim, index): AimLanding => {
    const at = forecast.aims.find((one) => one.aim === index);
    const median = at?.spread.p50 ?? Number.NaN;
    return {
      aim,
      median,
      isInside: median >= aim.low && median <= aim.high,
      share: at?.probability ?? 0,
      learnedShare: learned.aims.find((one) => one.aim === index)?.probability ?? 0,
    };
  });
  return {
    aims,
    stops: forecast.findings.filter((finding) => finding.severity === 'stop').map(({ code }) => code),
    never: forecast.steps.filter((step) => !Number.isFinite(step.endMin.p50)).map(({ stepId }) => stepId),
  };
}

/** True where every median is inside, enough draws of a learned kitchen are, nothing stops and nothing waits for ever. */
export const lands = ({ aims, stops, never }: Landing): boolean =>
  stops.length === 0 &&
  never.length === 0 &&
  aims.every(({ isInside, learnedShare }) => isInside && learnedShare >= LEARNED_SHARE);

/** What stays with a kitchen from batch to batch and shows in what it weighs; the milk and the day do not. */
const KITCHEN = ['wheyEnd', 'wheyRate', 'fatRecovery', 'stretchWater'] as const satisfies readonly UncertainName[];
/** What it wrote down of each batch, and how well it measures: litres of whey, kilograms of curd and of cheese. */
const WEIGHED: readonly { readonly figure: Figure; readonly scaleSd: number }[] = [
  { figure: 'wheyL', scaleSd: 0.02 }, // ln-sd of a marked jug; our own choice
  { figure: 'curdKg', scaleSd: 0.02 }, // of a kitchen scale and wet curd; our own choice
  { figure: 'cheeseKg', scaleSd: 0.02 }, // as above
];
const BATCHES = 5;

/**
 * What five batches teach, by the straight-line rule of least squares: each weight's logarithm on the kitchen's own numbers, over
 * the stranger's draws. What is left over is the milk and the day, and stands beside the error of the scale. The covariance that
 * five such batches leave does not depend on how they came out, so their means are left where they are.
 */
export function learnedBeliefs(drawn: {
  readonly rows: Float64Array;
  readonly runs: readonly MemberRun[];
}): JointBeliefs {
  const { rows, runs } = drawn;
  const size = KITCHEN.length;
  const design = runs.map((_, i) => [1, ...KITCHEN.map((name) => rows[i * DIMENSIONS + AT[name]] ?? 0)]);
  const precision = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_unused, j) => Number(i === j)),
  );
  for (const { figure, scaleSd } of WEIGHED) {
    const seen = runs.map((run) => Math.log(run.figures[FIGURE_AT[figure]] ?? Number.NaN));
    if (!seen.every(Number.isFinite)) continue;
    const { slopes, residualVariance } = leastSquares(design, seen);
    // The weights of one batch hang together by its milk: each counts for a part, so that together they count once.
    const variance = (residualVariance + scaleSd ** 2) * WEIGHED.length;
    for (const [i, row] of precision.entries()) {
      for (const j of row.keys())
        row[j] = (row[j] ?? 0) + (BATCHES * (slopes[i + 1] ?? 0) * (slopes[j + 1] ?? 0)) / variance;
    }
  }
  const posterior = inverse(precision);
  const covariance = new Float64Array(DIMENSIONS * DIMENSIONS);
  for (let i = 0; i < DIMENSIONS; i++) covariance[i * DIMENSIONS + i] = 1;
  for (const [i, a] of KITCHEN.entries()) {
    for (const [j, b] of KITCHEN.entries()) covariance[AT[a] * DIMENSIONS + AT[b]] = posterior[i]?.[j] ?? 0;
  }
  return { mean: new Float64Array(DIMENSIONS), covariance };
}
