/** One piece of a calibration's work: plain data in, plain data out, so that any process may do it and none sways another. */
import { seededRandom } from '../../src/numbers/random.ts';
import { replayedRun, RUN_IDS, type ReplayedRun } from './curves.ts';
import { otherMake, OTHER_MODELS } from './otherwise.ts';
import { rankedMake, type RankedMake } from './rank.ts';
import { SHARPNESS } from './sharpness.ts';
import type { Narrowed } from './sharpness-make.ts';
import { syntheticMake, type SyntheticMake } from './synthetic.ts';

export type Job =
  | { readonly kind: 'ranked'; readonly model: string | null; readonly notes: number; readonly seed: number; readonly members: number }
  | { readonly kind: 'sharpness'; readonly id: string; readonly seed: number; readonly members: number }
  | { readonly kind: 'replayed'; readonly id: string; readonly members: number }; // prettier-ignore

export type Done =
  | { readonly kind: 'ranked'; readonly model: string | null; readonly make: RankedMake }
  /** Null where this make has no such band. */
  | { readonly kind: 'sharpness'; readonly id: string; readonly narrowed: Narrowed | null }
  | { readonly kind: 'replayed'; readonly run: ReplayedRun | null };

export const MOST_NOTES = 6;
/** Far from the makes' own seeds: the forecast must not draw what the truth drew. */
const FORECAST_SEED = 50_000_000;
const TIE_SEED = 90_000_000;

export function doJob(job: Job): Done {
  const { members } = job;
  switch (job.kind) {
    case 'ranked': {
      const { seed, notes, model } = job;
      const make = makeOf(model, { seed, notes });
      const random = seededRandom(TIE_SEED + seed);
      return { kind: 'ranked', model, make: rankedMake({ make, members, seed: FORECAST_SEED + seed, random }) };
    }
    case 'sharpness':
      return { kind: 'sharpness', id: job.id, narrowed: SHARPNESS[job.id]?.of({ seed: job.seed, members }) ?? null };
    case 'replayed':
      return { kind: 'replayed', run: replayedRun({ id: job.id, members }) };
  }
}

function makeOf(id: string | null, of: { seed: number; notes: number }): SyntheticMake {
  if (id === null) return syntheticMake(of);
  const model = OTHER_MODELS.find((one) => one.id === id);
  if (model === undefined) throw new RangeError(`model: ${id} given; one of ${OTHER_MODELS.map((one) => one.id).join(', ')}`); // prettier-ignore
  return otherMake({ model, ...of });
}

/** Makes with none to six notes in turn. */
export const rankings = (of: { model: string | null; makes: number; members: number; seed: number }): Job[] =>
  Array.from({ length: of.makes }, (_, k) => ({
    kind: 'ranked',
    model: of.model,
    notes: k % (MOST_NOTES + 1),
    seed: of.seed + k,
    members: of.members,
  }));

export interface Size {
  readonly makes: number;
  readonly members: number;
  /** Of each other model. */
  readonly otherMakes: number;
  /** Of each sharpness. */
  readonly sharpnessMakes: number;
}

/** Everything that a calibration does. */
export const jobsOf = ({ makes, members, otherMakes, sharpnessMakes }: Size): Job[] => [
  ...rankings({ model: null, makes, members, seed: 1_000_000 }),
  ...OTHER_MODELS.flatMap(({ id }, m) =>
    rankings({ model: id, makes: otherMakes, members, seed: 2_000_000 + 10_000 * m }),
  ),
  ...Object.keys(SHARPNESS).flatMap((id) =>
    Array.from({ length: sharpnessMakes }, (_, i): Job => ({ kind: 'sharpness', id, seed: 3_000_000 + i, members })),
  ),
  ...RUN_IDS.map((id): Job => ({ kind: 'replayed', id, members })),
];
