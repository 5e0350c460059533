import { spanOf, type TimelineStep } from '../timeline/timeline-layout.ts';
import { standingOf } from '../vat/current-step.ts';
import { listText, type Telling } from '../vat/said.ts';
import { lastDone } from '../vat/vat-view.ts';
import { potOnClock, type PotOnClock } from './busy.ts';
import { callsOf, clashing, queueOf, type Call } from './calls.ts';
import { WALKING_ALONE } from './class-kit.ts';
import { clashLines, FIRST_TOLD, type ClashLine } from './clash-lines.ts';
import { collisionsOf, type Collision } from './collisions.ts';
import { inSentence, tellingOf, type PotSeen, type PotsInput } from './pot-seen.ts';
import { potState, type PotState } from './pot-state.ts';

const MINUTE_MS = 60_000;
const NEXT_CALLS = 3;
/** So many others are named in one line. */
const MOST_NAMED = 2;
/** So much of what is past stays on the common scale. Our own choice. */
const PAST_SHOWN_MS = 40 * MINUTE_MS;

/** One call of the queue in words: "Birch: cut the curd, 11:24". */
export interface CallLine {
  readonly call: Call;
  readonly pot: string;
  readonly verb: string;
  readonly text: string;
  /** "in 12 min", "now". */
  readonly inText: string;
  /** Who wants hands in the same minutes, or goes first; null where nobody does. */
  readonly others: string | null;
}

/** One pot's column. */
export interface Lane {
  readonly potId: string;
  readonly name: string;
  readonly state: PotState;
  /** The step it is at. */
  readonly verb: string;
  readonly last: string;
  readonly heard: string | null;
  readonly steps: readonly TimelineStep[];
  readonly clashes: readonly { readonly fromAt: number; readonly toAt: number; readonly number: number | null }[];
}

export interface PotsView {
  readonly now: readonly CallLine[];
  readonly next: readonly CallLine[];
  /** Said where nobody needs hands now. */
  readonly nobody: string | null;
  readonly clashes: readonly ClashLine[];
  /** Pairs of hands that were reckoned with. */
  readonly hands: number;
  readonly lanes: readonly Lane[];
  /** The scale that all lanes share. */
  readonly frame: { readonly fromAt: number; readonly toAt: number };
}

/** Several pots on one clock, for one moment: who is next, who clashes, and how each stands. Pure. */
export function potsView(input: PotsInput): PotsView {
  const { pots, burners, hands = WALKING_ALONE, kettles = 0, nowAt, say, write } = input;
  const told = pots.map((pot) => ({ ...pot, telling: tellingOf(input, pot) }));
  const onClock = told.flatMap(({ potId, plan, forecast, record, telling }): PotOnClock[] =>
    forecast === null
      ? []
      : [potOnClock({ potId, plan, forecast, record, zeroAt: telling.zeroAt, hasKettle: kettles > 0 })],
  );
  const planOf = new Map(pots.map(({ potId, plan }) => [potId, plan]));
  const queue = queueOf(onClock.map((pot) => callsOf({ pot, plan: planOf.get(pot.potId) ?? noPlan(), nowAt })));
  const collisions = collisionsOf({ pots: onClock, burners, hands, nowAt });
  const clashes = clashLines({ ...input, onClock, collisions });
  const line = (call: Call): CallLine => callLine({ call, queue, clashes, input });
  // A pot that is called is called for one thing at a time; that it is not the only one is plain to see.
  const now = queue
    .filter(({ isNow, potId }, index) => isNow && queue.findIndex((one) => one.isNow && one.potId === potId) === index)
    .map((call) => ({ ...line(call), others: waitsText({ call, clashes, input }) }));
  const coming = queue.filter(({ isNow }) => !isNow);
  const first = coming[0];
  return {
    now,
    next: coming.slice(0, NEXT_CALLS).map(line),
    nobody: now.length > 0 || onClock.length < pots.length ? null : first === undefined ? say('pots:queue.over') : say('pots:queue.nobodyUntil', { minutes: write.duration(Math.max(1, Math.round((first.fromAt - nowAt) / MINUTE_MS))) }), // prettier-ignore
    clashes,
    hands,
    lanes: told.map((pot) => laneOf({ pot, clashes, collisions, steps: onClock.find(({ potId }) => potId === pot.potId)?.steps ?? [], input })), // prettier-ignore
    frame: frameOf(onClock, nowAt),
  };
}

