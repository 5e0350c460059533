import type { History } from '../make/history.ts';
import type { Plan } from '../make/plan.ts';
import { evidenceOf } from './pot-evidence.ts';
import { informs, logEvidence, toldByOthers, type Bonds, type PotLines } from './pot-model.ts';
import { meansTheSame, SHARED_THINGS, type SharedThing, type Sharing } from './shares.ts';
import { DIMENSIONS, type Beliefs, type JointBeliefs } from './uncertain.ts';

/** One pot of a class or a double batch. */
export interface Pot {
  readonly id: string;
  readonly plan: Plan;
  readonly history: History;
  readonly sharing: Sharing;
  /** What the kitchen believed of it beforehand. */
  readonly beliefs?: Beliefs;
}

/** What a pot has learned from the pots beside it. */
export interface LearnedPot {
  readonly id: string;
  /** To simulate it with, its own notes on top; null where the others say nothing of it. */
  readonly beliefs: JointBeliefs | null;
  /** The pots it has learned from, the one that tells most first. */
  readonly from: readonly string[];
  /** In which thing this pot stands out from the others; null where it does not. */
  readonly odd: SharedThing | null;
  /** Things in which two pots differ and nobody can say which of them is odd; neither learns from the other there. */
  readonly unlike: readonly SharedThing[];
}

/** Chance that a pot is odd in one thing before anything is known: a slip in some thirty pots. Our own choice. */
const ODD_CHANCE = 0.03;
/** Two pots that explain a difference this nearly as well cannot be told apart: log-odds, our own choice. */
const CANNOT_TELL = 2;
/** Less than this is no learning: a share of what was known before. Our own choice. */
const LEAST_TOLD = 0.05;

/**
 * Learns from several pots together. Each uncertain input that pots share is split into a common part and each pot's own part
 * of stated size (`shares.ts`); every pot's notes are evidence on both. What the others' notes say of a pot comes back as
 * beliefs to simulate it with. A pot whose notes fit the others only if it differs in some thing (a double dose, another
 * packet) is named as odd, and nothing is learned from or for it in that thing.
 *
 * The joint model is a normal distribution over all pots' inputs with straight-line evidence (`pot-evidence.ts`), so pots may
 * come in any order; odd pots are found by comparing how well the notes are explained with and without the difference.
 *
 * @param input.seed  any integer; the same seed gives the same beliefs
 * @returns one a pot, in the order given
 */
export function learnTogether(input: { readonly pots: readonly Pot[]; readonly seed?: number }): LearnedPot[] {
  const { seed = 1 } = input;
  // One order for all sums, whatever order the pots come in: not a bit differs.
  const pots = [...input.pots].sort((a, b) => (a.id < b.id ? -1 : 1));
  const byId = new Map(pots.map((pot) => [pot.id, pot]));
  const found = pots.map((pot) => ({ id: pot.id, ...evidenceOf({ ...pot, seed }) }));
  const shares = (a: string, b: string, thing: SharedThing): boolean => {
    const [one, other] = [byId.get(a), byId.get(b)];
    if (one === undefined || other === undefined) return false;
    const name = one.sharing[thing];
    return name !== undefined && name === other.sharing[thing] && meansTheSame(thing, one.plan, other.plan);
  };
  const differing = oddPots(found, shares);
  const bonds = bondsWith(shares, differing.freed);
  return input.pots.map(({ id }) => {
    const scale = found.find((pot) => pot.id === id)?.scale;
    const telling = found
      .filter((pot) => pot.id !== id)
      .map((from) => ({ id: from.id, told: informs({ from, id, bonds }) }))
      .filter((from) => from.told > LEAST_TOLD)
      .sort((a, b) => b.told - a.told);
    const told = telling.length === 0 || scale === undefined ? null : toldByOthers({ id, pots: found, bonds });
    return {
      id,
      beliefs: told === null || scale === undefined ? null : scaled(told, scale),
      from: telling.map((from) => from.id),
      odd: SHARED_THINGS.find((thing) => differing.odd.has(keyOf(id, thing))) ?? null,
      unlike: SHARED_THINGS.filter((thing) => differing.unlike.has(keyOf(id, thing))),
    };
  });
}

const keyOf = (id: string, thing: SharedThing): string => `${thing}\n${id}`;

const bondsWith = (shares: Bonds['shares'], freed: ReadonlySet<string>): Bonds => ({
  shares,
  isFreed: (id, thing) => freed.has(keyOf(id, thing)),
});

interface Differing {
  readonly freed: ReadonlySet<string>;
  readonly odd: ReadonlySet<string>;
  readonly unlike: ReadonlySet<string>;
}

/** Frees one pot in one thing after the other, as long as that explains the notes better than chance would have it. */
function oddPots(pots: readonly PotLines[], shares: Bonds['shares']): Differing {
  const [freed, odd, unlike] = [new Set<string>(), new Set<string>(), new Set<string>()];
  const penalty = Math.log((1 - ODD_CHANCE) / ODD_CHANCE);
  const scoreWith = (extra: readonly string[]): number =>
    logEvidence(pots, bondsWith(shares, new Set([...freed, ...extra])));
  for (let round = 0; round < pots.length; round++) {
    const as = scoreWith([]);
    const candidates = pots
      .flatMap(({ id }) => SHARED_THINGS.map((thing) => ({ id, thing })))
      .filter(({ id, thing }) => !freed.has(keyOf(id, thing)))
      .filter(({ id, thing }) => pots.some((other) => other.id !== id && shares(id, other.id, thing)))
      .map((one) => ({ ...one, gain: scoreWith([keyOf(one.id, one.thing)]) - as - penalty }))
      .sort((a, b) => b.gain - a.gain);
    const [top] = candidates;
    if (top === undefined || top.gain <= 0) break;
    // Which of two things it is may not be told apart: the likelier slip, a dose, is named then.
    const isSo = (thing: SharedThing) => (one: typeof top) =>
      one.id === top.id && one.thing === thing && top.gain - one.gain < CANNOT_TELL;
    const best = SHARED_THINGS.map((thing) => candidates.find(isSo(thing))).find((one) => one !== undefined) ?? top;
    // The same difference may be told of another pot as well: then nobody can say which of the two is odd.
    const rivals = candidates.filter(
      (one) =>
        one.thing === best.thing &&
        one.id !== best.id &&
        best.gain - one.gain < CANNOT_TELL &&
        shares(one.id, best.id, best.thing),
    );
    freed.add(keyOf(best.id, best.thing));
    if (rivals.length === 0) odd.add(keyOf(best.id, best.thing));
    else for (const { id, thing } of [best, ...rivals]) unlike.add(keyOf(id, thing));
    for (const { id, thing } of rivals) freed.add(keyOf(id, thing));
  }
  return { freed, odd, unlike };
}

/** From standard units of what was believed to the general prior's. */
function scaled(
  told: { readonly mean: Float64Array; readonly covariance: Float64Array },
  scale: { readonly mean: Float64Array; readonly sd: Float64Array },
): JointBeliefs {
  const at = (values: Float64Array, d: number): number => values[d] ?? 0;
  return {
    mean: told.mean.map((value, d) => at(scale.mean, d) + at(scale.sd, d) * value),
    covariance: told.covariance.map(
      (value, i) => value * at(scale.sd, Math.floor(i / DIMENSIONS)) * at(scale.sd, i % DIMENSIONS),
    ),
  };
}
