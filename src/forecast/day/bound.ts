import { earliestOf, type Placed, type PlacingInput } from './placing.ts';
import type { Scarce } from './profile.ts';
import type { Candidate } from './program.ts';
import type { Job, PotJobs } from './jobs.ts';
import { boundInTurn } from './in-turn.ts';
import { RESOURCES } from './rules.ts';

type Part = Candidate['uses'][number];

/** A pot as one piece: only what it takes for certain, wherever its waits fall. */
export interface Piece {
  readonly pot: PotJobs;
  readonly parts: readonly Part[];
  readonly earliestMin: number;
  /** From its minute to the soonest end of its day. */
  readonly doneMin: number;
}

/**
 * The soonest that any plan of these pots could end, by what each pot takes for certain: none ends sooner than it could alone,
 * all that they want of one thing has to fit, and where there is one of something they take turns.
 */
export function boundOf(input: PlacingInput, best: Placed): number {
  const pieces = input.pots.map((pot) => pieceOf(input, pot, best));
  const alone = Math.max(input.fromMin, ...pieces.map(({ earliestMin, doneMin }) => earliestMin + doneMin));
  return Math.min(best.endMin, Math.max(alone, boundByWork(pieces, input.scarce), boundInTurn(pieces, input.scarce)));
}

/**
 * All that pots take of one thing, shared among as many as there are, fits between the soonest that any pot could begin on it
 * and the latest that one must be through with it to end its day in time.
 */
function boundByWork(pieces: readonly Piece[], scarce: Scarce): number {
  const free = pieces.filter(({ pot }) => pot.pot.begunAtMin === undefined);
  const bounds = RESOURCES.map((resource) => {
    const most =
      (scarce.places[resource] ?? Number.POSITIVE_INFINITY) + (resource === 'hands' ? (scarce.more?.hands ?? 0) : 0);
    const takers = free.map(({ parts, earliestMin, doneMin }) => {
      const own = parts.filter((part) => part.resource === resource);
      const work = own.reduce((sum, { fromMin, toMin }) => sum + toMin - fromMin, 0);
      const [from, to] = [Math.min(...own.map(({ fromMin }) => fromMin)), Math.max(...own.map(({ toMin }) => toMin))];
      return { work, head: earliestMin + from, tail: doneMin - to };
    });
    const some = takers.filter(({ work }) => work > 0);
    if (some.length === 0 || !Number.isFinite(most)) return Number.NEGATIVE_INFINITY;
    const work = some.reduce((sum, one) => sum + one.work, 0);
    return Math.min(...some.map(({ head }) => head)) + work / most + Math.min(...some.map(({ tail }) => tail));
  });
  return Math.ceil(Math.max(...bounds));
}

/** A pot's minute is that of the part of its chain from which the most is certain. */
function pieceOf(input: PlacingInput, pot: PotJobs, best: Placed): Piece {
  const chain = pot.chain.flatMap((index) => input.jobs[index] ?? []);
  const slacks = slackFrom(chain);
  const [first] = chain;
  const earliest = first === undefined ? input.fromMin : earliestOf(input, first, pot);
  const pieces = chain.map((_, anchor): Piece => {
    const parts = chain.flatMap((job, index) => certain({ job, anchor, index, slacks }));
    const done = chain.findIndex(({ doneMin }) => doneMin !== null);
    const apart = (from: number, to: number): number => (slacks.least[to] ?? 0) - (slacks.least[from] ?? 0);
    const wait = done < anchor ? (slacks.most[anchor] ?? 0) - (slacks.most[done] ?? 0) : apart(anchor, done);
    const at = best.placing.get(pot.chain[anchor] ?? -1)?.zeroMin ?? earliest;
    const doneMin = (chain[done]?.doneMin ?? 0) + (done < anchor ? -wait : wait);
    return { pot, parts, earliestMin: pot.pot.begunAtMin === undefined ? earliest + apart(0, anchor) : at, doneMin };
  });
  const sure = ({ parts }: Piece): number => parts.reduce((sum, { fromMin, toMin }) => sum + toMin - fromMin, 0);
  return pieces.reduce((most, piece) => (sure(piece) > sure(most) ? piece : most));
}

/** How long after the first of a chain each part of it comes, at the least and at the most. */
function slackFrom(chain: readonly Job[]): { readonly least: readonly number[]; readonly most: readonly number[] } {
  const [least, most]: [number[], number[]] = [[], []];
  for (const { modes } of chain) {
    const lag = modes[0]?.lag ?? { least: 0, most: 0 };
    least.push((least.at(-1) ?? 0) + lag.least);
    most.push((most.at(-1) ?? 0) + lag.most);
  }
  return { least, most };
}

/** What of a part is taken wherever it falls between its soonest and its latest, counted from the anchor's minute. */
function certain(input: {
  readonly job: Job;
  readonly anchor: number;
  readonly index: number;
  readonly slacks: { readonly least: readonly number[]; readonly most: readonly number[] };
}): Part[] {
  const { job, anchor, index, slacks } = input;
  const between = (of: readonly number[]): number => (of[index] ?? 0) - (of[anchor] ?? 0);
  const [one, other] = [between(slacks.least), between(slacks.most)];
  const [soonest, latest] = [Math.min(one, other), Math.max(one, other)];
  return (job.modes[0]?.uses ?? []).flatMap(({ resource, fromMin, toMin }) => {
    const part = { resource, fromMin: fromMin + latest, toMin: toMin + soonest };
    return part.toMin > part.fromMin ? [part] : [];
  });
}
