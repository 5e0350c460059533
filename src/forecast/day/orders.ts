import { seededRandom } from '../../numbers/random.ts';
import type { PotJobs } from './jobs.ts';

/** Orders to try: all of them while there are few, else the given one, the longest first, the shortest first, and others by chance. */
export function ordersOf(pots: readonly PotJobs[], most: number): number[][] {
  const given = pots.map((_, index) => index);
  // Pots that are the same in everything need no second order.
  const kinds = pots.map((pot) => pots.findIndex((other) => isAlike(other, pot)));
  const lengthOf = (index: number): number => pots[index]?.times.at(-1)?.end.p50 ?? 0;
  const seen = new Set<string>();
  const orders: number[][] = [];
  const add = (order: number[]): void => {
    const key = order.map((index) => kinds[index] ?? index).join();
    if (seen.has(key) || orders.length >= most) return;
    seen.add(key);
    orders.push(order);
  };
  add(given);
  add([...given].sort((a, b) => lengthOf(b) - lengthOf(a)));
  add([...given].sort((a, b) => lengthOf(a) - lengthOf(b)));
  if (pots.length <= 5) permute(given, add);
  const random = seededRandom(pots.length);
  for (let round = 0; pots.length > 5 && round < most * 2; round++) {
    const order = [...given];
    for (let i = order.length - 1; i > 0; i--) {
      const j = Math.floor(random.uniform() * (i + 1));
      [order[i], order[j]] = [order[j] ?? 0, order[i] ?? 0];
    }
    add(order);
  }
  return orders;
}

/** Two pots that differ in nothing but their name. */
export const isAlike = (a: PotJobs, b: PotJobs): boolean =>
  a.pot.steps === b.pot.steps &&
  a.pot.foreseen === b.pot.foreseen &&
  a.pot.begunAtMin === undefined &&
  b.pot.begunAtMin === undefined &&
  a.pot.keptCold === b.pot.keptCold &&
  (a.pot.ready ?? []).length === 0 &&
  (b.pot.ready ?? []).length === 0;

function permute(items: readonly number[], use: (order: number[]) => void, head: readonly number[] = []): void {
  if (items.length === 0) use([...head]);
  for (const item of items) permute(items.filter((one) => one !== item), use, [...head, item]); // prettier-ignore
}
