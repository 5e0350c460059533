import { MAKE_IDS, planFor } from '../makes.ts';
import { CAUSES } from '../../src/forecast/causes.ts';
import { ranking, type Answered, type Explanation } from '../../src/forecast/explain.ts';
import { QUESTIONS } from '../../src/forecast/explain-questions.ts';
import { weighCauses } from '../../src/forecast/explain-run.ts';
import { seededRandom } from '../../src/numbers/random.ts';
import { drawCause, failedMake, ordinaryMake } from './failed-make.ts';

/** How causes of the synthetic failures are drawn; `ordinary` makes have none. */
export type Draw = 'by-rate' | 'alike' | 'ordinary';

/** One synthetic make and where its true cause came in the ranking. */
export interface Checked {
  /** Family or cause; `nothing` for an ordinary make. */
  readonly truth: string;
  readonly hasMeter: boolean;
  readonly first: string;
  readonly firstProbability: number;
  /** Place of the truth among all hypotheses, "nothing unusual" among them; 0 is first. */
  readonly place: number;
  /** Its place among the causes alone. */
  readonly placeAmongCauses: number;
  /** The same after the best question was answered, twice. */
  readonly placeAsked: number;
  readonly verdict: Explanation['verdict'];
  readonly milliseconds: number;
}

const QUESTIONS_ASKED = 2;

/** Makes synthetic makes, explains each, and says where the truth came. The same seed gives the same makes. */
export function check(input: {
  makes: number;
  seed: number;
  draw: Draw;
  members: number;
  now?: () => number;
}): Checked[] {
  const { draw, members, now = () => 0 } = input;
  return Array.from({ length: input.makes }, (_, k) => {
    const hasMeter = k % 2 === 0;
    const plan = planFor({
      id: MAKE_IDS[(k >> 1) % 2] ?? MAKE_IDS[0],
      answers: { instruments: { pHMeter: hasMeter } },
    });
    const seed = input.seed * 100_003 + k * 7;
    const make =
      draw === 'ordinary'
        ? ordinaryMake({ plan, seed })
        : failedMake({ plan, seed, causeOf: drawCause({ plan, alike: draw === 'alike' }) });
    const from = now();
    const weighing = weighCauses({ plan, history: make.history, faults: make.faults, members });
    const told = ranking(weighing, []);
    const milliseconds = now() - from;
    const random = seededRandom(seed + 1);
    let answers: Answered = [];
    for (let asked = 0; asked < QUESTIONS_ASKED; asked++) {
      const { question } = ranking(weighing, answers);
      const known = QUESTIONS.find(({ id }) => id === question?.id);
      if (known === undefined) break;
      const yes = (make.cause === null ? undefined : known.yes[make.cause.id]) ?? known.otherwise;
      answers = [...answers, { question: known.id, answer: random.uniform() < yes ? 'yes' : 'no' }];
    }
    const truth = make.cause?.family ?? make.cause?.id ?? 'nothing';
    const [first] = told.ranked;
    return {
      truth,
      hasMeter,
      first: first?.id ?? '',
      firstProbability: first?.probability ?? 0,
      place: placeOf(told, truth, true),
      placeAmongCauses: placeOf(told, truth, false),
      placeAsked: placeOf(ranking(weighing, answers), truth, false),
      verdict: told.verdict,
      milliseconds,
    };
  });
}

function placeOf({ ranked }: Explanation, truth: string, withNothing: boolean): number {
  return ranked.filter(({ kind }) => withNothing || kind !== 'nothing').findIndex(({ id }) => id === truth);
}

/** Shares of makes whose true cause came first, and in the first three. */
export interface Shares {
  readonly makes: number;
  readonly first: number;
  readonly inThree: number;
}

export function shares(checked: readonly Checked[], place: (one: Checked) => number): Shares {
  const count = (most: number): number => checked.filter((one) => place(one) >= 0 && place(one) < most).length;
  const makes = checked.length;
  const share = (found: number): number => (makes === 0 ? 0 : Math.round((1000 * found) / makes) / 1000);
  return { makes, first: share(count(1)), inThree: share(count(3)) };
}

/**
 * The least share that so many makes may show where the goal is truly met: 19 samples in 20 lie above it (normal approximation
 * of the binomial). A small sample can only tell that a goal is clearly missed.
 */
export const leastShare = (input: { goal: number; makes: number }): number =>
  input.goal - 1.645 * Math.sqrt((input.goal * (1 - input.goal)) / input.makes);

/** What came first for each truth, most often first. */
export function confusion(checked: readonly Checked[]): Record<string, Record<string, number>> {
  const ids = ['nothing', ...new Set(CAUSES.map(({ id, family }) => family ?? id))];
  const table: Record<string, Record<string, number>> = {};
  for (const truth of ids) {
    const of = checked.filter((one) => one.truth === truth);
    if (of.length === 0) continue;
    const counts = new Map<string, number>();
    for (const { first } of of) counts.set(first, (counts.get(first) ?? 0) + 1);
    table[truth] = Object.fromEntries([...counts].sort((a, b) => b[1] - a[1]));
  }
  return table;
}

const BINS = [0, 0.3, 0.5, 0.7, 0.85, 0.95, 1.0001] as const;

/** How often the first was right, by the probability it was given. */
export function reliability(checked: readonly Checked[]): { said: number; was: number; makes: number }[] {
  return BINS.slice(1).map((high, at) => {
    const low = BINS[at] ?? 0;
    const of = checked.filter(({ firstProbability: p }) => p >= low && p < high);
    const mean = (values: number[]): number => Math.round((100 * values.reduce((sum, v) => sum + v, 0)) / Math.max(values.length, 1)) / 100; // prettier-ignore
    return {
      said: mean(of.map(({ firstProbability }) => firstProbability)),
      was: mean(of.map(({ place }) => (place === 0 ? 1 : 0))),
      makes: of.length,
    };
  });
}
