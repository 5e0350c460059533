import { useMemo, useState } from 'react';
import { useReader } from '../device/reader.tsx';
import { kitFor } from './class-kit.ts';
import type { PotSeen } from './pot-seen.ts';
import { potsView, type PotsView } from './pots-view.ts';
import { seenOf } from './seen-of.ts';
import type { Pot } from './use-pots.ts';

const EVERY_MS = 15_000;

/** The view of all pots, drawn anew when a record, a forecast or the quarter of a minute changes. */
export function usePotsView(input: {
  readonly pots: readonly Pot[];
  readonly burners: number | null;
  readonly nowAt: number;
}): PotsView {
  const { pots, burners, nowAt } = input;
  const { say, write } = useReader();
  const at = Math.floor(nowAt / EVERY_MS) * EVERY_MS;
  const now = pots.map(seenOf);
  const [kept, keep] = useState<readonly PotSeen[]>(now);
  const seen = keptIfSame(kept, now);
  if (seen !== kept) keep(seen);
  return useMemo(() => {
    const lastAt = seen.reduce((latest, { record }) => record.entries.reduce((newest, { loggedAt }) => Math.max(newest, loggedAt), latest), at); // prettier-ignore
    const { hands, kettles } = kitFor(seen.map(({ record }) => record));
    return potsView({ pots: seen, burners, hands, kettles, nowAt: Math.min(lastAt, at + EVERY_MS), say, write });
  }, [seen, burners, at, say, write]);
}

/** The list is new each second; what pots are drawn from mostly is not. */
function keptIfSame(before: readonly PotSeen[], now: readonly PotSeen[]): readonly PotSeen[] {
  const isSame = (one: PotSeen, other: PotSeen | undefined): boolean =>
    one.record === other?.record &&
    one.plan === other.plan &&
    one.forecast === other.forecast &&
    one.planned === other.planned &&
    one.failed === other.failed &&
    one.heardAt === other.heardAt;
  return before.length === now.length && now.every((one, index) => isSame(one, before[index])) ? before : now;
}
