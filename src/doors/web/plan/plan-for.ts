import type { UnitSystem } from '../../../exchange/written.ts';
import type { Make } from '../../../make/make.ts';
import { RENNET_DOSE } from '../../../make/changes.ts';
import type { Plan } from '../../../make/plan.ts';
import { planMake } from '../../../make/planning.ts';
import type { Answers } from '../../../make/setup.ts';
import { InputError, type Problem } from '../../../numbers/validity.ts';
import { answersOf, type Draft } from './draft.ts';

/** A draft worked out: a plan, or everything that stands in its way. */
export interface Planned {
  readonly plan: Plan | null;
  readonly answers: Answers | null;
  readonly problems: readonly Problem[];
}

/** The plan of one draft and make. Anything but a refused answer is a fault and is thrown on. */
export function planFor(input: {
  readonly draft: Pick<Draft, 'facts' | 'confirmed' | 'changes'>;
  readonly make: Make;
  readonly units: UnitSystem;
}): Planned {
  const { answers: read, problems } = answersOf(input);
  if (read === null) return { plan: null, answers: null, problems };
  // What was chosen of another make means nothing to this one.
  const changes = Object.fromEntries(Object.entries(input.draft.changes).filter(([id]) => hasFree(input.make, id)));
  const answers = Object.keys(changes).length === 0 ? read : { ...read, changes };
  try {
    return { plan: planMake({ make: input.make, answers }), answers, problems: [] };
  } catch (error) {
    if (error instanceof InputError) return { plan: null, answers, problems: error.problems };
    throw error;
  }
}

const hasFree = (make: Make, id: string): boolean =>
  id === RENNET_DOSE || (make.free ?? []).some((free) => free.id === id);
