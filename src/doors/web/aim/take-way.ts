import { START, type Way } from '../../../forecast/question.ts';
import type { Adjustable } from '../../../make/adjustable.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import { isFactPath } from '../plan/draft-fields.ts';
import { typedText, withFact, type Draft } from '../plan/draft.ts';
import { localDay, localTime } from '../plan/wall-clock.ts';

const MINUTE_MS = 60_000;

/**
 * The draft with a way in it: answers where answers are asked for, changes of the make beside them. A way that is about
 * the clock keeps the start that it was found for.
 */
export function withWay(input: {
  readonly draft: Draft;
  readonly way: Way;
  readonly adjustables: readonly Adjustable[];
  readonly units: UnitSystem;
  /** The start that the way was found for; null where no aim is about the clock. */
  readonly zeroAt: number | null;
}): Draft {
  const { way, adjustables, units, zeroAt } = input;
  let { draft } = input;
  for (const { id, value, isChanged } of way.settings) {
    if (!isChanged || id === START) continue;
    const path = adjustables.find((one) => one.id === id)?.path?.join('.') ?? null;
    if (path === null) draft = { ...draft, changes: { ...draft.changes, [id]: value } };
    else if (isFactPath(path)) draft = withFact(draft, path, typedText({ path, value, units }));
  }
  if (zeroAt === null) return draft;
  const at = zeroAt + way.startShiftMin * MINUTE_MS;
  return { ...draft, clock: { mode: 'start-at', time: localTime(at), day: localDay(at) } };
}

/** One thing back to what the make says. */
export function withoutChange(draft: Draft, id: string): Draft {
  const { [id]: _gone, ...changes } = draft.changes;
  return { ...draft, changes };
}
