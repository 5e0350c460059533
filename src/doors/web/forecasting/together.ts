import { storeInParts, type Part } from '../../../forecast/parts.ts';
import type { SimulateInput } from '../../../forecast/simulate.ts';
import type { Stored } from '../../../forecast/stored-members.ts';

/** Runs a part somewhere else and brings back what `runPart` gives there. */
export type RunElsewhere = (part: Part) => Promise<ArrayBuffer>;

/**
 * The members of a forecast, half of them run elsewhere meanwhile: the same as `storeMembers`, to the bit.
 * @throws what `elsewhere` throws; nothing is kept then
 */
export async function storeTogether(input: SimulateInput, elsewhere: RunElsewhere): Promise<Stored> {
  const steps = storeInParts(input);
  let away: Promise<ArrayBuffer> | null = null;
  let step = steps.next(null);
  while (step.done !== true) {
    if (step.value === 'bring') {
      step = steps.next(away === null ? null : await away);
    } else {
      away = elsewhere(step.value.send);
      step = steps.next(null);
    }
  }
  return step.value;
}
