/** Everything that a calibration measures, as it is stored. */
import { quantileSorted } from '../../src/numbers/stats.ts';
import type { ReplayedRun } from './curves.ts';
import { doJob, MOST_NOTES, rankings, type Done, type Size } from './jobs.ts';
import { OTHER_MODELS } from './otherwise.ts';
import { QUANTITIES } from './quantities.ts';
import type { Ranked, RankedMake } from './rank.ts';
import { SHARPNESS } from './sharpness.ts';
import type { Narrowed } from './sharpness-make.ts';
import { uniformityOf, type Uniformity } from './uniform.ts';

export interface QuantityResult extends Uniformity {
  readonly id: string;
  readonly makes: number;
  /** Share of truths within the members' own 90 %, and within the band that is shown. */
  readonly covered: number;
  readonly shownCovered: number;
}

/** Shares of truths within the shown bands. */
interface Coverage {
  readonly of: number;
  readonly covered: number;
}

export interface OtherModelResult {
  readonly id: string;
  readonly makes: number;
  /** Over all quantities. */
  readonly all: Coverage;
  readonly quantities: readonly (Coverage & { readonly id: string })[];
}

export interface SharpnessResult {
  readonly id: string;
  readonly makes: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  /** Mean shares of curds that do not come to it in time, before the notes and after. */
  readonly never?: { readonly before: number; readonly after: number } | undefined;
}

export interface Results extends Size {
  /** Fingerprint of the forecast's code (`model-hash.ts`). */
  readonly model: string;
  readonly quantities: readonly QuantityResult[];
  /** How the members came about, and the least effective of them. */
  readonly methods: Readonly<Record<string, number>>;
  readonly leastEffective: number;
  readonly byNotes: readonly (Coverage & { readonly notes: number })[];
  readonly otherModels: readonly OtherModelResult[];
  readonly sharpness: readonly SharpnessResult[];
  readonly replayed: readonly ReplayedRun[];
}

/** Ranks so many synthetic makes, with none to six notes in turn. */
export const rankedMakes = (of: { model: string | null; makes: number; members: number; seed: number }): RankedMake[] =>
  rankings(of)
    .map(doJob)
    .flatMap((done) => (done.kind === 'ranked' ? [done.make] : []));

const share = (all: readonly Ranked[], is: (one: Ranked) => boolean): number =>
  all.length === 0 ? 0 : all.filter(is).length / all.length;
const isWithin = ({ rank }: Ranked): boolean => rank >= 0.05 && rank <= 0.95;
const isShown = (one: Ranked): boolean => one.isShown;
const shown = (all: readonly Ranked[]): Coverage => ({ of: all.length, covered: share(all, isShown) });

export function quantityResults(ranked: readonly Ranked[]): QuantityResult[] {
  return QUANTITIES.map(({ id }) => {
    const own = ranked.filter(({ quantity }) => quantity === id);
    const covered = share(own, isWithin);
    const shownCovered = share(own, isShown);
    return { id, makes: own.length, covered, shownCovered, ...uniformityOf(own.map(({ rank }) => rank)) };
  });
}

export function otherModelResult(id: string, makes: readonly RankedMake[]): OtherModelResult {
  const ranked = makes.flatMap((make) => make.ranked);
  const quantities = QUANTITIES.map((one) => ({ id: one.id, ...shown(ranked.filter((each) => each.quantity === one.id)) }));
  return { id, makes: makes.length, all: shown(ranked), quantities };
} // prettier-ignore

export function sharpnessResult(id: string, all: readonly Narrowed[]): SharpnessResult {
  const sorted = all.map((one) => one.share).sort((a, b) => a - b);
  const [p25 = NaN, p50 = NaN, p75 = NaN] = [0.25, 0.5, 0.75].map((at) => quantileSorted(sorted, at));
  const nevers = all.flatMap(({ never }) => (never === undefined ? [] : [never]));
  const mean = (of: 'before' | 'after'): number => nevers.reduce((sum, never) => sum + never[of], 0) / nevers.length;
  const never = nevers.length === 0 ? {} : { never: { before: mean('before'), after: mean('after') } };
  return { id, makes: all.length, p25, p50, p75, ...never };
}

/** All of it, from what the jobs found. */
export function gathered(input: { model: string; size: Size; done: readonly Done[] }): Results {
  const { done } = input;
  const madeBy = (model: string | null): RankedMake[] =>
    done.flatMap((one) => (one.kind === 'ranked' && one.model === model ? [one.make] : []));
  const ranking = madeBy(null);
  const ranked = ranking.flatMap((make) => make.ranked);
  const methods: Record<string, number> = {};
  for (const { method } of ranking) methods[method] = (methods[method] ?? 0) + 1;
  const narrowed = (id: string): Narrowed[] =>
    done.flatMap((one) => (one.kind === 'sharpness' && one.id === id && one.narrowed !== null ? [one.narrowed] : []));
  return {
    model: input.model,
    ...input.size,
    quantities: quantityResults(ranked),
    methods,
    leastEffective: Math.min(...ranking.map(({ effectiveMembers }) => effectiveMembers)),
    byNotes: Array.from({ length: MOST_NOTES + 1 }, (_, notes) => ({
      notes,
      ...shown(ranked.filter((one) => one.notes === notes)),
    })),
    otherModels: OTHER_MODELS.map(({ id }) => otherModelResult(id, madeBy(id))),
    sharpness: Object.keys(SHARPNESS).map((id) => sharpnessResult(id, narrowed(id))),
    replayed: done.flatMap((one) => (one.kind === 'replayed' && one.run !== null ? [one.run] : [])),
  };
}
