import type { Plan, PlannedStep } from '../make/plan.ts';

/** A step longer than this is a night's rest or ageing: the day is over before it. Our own choice. */
export const OVERNIGHT_MIN = 600;

/**
 * The last step of the first day that wants hands: when it is over, the maker is done.
 * @param input.lengthMin the likeliest length of a step, by its id; undefined where it is not foreseen
 * @returns its id; the last step's where none of the day wants hands
 */
export function dayEndStep(input: {
  readonly steps: Plan['steps'];
  readonly lengthMin: (stepId: string) => number | undefined;
}): string | undefined {
  let last: string | undefined;
  for (const step of input.steps) {
    const lengthMin = input.lengthMin(step.id);
    if (lengthMin === undefined) continue;
    if (lengthMin > OVERNIGHT_MIN) break;
    if (isHandsOn(step)) last = step.id;
  }
  return last ?? input.steps.at(-1)?.id;
}

const isHandsOn = ({ handsMin }: PlannedStep): boolean => handsMin.start + handsMin.during + handsMin.end > 0;
