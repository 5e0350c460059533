import { describe, expect, it } from 'vitest';
import { runEnsemble, type Ensemble } from './ensemble.ts';
import { AT, DIMENSIONS, type Beliefs } from './uncertain.ts';

/** Members that are nothing but their row, weighed by readings whose right answer is known without any ensemble. */
type Misfits = (row: Float64Array) => number[];
const weighedBy = (input: {
  misfits: Misfits;
  members?: number;
  seed?: number;
  beliefs?: Beliefs;
}): Ensemble<Float64Array> =>
  runEnsemble({
    members: input.members ?? 500,
    seed: input.seed ?? 1,
    beliefs: input.beliefs ?? {},
    run: (row) => {
      const innovations = Float64Array.from(input.misfits(row));
      const logLikelihood = innovations.reduce((sum, r) => sum - 0.5 * r * r, 0);
      return { result: row.slice(), logLikelihood, innovations };
    },
  });

/** Weighted mean and standard deviation of one input. */
function momentsOf(ensemble: Ensemble<Float64Array>, d: number): { mean: number; sd: number } {
  const total = ensemble.weights.reduce((sum, w) => sum + w, 0);
  const average = (of: (value: number) => number): number =>
    ensemble.results.reduce((sum, row, i) => sum + ((ensemble.weights[i] ?? 0) / total) * of(row[d] ?? 0), 0);
  const mean = average((value) => value);
  return { mean, sd: Math.sqrt(average((value) => (value - mean) ** 2)) };
}

const [a, b, untouched] = [AT.cultureActivity, AT.lag, AT.saltDiffusivity];
const at = (row: Float64Array, d: number): number => row[d] ?? 0;

describe('members weighed by what was noted', () => {
  it('are the prior while nothing is noted', () => {
    const ensemble = weighedBy({ misfits: () => [] });
    expect(ensemble.method).toBe('prior');
    expect(ensemble.effectiveMembers).toBeCloseTo(500, 6);
    expect(ensemble.rows).toHaveLength(500 * DIMENSIONS);
  });

  it('agree with the exact answer where activity and lag are read together, dull or sharp', () => {
    for (const sd of [1, 0.3, 0.05, 0.005]) {
      // Read: activity - lag = 1.5, each a standard normal number before.
      const ensemble = weighedBy({ misfits: (row) => [(1.5 - (at(row, a) - at(row, b))) / sd], members: 2000 });
      const gain = 1 / (2 + sd * sd);
      expect(momentsOf(ensemble, a).mean, `${sd}`).toBeCloseTo(1.5 * gain, 1);
      expect(momentsOf(ensemble, b).mean, `${sd}`).toBeCloseTo(-1.5 * gain, 1);
      expect(momentsOf(ensemble, a).sd, `${sd}`).toBeCloseTo(Math.sqrt(1 - gain), 1);
      expect(momentsOf(ensemble, untouched).mean, `${sd}`).toBeCloseTo(0, 1);
      expect(momentsOf(ensemble, untouched).sd, `${sd}`).toBeCloseTo(1, 1);
      expect(ensemble.effectiveMembers, `${sd}`).toBeGreaterThan(700);
    }
  });

  it('start from what the kitchen has learned', () => {
    const ensemble = weighedBy({
      misfits: (row) => [(1 - at(row, a)) / 0.2],
      beliefs: { cultureActivity: { mean: 0.6, sd: 0.4 } },
      members: 2000,
    });
    expect(momentsOf(ensemble, a).mean).toBeCloseTo(0.6 + 0.4 * (0.16 / 0.2), 1);
    expect(momentsOf(ensemble, a).sd).toBeCloseTo(Math.sqrt(0.16 * 0.2), 1);
  });

  it('keep both explanations where two fit as well', () => {
    const ensemble = weighedBy({ misfits: (row) => [(at(row, a) ** 2 - 1) / 0.1], members: 2000 });
    const total = ensemble.weights.reduce((sum, w) => sum + w, 0);
    const above = ensemble.results.reduce((sum, row, i) => sum + (at(row, a) > 0 ? (ensemble.weights[i] ?? 0) : 0), 0);
    expect(above / total).toBeGreaterThan(0.3);
    expect(above / total).toBeLessThan(0.7);
  });

  it('are moved until they differ again where few explain a curved truth, and say how many they are', () => {
    // A thin ring: no normal distribution looks like it.
    const ensemble = weighedBy({ misfits: (row) => [(Math.hypot(at(row, a), at(row, b)) - 1.5) / 0.02] });
    expect(ensemble.method).toBe('moved');
    expect(ensemble.effectiveMembers).toBeGreaterThan(10);
    expect(ensemble.effectiveMembers).toBeLessThanOrEqual(500);
    for (const row of ensemble.results) expect(Math.abs(Math.hypot(at(row, a), at(row, b)) - 1.5)).toBeLessThan(0.1);
  });

  it('come out the same for the same seed, and differ for another', () => {
    const misfits: Misfits = (row) => [(2 - at(row, a)) / 0.05];
    const [one, same, other] = [1, 1, 2].map((seed) => weighedBy({ misfits, seed }));
    expect(same?.weights).toEqual(one?.weights);
    expect(same?.rows).toEqual(one?.rows);
    expect(other?.rows).not.toEqual(one?.rows);
  });
});
