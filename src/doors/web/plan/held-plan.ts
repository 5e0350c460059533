/** The plan as it was before a change, held beside the new one until the maker keeps the new one or goes back. */
import { scheduleOf, type Schedule } from '../../../exchange/schedule.ts';
import type { Say } from '../../../exchange/words.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { Plan } from '../../../make/plan.ts';
import { isFactPath, type FactPath } from './draft-fields.ts';
import type { Draft } from './draft.ts';
import { factText } from './fact-text.ts';
import { wallInstant } from './wall-clock.ts';

/** A draft with what it gave. */
export interface HeldPlan {
  readonly draft: Draft;
  readonly plan: Plan;
  /** The one with the most members that was shown of it. */
  readonly forecast: Forecast;
}

/** What stands behind the new plan on screen. */
export interface PlanBefore {
  readonly plan: Plan;
  readonly forecast: Forecast;
  /** Null where it had no clock. */
  readonly schedule: Schedule | null;
}

/** The held plan on its clock. */
export function planBefore({ plan, forecast, draft }: HeldPlan, now: number): PlanBefore {
  const at = wallInstant(draft.clock);
  const schedule = at === null ? null : scheduleOf({ plan, forecast, wish: { mode: draft.clock.mode, at }, now });
  return { plan, forecast, schedule };
}

type Facts = Readonly<Record<string, unknown>>;
const differing = (a: Facts, b: Facts): string[] =>
  [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((key) => a[key] !== b[key]);

/** Whether two drafts ask for the same. */
export const isSameDraft = (a: Draft, b: Draft): boolean => changedInputs(a, b).length === 0;

/** What was changed between two drafts: facts by path, changes of the make by id, the clock, the cheese. */
export type ChangedInput =
  | { readonly kind: 'fact'; readonly path: FactPath }
  | { readonly kind: 'change'; readonly id: string }
  | { readonly kind: 'clock' | 'make' | 'answer' };

export function changedInputs(was: Draft, now: Draft): readonly ChangedInput[] {
  const facts = differing(was.facts, now.facts).filter(isFactPath);
  const clock = differing(was.clock, now.clock).length > 0;
  const confirmed = was.confirmed.join() !== now.confirmed.join();
  const found: ChangedInput[] = [
    ...(was.makeId === now.makeId ? [] : [{ kind: 'make' } as const]),
    ...facts.map((path) => ({ kind: 'fact', path }) as const),
    ...differing(was.changes, now.changes).map((id) => ({ kind: 'change', id }) as const),
    ...(clock ? [{ kind: 'clock' } as const] : []),
  ];
  return found.length === 0 && (confirmed || differing(was.lots, now.lots).length > 0) ? [{ kind: 'answer' }] : found;
}

const MOST_NAMED = 2;

/** "Milk 12 L, was 10 L", or the names of what was changed. */
export function changedText(input: {
  readonly was: Draft;
  readonly now: Draft;
  readonly plan: Plan;
  readonly units: UnitSystem;
  readonly say: Say;
}): string {
  const { was, now, plan, units, say } = input;
  const changed = changedInputs(was, now);
  const name = (one: ChangedInput): string => {
    if (one.kind === 'fact') return say(`plan:facts.${one.path}`);
    if (one.kind === 'change') return freeName(plan, one.id) ?? say(`solve:names.${one.id}`).replace(/:$/, '');
    return say(`plan:held.${one.kind}`);
  };
  const [only] = changed;
  if (changed.length === 1 && only?.kind === 'fact') {
    const text = (draft: Draft): string =>
      factText({ path: only.path, text: draft.facts[only.path] ?? '', units, say });
    const [before, after] = [text(was), text(now)];
    if (before !== '' && after !== '') return say('plan:held.one', { name: name(only), before, after });
  }
  const names = changed.slice(0, MOST_NAMED).map(name).join(', ');
  const more = changed.length - MOST_NAMED;
  return more > 0 ? say('plan:held.more', { names, count: more }) : names;
}

/** "Brine for" is read without what follows it. */
const freeName = ({ make }: Plan, id: string): string | undefined =>
  make.free?.find((free) => free.id === id)?.name.replace(/ (for|at|of)$/, '');
