/** A make that becomes another on the way: what was done stays, what comes is the other's. */
import type { Make } from './make.ts';
import type { Step } from './step.ts';

/** Parameters of the model that belong to the curd as it was cut; the others belong to what is done with it later. */
const OF_THE_CURD = [
  'fatRecovery', 'caseinRecovery', 'wheyEndFraction', 'wheyRateFactor', 'acidAfterDrainFactor', 'clottingMakerFactor',
]; // prettier-ignore

/**
 * Where another make could take over: the place in its steps after which it is still ahead of us.
 *
 * Both must have come the same way: the same verbs with the same ingredients in the same order, the same culture, and no step
 * that the other would have wanted and ours has passed.
 * @returns index of the other's first step still to come, or null where it is too late or never was the same
 */
export function takesOverAt(input: {
  readonly from: Make;
  readonly to: Make;
  readonly afterStepId: string;
}): number | null {
  const { from, to, afterStepId } = input;
  if (from.doses.culture?.kind !== to.doses.culture?.kind) return null;
  const at = from.steps.findIndex((step) => step.id === afterStepId);
  for (let index = 0; index <= at; index++) {
    const [ours, theirs] = [from.steps[index], to.steps[index]];
    if (ours === undefined || theirs === undefined || !isSameWork(ours, theirs)) return null;
  }
  return at + 1 < to.steps.length ? at + 1 : null;
}

const isSameWork = (a: Step, b: Step): boolean => a.verb === b.verb && a.set.ingredient === b.set.ingredient;

/** The step that runs: begun as ours, held and ended as the other make wants it. */
function endingAs(ours: Step, theirs: Step | undefined): Step {
  if (theirs === undefined) return ours;
  const { atC } = theirs.set;
  return { ...ours, until: theirs.until, set: { ...ours.set, ...(atC === undefined ? {} : { atC }) } };
}

/**
 * The make that begins as one and ends as another.
 * @param input.afterStepId the last step that is still as it was: the running one, or the last one done
 * @throws RangeError where the two have not come the same way
 */
export function turnedInto(input: { readonly from: Make; readonly to: Make; readonly afterStepId: string }): Make {
  const { from, to } = input;
  const at = takesOverAt(input);
  if (at === null) throw new RangeError(`${from.id} cannot become ${to.id} after ${input.afterStepId}`);
  const done = from.steps
    .slice(0, at)
    .map((step, index) => (index === at - 1 ? endingAs(step, to.steps[index]) : step));
  const renamed = new Map(to.steps.slice(0, at).map((step, index) => [step.id, done[index]?.id ?? step.id]));
  const taken = new Set(done.map((step) => step.id));
  const coming = to.steps.slice(at).map((step): Step => {
    const id = taken.has(step.id) ? `${step.id}-${to.id}` : step.id;
    renamed.set(step.id, id);
    return { ...step, id };
  });
  const wasCut = done.some((step) => step.verb === 'cut');
  const ofOurs = Object.entries(from.model).filter(([name]) => wasCut && OF_THE_CURD.includes(name));
  const known = new Set([...done, ...coming].map((step) => step.id));
  return {
    ...to,
    // The milk in the vat is the milk that was taken for the first make, and so are its doses.
    milk: { ...to.milk, species: from.milk.species, fatPercent: from.milk.fatPercent },
    doses: from.doses,
    model: { ...to.model, ...Object.fromEntries(ofOurs) },
    aims: to.aims.map((aim) => ({ ...aim, moment: renamed.get(aim.moment) ?? aim.moment })),
    steps: [...done, ...coming],
    free: (to.free ?? []).filter((free) => free.places.every((place) => known.has(place.step))),
  };
}
