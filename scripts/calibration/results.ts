/** Everything that a calibration measures, as it is stored. */
import { seededRandom } from '../../src/numbers/random.ts';
import { replayedRuns, type ReplayedRun } from './curves.ts';
import { otherMake, OTHER_MODELS } from './otherwise.ts';
import { QUANTITIES } from './quantities.ts';
import { rankedMake, type Ranked, type RankedMake } from './rank.ts';
import { median, narrowedBySouring, SOURINGS } from './sharpness.ts';
import { narrowedAcrossDraining, narrowedByFlocculation, narrowedByStretching } from './sharpness-make.ts';
import { syntheticMake, type SyntheticMake } from './synthetic.ts';
import { uniformityOf, type Uniformity } from './uniform.ts';

const MOST_NOTES = 6;

export interface QuantityResult extends Uniformity {
  readonly id: string;
  readonly makes: number;
  /** Share of truths within the members' own 90 %, and within the band that is shown. */
  readonly covered: number;
  readonly shownCovered: number;
}

export interface Results {
  readonly model: string;
  readonly makes: number;
  readonly members: number;
  readonly quantities: readonly QuantityResult[];
  /** How the members came about, and the least effective of them. */
  readonly methods: Readonly<Record<string, number>>;
  readonly leastEffective: number;
  readonly byNotes: readonly { readonly notes: number; readonly covered: number; readonly of: number }[];
  readonly otherModels: readonly { readonly id: string; readonly makes: number; readonly covered: Readonly<Record<string, number>> }[]; // prettier-ignore
  readonly sharpness: Readonly<Record<string, number>>;
  readonly replayed: readonly ReplayedRun[];
}

/** Ranks so many synthetic makes, with none to six notes in turn. */
export function rankedMakes(input: {
  makes: number;
  members: number;
  seed: number;
  make?: (of: { seed: number; notes: number }) => SyntheticMake;
}): RankedMake[] {
  const random = seededRandom(input.seed);
  const makeOf = input.make ?? syntheticMake;
  return Array.from({ length: input.makes }, (_, k) => {
    const make = makeOf({ seed: input.seed + k, notes: k % (MOST_NOTES + 1) });
    return rankedMake({ make, members: input.members, seed: input.seed + 50_000 + k, random });
  });
}

const share = (all: readonly Ranked[], is: (one: Ranked) => boolean): number => all.filter(is).length / all.length;
const isWithin = ({ rank }: Ranked): boolean => rank >= 0.05 && rank <= 0.95;

export function quantityResults(ranked: readonly Ranked[]): QuantityResult[] {
  return QUANTITIES.map(({ id }) => {
    const own = ranked.filter(({ quantity }) => quantity === id);
    const covered = share(own, isWithin);
    const shownCovered = share(own, ({ isShown }) => isShown);
    return { id, makes: own.length, covered, shownCovered, ...uniformityOf(own.map(({ rank }) => rank)) };
  });
}

/** Runs the whole calibration. */
export function calibrated(input: {
  model: string;
  makes: number;
  members: number;
  say: (line: string) => void;
}): Results {
  const { makes, members, say } = input;
  const ranking = rankedMakes({ makes, members, seed: 1_000_000 });
  const ranked = ranking.flatMap((one) => one.ranked);
  say(`${makes} makes ranked`);
  const methods: Record<string, number> = {};
  for (const { method } of ranking) methods[method] = (methods[method] ?? 0) + 1;
  const otherModels = OTHER_MODELS.map((model, m) => {
    const make = (of: { seed: number; notes: number }): SyntheticMake => otherMake({ model, ...of });
    const others = rankedMakes({ makes: Math.ceil(makes / 6), members, seed: 2_000_000 + 10_000 * m, make });
    const covered: Record<string, number> = {};
    for (const { id, shownCovered } of quantityResults(others.flatMap((one) => one.ranked))) covered[id] = shownCovered;
    say(`${model.id}: ranked`);
    return { id: model.id, makes: others.length, covered };
  });
  const tries = Array.from({ length: Math.ceil(makes / 20) }, (_, i) => ({ seed: 3_000_000 + i, members }));
  const there = <T>(values: readonly (T | null)[]): T[] => values.filter((value): value is T => value !== null);
  const across = there(tries.map(narrowedAcrossDraining));
  const sharpness = {
    ...Object.fromEntries(
      Object.entries(SOURINGS).map(([id, souring]) => [id, median(tries.map((of) => narrowedBySouring({ souring, ...of })))]), // prettier-ignore
    ),
    flocculation: median(tries.map(narrowedByFlocculation)),
    stretching: median(there(tries.map(narrowedByStretching))),
    wheyReadTwice: median(across.map(({ whey }) => whey)),
    curdReadOnce: median(across.map(({ curd }) => curd)),
  };
  say('sharpness measured');
  return {
    model: input.model,
    makes,
    members,
    quantities: quantityResults(ranked),
    methods,
    leastEffective: Math.min(...ranking.map(({ effectiveMembers }) => effectiveMembers)),
    byNotes: Array.from({ length: MOST_NOTES + 1 }, (_, notes) => {
      const own = ranked.filter((one) => one.notes === notes);
      return { notes, covered: share(own, isWithin), of: own.length };
    }),
    otherModels,
    sharpness,
    replayed: replayedRuns(members),
  };
}