const noPlan = (): never => {
  throw new TypeError('a pot on the clock has a plan');
};

function callLine(from: {
  readonly call: Call;
  readonly queue: readonly Call[];
  readonly clashes: readonly ClashLine[];
  readonly input: PotsInput;
}): CallLine {
  const { call, queue, clashes, input } = from;
  const { pots, nowAt, say, write } = input;
  const nameOf = (id: string): string => pots.find(({ potId }) => potId === id)?.record.name ?? id;
  const [pot, verb] = [nameOf(call.potId), inSentence(call.name)];
  const minutes = Math.round((call.at - nowAt) / MINUTE_MS);
  const others = clashing(call, queue).filter(({ potId }, index, all) => all.findIndex((one) => one.potId === potId) === index); // prettier-ignore
  const named = others.slice(0, MOST_NAMED).map((other) => say('pots:queue.other', { pot: nameOf(other.potId), verb: inSentence(other.name) })); // prettier-ignore
  const more = others.length - named.length;
  const list = listText(
    [...named, ...(more > 0 ? [say('pots:queue.more', { count: more })] : [])],
    say('pots:queue.and'),
  );
  return {
    call,
    pot,
    verb,
    text: call.isNow ? say('pots:queue.nowCall', { pot, verb }) : say('pots:queue.call', { pot, verb, at: write.clock(call.at) }), // prettier-ignore
    inText: call.isNow || minutes < 1 ? say('pots:queue.sinceNow') : say('pots:queue.in', { minutes: write.duration(minutes) }), // prettier-ignore
    others:
      waitsText({ call, clashes, input }) ?? (others.length === 0 ? null : say('pots:queue.with', { others: list })),
  };
}

/** Which pot goes before this call, where somebody said so. */
function waitsText(from: {
  readonly call: Call;
  readonly clashes: readonly ClashLine[];
  readonly input: PotsInput;
}): string | null {
  const { call, clashes, input } = from;
  const before = clashes.find(({ goesFirst, collision }) => goesFirst !== null && goesFirst !== call.potId && collision.potIds.includes(call.potId) && collision.fromAt < call.toAt && collision.toAt > call.fromAt); // prettier-ignore
  const first = input.pots.find(({ potId }) => potId === before?.goesFirst);
  return first === undefined ? null : input.say('pots:queue.waits', { first: first.record.name });
}

function laneOf(from: {
  readonly pot: PotSeen & { readonly telling: Telling };
  readonly clashes: readonly ClashLine[];
  readonly collisions: readonly Collision[];
  readonly steps: readonly TimelineStep[];
  readonly input: PotsInput;
}): Lane {
  const { pot, clashes, collisions, steps, input } = from;
  const { nowAt, say, write } = input;
  const { potId, record, telling } = pot;
  const { step } = standingOf(pot);
  return {
    potId,
    name: record.name,
    state: potState({ ...pot, nowAt }),
    verb: step?.name ?? say('vat:finish.verb'),
    last: lastDone({ record, plan: pot.plan, telling }) ?? say('pots:pot.nothingYet'),
    heard: pot.heardAt === null ? null : say('pots:pot.heard', { at: write.clock(pot.heardAt) }),
    steps,
    clashes: collisions
      .filter(({ potIds }) => potIds.includes(potId))
      .map((collision) => ({ fromAt: collision.fromAt, toAt: collision.toAt, number: markOf(clashes, collision) })), // prettier-ignore
  };
}

/** The number of a clash where it stands among the first: more of them in one lane would hide each other. */
function markOf(clashes: readonly ClashLine[], collision: Collision): number | null {
  const number = clashes.find((clash) => clash.collision === collision)?.number ?? null;
  return number !== null && number <= FIRST_TOLD ? number : null;
}

/** From a little before now to the last likely end of all. */
function frameOf(pots: readonly PotOnClock[], nowAt: number): PotsView['frame'] {
  const steps = pots.flatMap((pot) => pot.steps);
  if (steps.length === 0) return { fromAt: nowAt - PAST_SHOWN_MS, toAt: nowAt + PAST_SHOWN_MS };
  const { fromAt, toAt } = spanOf(steps);
  return { fromAt: Math.max(fromAt, nowAt - PAST_SHOWN_MS), toAt };
}
