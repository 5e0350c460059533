import { listText } from '../vat/said.ts';
import type { Note } from '../log/event-log.ts';
import type { BatchRecord } from '../../../record/batch-record.ts';
import type { PotOnClock } from './busy.ts';
import { WALKING_ALONE } from './class-kit.ts';
import { laterStarts, type Collision } from './collisions.ts';
import { inSentence, tellingOf, type PotsInput, type PotSeen } from './pot-seen.ts';

const MINUTE_MS = 60_000;
/** Seen without asking for more, and marked with their number in the lanes. Our own choice. */
export const FIRST_TOLD = 3;
/** So many clashes are told at once; further ahead they will have moved anyway. Our own choice. */
const MOST_TOLD = 12;
/** Hands that clash for less are marked in the lanes and not told. Our own choice. */
const LEAST_TOLD_MS = 2 * MINUTE_MS;
/** Of more pots than these nobody asks who goes first. */
const MOST_ASKED = 3;
/** Only for the next ones is a way out looked for. */
const MOST_SOLVED = 4;

/** Something to do about a clash, as one tap: what it notes, in whose streams. */
export interface ClashChoice {
  readonly label: string;
  readonly said: string;
  readonly notes: readonly Note[];
}

/** One clash in words, numbered as it is marked in the lanes. */
export interface ClashLine {
  readonly number: number;
  readonly collision: Collision;
  readonly text: string;
  /** The pot that was said to go first; null while nobody said. */
  readonly goesFirst: string | null;
  readonly decided: string | null;
  readonly choices: readonly ClashChoice[];
}

interface Asked extends PotsInput {
  readonly onClock: readonly PotOnClock[];
  readonly collisions: readonly Collision[];
}

/** The next clashes in words, and what can be done: a later start where a pot has not begun, or who goes first. */
export function clashLines(input: Asked): ClashLine[] {
  const { pots, burners, hands = WALKING_ALONE, collisions, onClock, nowAt, say, write } = input;
  const potOf = (id: string): PotSeen => pots.find(({ potId }) => potId === id) ?? missing(id);
  const waiting = new Set(pots.filter(({ record }) => record.steps.length === 0).map(({ potId }) => potId));
  return collisions
    .filter(isWorthTelling(nowAt))
    .slice(0, MOST_TOLD)
    .map((collision, index) => {
      const named = collision.potIds.map((id, place) => say('pots:clash.pot', { pot: potOf(id).record.name, verb: inSentence(stepName(potOf(id), collision.stepIds[place])) })); // prettier-ignore
      const list = listText(named, say('pots:queue.and'));
      const text = say(`pots:clash.${collision.kind}`, { from: write.clock(collision.fromAt), to: write.clock(Math.max(collision.toAt, collision.fromAt + MINUTE_MS)), pots: list, wanted: collision.wanted, there: burners ?? 0 }); // prettier-ignore
      const goesFirst = decidedFirst(collision, pots);
      const laters =
        index >= MOST_SOLVED ? [] : laterStarts({ collision, pots: onClock, waiting, burners, hands, nowAt });
      const because = say('pots:clash.because', { pots: list, at: write.clock(collision.fromAt) });
      const choices = [
        ...laters.map(({ potId, minutes }) => laterChoice({ pot: potOf(potId), minutes, input })),
        ...(collision.potIds.length > MOST_ASKED ? [] : collision.potIds.filter((id) => !waiting.has(id))).map((id) => firstChoice({ first: potOf(id), collision, because, input })), // prettier-ignore
      ];
      return {
        number: index + 1,
        collision,
        text,
        goesFirst,
        decided: goesFirst === null ? null : say('pots:clash.decided', { pot: potOf(goesFirst).record.name }),
        choices: goesFirst !== null || collision.potIds.length < 2 || index >= MOST_SOLVED ? [] : choices,
      };
    });
}

/** Hands that are wanted together just now are called together in the queue; and two minutes can be waited for. */
const isWorthTelling =
  (nowAt: number) =>
  ({ kind, fromAt, toAt }: Collision): boolean =>
    kind === 'burners' || (fromAt > nowAt && toAt - fromAt >= LEAST_TOLD_MS);

const missing = (id: string): never => {
  throw new TypeError(`no pot ${id}`);
};

const stepName = ({ plan }: PotSeen, stepId: string | undefined): string =>
  plan.steps.find(({ id }) => id === stepId)?.name ?? '';

function laterChoice(from: { readonly pot: PotSeen; readonly minutes: number; readonly input: Asked }): ClashChoice {
  const { pot, minutes, input } = from;
  const { say, write } = input;
  const at = tellingOf(input, pot).zeroAt + minutes * MINUTE_MS;
  const values = { pot: pot.record.name, minutes: write.duration(minutes), at: write.clock(at) };
  return {
    label: say('pots:clash.later', values),
    said: say('pots:clash.movedSaid', values),
    notes: startsAt(pot, at),
  };
}

/** A pot not begun begins at another time: its opening set right. */
export function startsAt(
  { potId, record }: { readonly potId: string; readonly record: BatchRecord },
  at: number,
): Note[] {
  const opened = record.entries.find(({ kind, retracted }) => kind === 'batchOpened' && retracted === null);
  if (opened === undefined) return [];
  const body = { ...opened.body, zeroAt: Math.round(at) };
  return [{ kind: 'corrected', streamId: potId, body: { replaces: opened.eventId, kind: 'batchOpened', body } }];
}

/** Who goes first is noted in the pots that wait: it explains why they were late. */
function firstChoice(from: {
  readonly first: PotSeen;
  readonly collision: Collision;
  readonly because: string;
  readonly input: Asked;
}): ClashChoice {
  const { first, collision, because, input } = from;
  const { say } = input;
  const pot = first.record.name;
  const others = collision.potIds.filter((id) => id !== first.potId);
  return {
    label: say('pots:clash.first', { pot }),
    said: say('pots:clash.firstSaid', { pot }),
    notes: others.map((streamId) => ({ kind: 'choiceTaken', streamId, body: { choice: say('pots:clash.choice', { pot }), because, forecastShown: { goesFirst: first.potId, steps: [...collision.stepIds].sort() } } })), // prettier-ignore
  };
}

/** The pot that a waiting one was told to let go first, for these very steps. */
function decidedFirst(collision: Collision, pots: readonly PotSeen[]): string | null {
  const steps = JSON.stringify([...collision.stepIds].sort());
  for (const { potId, record } of pots) {
    if (!collision.potIds.includes(potId)) continue;
    const said = record.choices.findLast(({ forecastShown }) => typeof forecastShown['goesFirst'] === 'string' && JSON.stringify(forecastShown['steps']) === steps); // prettier-ignore
    const first = said?.forecastShown['goesFirst'];
    if (typeof first === 'string' && collision.potIds.includes(first)) return first;
  }
  return null;
}
