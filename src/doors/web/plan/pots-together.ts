import type { ClockWish } from '../../../exchange/schedule.ts';
import type { Say } from '../../../exchange/words.ts';
import type { Draft } from './draft.ts';
import { lotCodeFor } from './lot-code.ts';
import type { Opening } from './open-batch.ts';
import { localDay } from './wall-clock.ts';

const MINUTE_MS = 60_000;

/** How long after the first pot the last one begins, in ms. */
export const lastPotLagMs = ({ count, apartMin }: Draft['pots']): number => (count - 1) * apartMin * MINUTE_MS;

/** The first pot's wish: to have the last one done in time, the first must be done earlier. */
export function firstPotsWish({ clock, pots }: Pick<Draft, 'clock' | 'pots'>, at: number): ClockWish {
  return { mode: clock.mode, at: clock.mode === 'done-by' ? at - lastPotLagMs(pots) : at };
}

const TREES = ['ash', 'birch', 'cedar', 'elm', 'hazel', 'rowan', 'willow', 'yew'] as const;

/** Names of pots, in their order; those that a running pot has already come last, with a number. */
export function potNames(input: {
  readonly count: number;
  readonly taken: readonly string[];
  readonly say: Say;
}): string[] {
  const trees = TREES.map((tree) => input.say(`pots:tree.${tree}`));
  const taken = new Set(input.taken);
  const names = trees.filter((name) => !taken.has(name));
  for (let round = 2; names.length < input.count; round++) {
    names.push(...trees.map((name) => `${name} ${round}`).filter((name) => !taken.has(name)));
  }
  return names.slice(0, input.count);
}

/**
 * One plan for several pots: the same make, milk and lots, each begun some minutes after the one before.
 * @param input.id  ties them together in the record
 * @param input.taken lot codes already given
 */
export function openingsTogether(input: {
  readonly opening: Omit<Opening, 'name' | 'lotCode' | 'together'>;
  readonly pots: Draft['pots'];
  readonly names: readonly string[];
  readonly id: string;
  readonly taken: readonly string[];
}): Opening[] {
  const { opening, pots, names, id } = input;
  const taken = [...input.taken];
  return names.map((name, index) => {
    const zeroAt = opening.zeroAt + index * pots.apartMin * MINUTE_MS;
    const lotCode = lotCodeFor({ day: localDay(zeroAt), taken });
    taken.push(lotCode);
    return { ...opening, zeroAt, name, lotCode, together: { id, of: names.length, nth: index + 1 } };
  });
}
