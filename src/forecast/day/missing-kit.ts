import type { DayFinding, DayInput, DayPot } from './day.ts';
import type { Job, PotJobs } from './jobs.ts';
import { placePots } from './placing.ts';
import { scarceOf } from './profile.ts';
import { RESOURCES } from './rules.ts';

const MOST_MORE = 2; // no make wants more of one thing at once than this beyond what it has: own choice

/** What a pot lacks even with the kitchen to itself; null where it lacks nothing. */
export function missingKit(input: {
  readonly day: DayInput;
  readonly pot: DayPot;
  readonly jobs: readonly Job[];
  readonly pots: readonly PotJobs[];
}): DayFinding | null {
  const { day, pot, jobs, pots } = input;
  const scarce = scarceOf({ kit: day.kit, jobs });
  // What it is asked when: with the clock out of the way only the kit can stop it. Pupils come in their hours.
  const fromMin = day.kit.more?.fromMin ?? day.hours.fromMin ?? 0;
  const fits = (places: typeof scarce.places): boolean =>
    placePots({
      jobs,
      pots,
      scarce: { ...scarce, places },
      fromMin,
      nowMin: Number.NEGATIVE_INFINITY,
      orders: 1,
      heldBack: 0,
    }) !== null;
  if (fits(scarce.places)) return null;
  for (const resource of RESOURCES) {
    const has = scarce.places[resource];
    if (has === undefined) continue;
    for (let more = 1; more <= MOST_MORE; more++) {
      if (!fits({ ...scarce.places, [resource]: has + more })) continue;
      return { code: 'kit-missing', fields: { potId: pot.id, makeId: pot.makeId, resource, has, needs: has + more } };
    }
  }
  return { code: 'kit-missing', fields: { potId: pot.id, makeId: pot.makeId, resource: '', has: 0, needs: 0 } };
}
