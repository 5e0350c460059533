/** A make with what its maker chose of it: the same data, other figures. */
import { InputError, type Problem } from '../numbers/validity.ts';
import type { FreeInput, Place } from './free-input.ts';
import { placedIn } from './free-input-problems.ts';
import type { Make } from './make.ts';
import type { Condition, Step } from './step.ts';

/** Chosen values by the id of a free input, in the input's own unit. */
export type Changes = Readonly<Record<string, number>>;

/** The dose of rennet stands in the make's doses, with its own range. */
export const RENNET_DOSE = 'rennet-dose';

/**
 * Puts chosen figures into a make. Choosing the same again changes nothing, so a plan and the record that froze it agree.
 * @param input.changes by id of `make.free`, or `rennet-dose` in IMCU/L
 * @throws InputError naming every id that this make does not have, and every value outside its range
 */
export function withChanges(input: { readonly make: Make; readonly changes: Changes }): Make {
  const problems = changeProblems(input);
  if (problems.length > 0) throw new InputError(problems);
  let { make } = input;
  for (const [id, value] of Object.entries(input.changes)) {
    const free = make.free?.find((one) => one.id === id);
    make = free === undefined ? withRennet(make, value) : withFree(make, free, value);
  }
  return make;
}

function changeProblems({ make, changes }: { readonly make: Make; readonly changes: Changes }): Problem[] {
  const ranges = new Map<string, { readonly low: number; readonly high: number; readonly unit: string }>([
    ...(make.free ?? []).map((free) => [free.id, free] as const),
    ...(make.doses.rennet === undefined
      ? []
      : [[RENNET_DOSE, { ...make.doses.rennet.imcuPerL, unit: 'IMCU/L' }] as const]),
  ]);
  return Object.entries(changes).flatMap(([id, value]): Problem[] => {
    const range = ranges.get(id);
    const field = `changes.${id}`;
    if (range === undefined) {
      return [{ code: 'unknown-field', field, value, expected: [...ranges.keys()].join(', '), remedy: 'Choose one of these, or leave it out.' }]; // prettier-ignore
    }
    if (value >= range.low && value <= range.high) return [];
    return [{ code: 'impossible', field, value, unit: range.unit, expected: `${range.low} to ${range.high} ${range.unit}`, remedy: 'Further off it would be another cheese; give a value inside.' }]; // prettier-ignore
  });
}

const CHOSEN = 'common practice' as const;

function withRennet(make: Make, imcuPerL: number): Make {
  if (make.doses.rennet === undefined) return make;
  const dose = { ...make.doses.rennet.imcuPerL, aim: imcuPerL };
  return { ...make, doses: { ...make.doses, rennet: { imcuPerL: dose } } };
}

function withFree(make: Make, free: FreeInput, value: number): Make {
  const [first] = free.places;
  const own = first === undefined ? null : valueIn(make, first);
  const steps = make.steps.map((step) =>
    free.places
      .filter((place) => place.step === step.id)
      .reduce((changed, place) => {
        const here = placedIn(step, place);
        // What has no figure yet (a bath left when the salt is reached) simply gets the chosen one.
        return withFigure(changed, place, own === null || here === null ? value : tidy(here + value - own));
      }, step),
  );
  return { ...make, steps };
}

/** Without the dust of binary sums: 5.1, not 5.0999999999999996. */
const tidy = (value: number): number => Number(value.toPrecision(12));

/** The figure of the make at a place; null where it has none. */
export function valueIn(make: Pick<Make, 'steps'>, place: Place): number | null {
  const step = make.steps.find((one) => one.id === place.step);
  return step === undefined ? null : placedIn(step, place);
}

function withFigure(step: Step, place: Place, value: number): Step {
  switch (place.kind) {
    case 'setting':
      return { ...step, set: { ...step.set, [place.setting]: { value, source: step.set[place.setting]?.source ?? CHOSEN } } }; // prettier-ignore
    case 'minutes':
      return { ...step, until: { join: 'first', of: [{ kind: 'time', minutes: { value, source: CHOSEN } }] } };
    case 'until':
      return { ...step, until: { ...step.until, of: step.until.of.map((each) => (each.kind === place.condition ? ending(each, value) : each)) } }; // prettier-ignore
  }
}

function ending(condition: Condition, value: number): Condition {
  switch (condition.kind) {
    case 'temperature':
    case 'coreTemperature':
      return { ...condition, atC: { ...condition.atC, value } };
    case 'pH':
      return { ...condition, at: { ...condition.at, value } };
    case 'salt':
    case 'moisture':
      return { ...condition, percent: { ...condition.percent, value } };
    case 'days':
      return { ...condition, days: { ...condition.days, value } };
    case 'mass':
      return { ...condition, kgPerL: { ...condition.kgPerL, value } };
    case 'flocculation':
      return { ...condition, multiplier: { ...condition.multiplier, value } };
    default:
      return condition;
  }
}
