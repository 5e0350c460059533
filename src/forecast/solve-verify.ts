/** What settings really bring, counted among members that had no part in finding them. */
import { spreadOf } from '../numbers/stats.ts';
import type { Finding } from '../science/finding.ts';
import { aimValues, isMet } from './aim-values.ts';
import { equalMembers } from './bands.ts';
import { findingsOf } from './findings.ts';
import { START, type Setting, type Way } from './question.ts';
import type { Ensemble } from './ensemble.ts';
import type { MemberRun } from './run.ts';
import { membersOf } from './simulate.ts';
import { settled, type Case, type Tried } from './solve-members.ts';
import { shareOf, valuesOf, type Trials } from './solve-trials.ts';
import { needsOf, outcomeOf } from './summary.ts';

/** Members behind every probability that is told. */
export const VERIFYING = 500;

interface Verified extends Tried {
  readonly fromPrior: Ensemble<MemberRun>['fromPrior'];
}

/** Runs settings with fresh members; keeps what it ran for the cautions. */
export class Verifier {
  runs = 0;
  readonly #on: Case;
  readonly #trials: Trials;
  readonly #ran = new WeakMap<Way, Verified>();
  readonly #known = new Map<string, Way>();

  constructor(input: { readonly on: Case; readonly trials: Trials }) {
    this.#on = input.on;
    this.#trials = input.trials;
  }

  /** The way at a place of the axes; the same place with the same seed is not run again. */
  way(at: readonly number[], seed: number): Way {
    const changed = this.#trials.settingsAt(this.#trials.snapped(at));
    const key = `${seed} ${JSON.stringify(changed)}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const { [START]: shiftMin = 0, ...settings } = changed;
    const { history, beliefs } = this.#on;
    const { plan, answers } = settled(this.#on, settings);
    const { course, ground, ensemble, members } = membersOf({ plan, history, beliefs, members: VERIFYING, seed });
    const runs = equalMembers({ results: ensemble.results, weights: ensemble.weights, count: members, seed });
    this.runs += members;
    const { aims } = this.#trials;
    const values = valuesOf({ aims, tried: { course, runs }, shiftMin });
    const probability = shareOf(aims, values);
    const but = (index: number): number => shareOf(aims.filter((_, j) => j !== index), values.filter((_, j) => j !== index)); // prettier-ignore
    const way: Way = {
      settings: this.#settings(changed),
      probability,
      plusMinus: 2 * Math.sqrt(Math.max(probability * (1 - probability), 1 / runs.length) / runs.length),
      aims: aims.map((aim, index) => {
        const own = values[index] ?? new Float64Array();
        const met = own.reduce((count, value) => count + (isMet(aim, value) ? 1 : 0), 0);
        return { probability: met / own.length, others: but(index), spread: spreadOf(own) };
      }),
      endMin: spreadOf(aimValues({ course, runs, wanted: { quantity: 'endMin' } }).map((end) => end + shiftMin)),
      cheeseKg: spreadOf(aimValues({ course, runs, wanted: { quantity: 'cheeseKg' } })),
      answers,
      startShiftMin: shiftMin,
    };
    this.#known.set(key, way);
    this.#ran.set(way, { course, ground, runs, fromPrior: ensemble.fromPrior });
    return way;
  }

  #settings(changed: Readonly<Record<string, number>>): Setting[] {
    return this.#trials.axes.map(({ id, low, high, was, step }): Setting => {
      const value = changed[id] ?? was;
      const atBound = value - low < step / 2 ? 'low' : high - value < step / 2 ? 'high' : null;
      return { id, value, was, isChanged: id in changed, low, high, atBound };
    });
  }

  /** Cautions that one way has and another has not. */
  newFindings(input: { readonly from: Way; readonly to: Way }): readonly Finding[] {
    const before = new Set(this.#findings(input.from).map(({ code }) => code));
    return this.#findings(input.to).filter(({ code }) => !before.has(code));
  }

  #findings(way: Way): readonly Finding[] {
    const ran = this.#ran.get(way);
    if (ran === undefined) return [];
    return findingsOf({ ...ran, outcome: outcomeOf(ran.course, ran.runs), needs: needsOf(ran.course, ran.runs) });
  }
}
