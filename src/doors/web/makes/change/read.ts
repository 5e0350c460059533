/** A make half written, read: what stands in the way, or the make with what reading it raises. */
import { readingChecks, type MakeCheck } from '../../../../exchange/make-checks.ts';
import { parseMake, type Make } from '../../../../make/make.ts';
import type { Plan } from '../../../../make/plan.ts';
import { planMake } from '../../../../make/planning.ts';
import { InputError, type Problem } from '../../../../numbers/validity.ts';
import type { Written } from './written.ts';

const TYPICAL_L = 12; // our own choice: what a make is tried with before anybody says how much milk there is

export interface ReadMake {
  /** Null while it is not a make yet. */
  readonly make: Make | null;
  /** With typical milk; null where there is no make, or where such milk cannot become it. */
  readonly plan: Plan | null;
  readonly problems: readonly Problem[];
  readonly checks: readonly MakeCheck[];
}

/** Reads a make as it stands. Anything but a refused input is a fault and is thrown on. */
export function readWritten(written: Written): ReadMake {
  try {
    const make = parseMake(written);
    const treatment = make.milk.treatments.includes('pasteurised') ? 'pasteurised' : (make.milk.treatments[0] ?? 'pasteurised'); // prettier-ignore
    return { make, plan: planned(make, treatment), problems: [], checks: readingChecks(make) };
  } catch (error) {
    if (error instanceof InputError) return { make: null, plan: null, problems: error.problems, checks: [] };
    throw error;
  }
}

function planned(make: Make, treatment: Make['milk']['treatments'][number]): Plan | null {
  try {
    return planMake({ make, answers: { milk: { volumeL: TYPICAL_L, treatment } } });
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
