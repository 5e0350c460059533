import { batchBodies } from '../../../record/event.ts';
import type { Note } from '../log/event-log.ts';
import type { Entry, MainAction } from '../vat/actions.ts';
import { mainAction } from '../vat/actions.ts';
import { standingOf } from '../vat/current-step.ts';
import { pausesOf } from '../vat/get-ready.ts';
import { entriesOf } from '../vat/reading-entries.ts';
import type { PadReading } from '../pad/pad-screen.tsx';
import { tellingOf, type PotsInput, type PotSeen } from './pot-seen.ts';

/** What happens in all pots: the action that each stands before, or one value read for all. */
export type Together =
  | { readonly kind: 'main'; readonly stepId: string; readonly label: string }
  | { readonly kind: 'reading'; readonly reading: PadReading };

/** What is wanted of the reader's words. */
type Words = Pick<PotsInput, 'say' | 'write'>;

/** The main action of a pot, as if pressed at a moment; null where it has none. */
function mainAt(pot: PotSeen, at: number, words: Words): MainAction | null {
  const { record, plan, forecast } = pot;
  const telling = tellingOf({ ...words, nowAt: at }, pot);
  const standing = standingOf({ record, plan });
  const pauses = pausesOf({ plan, forecast, nowAt: at, telling });
  return mainAction({ standing, plan, record, pauses, nowAt: at, telling });
}

/** A pot whose start is planned so far ahead does not begin with those that begin now. Our own choice. */
const DUE_MS = 15 * 60_000;

/** True where a pot has not begun and is not to begin yet. */
const isForLater = ({ record, plan }: PotSeen, nowAt: number): boolean =>
  standingOf({ record, plan }).stage === 'get-ready' && record.zeroAt > nowAt + DUE_MS;

/** Pots that stand before the same action: those that are due first, of these the action that most stand before. */
export interface Alike {
  readonly what: Extract<Together, { kind: 'main' }>;
  readonly pots: readonly PotSeen[];
}

export function alikePots(input: { readonly pots: readonly PotSeen[]; readonly nowAt: number } & Words): Alike[] {
  const found = new Map<string, { what: Alike['what']; pots: PotSeen[]; isLater: boolean }>();
  for (const pot of input.pots) {
    const main = mainAt(pot, input.nowAt, input);
    const step = standingOf(pot).step;
    if (main === null || step === null) continue;
    const isLater = isForLater(pot, input.nowAt);
    const key = `${step.id} ${main.label} ${isLater}`;
    const one = found.get(key) ?? { what: { kind: 'main' as const, stepId: step.id, label: main.label }, pots: [], isLater }; // prettier-ignore
    one.pots.push(pot);
    found.set(key, one);
  }
  // The sort is stable: of actions with as many pots, the first pot's comes first.
  return [...found.values()].sort((a, b) => Number(a.isLater) - Number(b.isLater) || b.pots.length - a.pots.length);
}

/**
 * How far apart pots came to where they stand, the first to the last: so far apart they go on, as near as one can guess.
 * @returns whole minutes from one pot to the next, 0 to 60; null where that is not known
 */
export function gapBetween(pots: readonly PotSeen[]): number | null {
  const times = pots.flatMap(({ record, plan }): number[] => {
    const { stage, startedAt } = standingOf({ record, plan });
    if (stage === 'get-ready') return [record.zeroAt];
    const ended = record.steps.reduce<number | null>((latest, step) => (step.endedAt === null ? latest : Math.max(latest ?? 0, step.endedAt)), null);
    const at = startedAt ?? ended;
    return at === null ? [] : [at];
  }); // prettier-ignore
  const [first, last] = [times[0], times.at(-1)];
  if (first === undefined || last === undefined || times.length < Math.max(2, pots.length)) return null;
  return Math.min(MOST_GAP_MIN, Math.max(0, Math.round((last - first) / 60_000 / (times.length - 1))));
}

/** Pots further apart than this are not noted together. Our own choice. */
export const MOST_GAP_MIN = 60;

/** One pot's part of what happened in all, at its own time. */
export function entriesAt(
  input: { readonly pot: PotSeen; readonly what: Together; readonly at: number } & Words,
): readonly Entry[] {
  const { pot, what, at } = input;
  if (what.kind === 'main') return mainAt(pot, at, input)?.entries ?? [];
  return entriesOf({ reading: what.reading, step: standingOf(pot).step, record: pot.record });
}

/** The first pot's time and the gap as one time a pot; milliseconds UTC. */
export function timesOf(input: {
  readonly count: number;
  readonly firstAt: number;
  readonly gapMin: number;
}): number[] {
  return Array.from({ length: input.count }, (_, index) => input.firstAt + index * input.gapMin * 60_000);
}

/** The notes of one pot, all at its time. */
export const notesAt = (input: Parameters<typeof entriesAt>[0]): Note[] =>
  entriesAt(input).map(({ kind, body }) => ({ kind, body, streamId: input.pot.potId, happenedAt: input.at }));

/** What was noted of one pot. */
export interface NotedPot {
  readonly events: readonly { readonly id: string; readonly kind: string }[];
}

/**
 * One pot's time set right: each note corrected to what it would have been then. Where that is another set of notes,
 * the old ones are taken back and the new ones noted.
 * @param input.pot as it stood before
 */
export function timeSetRight(
  input: { readonly pot: PotSeen; readonly what: Together; readonly at: number; readonly noted: NotedPot } & Words,
): Note[] {
  const { pot, at, noted } = input;
  const fresh = notesAt(input);
  const streamId = pot.potId;
  if (fresh.map(({ kind }) => kind).join() !== noted.events.map(({ kind }) => kind).join()) {
    return [
      ...noted.events.map(({ id }): Note => ({ kind: 'retracted', streamId, body: { replaces: id } })).reverse(),
      ...fresh,
    ];
  }
  return fresh.map(({ kind, body }, index): Note => {
    const replaces = noted.events[index]?.id ?? '';
    // A correction set right names the first one, and says what that should have said.
    const said = kind === 'corrected' ? batchBodies.corrected.parse(body) : { kind, body };
    return {
      kind: 'corrected',
      streamId,
      body: { replaces, kind: said.kind, body: said.body, happenedAt: Math.round(at) },
    };
  });
}
