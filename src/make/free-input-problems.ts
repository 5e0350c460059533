/** What a schema cannot say of a make's free inputs: ids once, places that exist, ranges that hold the make's own figure. */
import type { Problem } from '../numbers/validity.ts';
import type { FreeInput, Place } from './free-input.ts';
import type { Step } from './step.ts';

interface Written {
  readonly steps: readonly Step[];
  readonly free?: readonly FreeInput[] | undefined;
}

/** Every problem of the list `free`, with its path. */
export function* freeInputProblems(make: Written): Generator<Problem> {
  const seen = new Set<string>();
  for (const [index, input] of (make.free ?? []).entries()) {
    const at = `free[${index}]`;
    if (seen.has(input.id)) {
      yield { code: 'contradiction', field: `${at}.id`, value: input.id, expected: 'an id used once', remedy: 'Rename one of the two.' }; // prettier-ignore
    }
    seen.add(input.id);
    if (input.low >= input.high) {
      yield { code: 'contradiction', field: at, value: [input.low, input.high], expected: 'low below high', remedy: 'Put the two in order.' }; // prettier-ignore
    }
    for (const [number, place] of input.places.entries()) {
      const field = `${at}.places[${number}]`;
      const step = make.steps.find((one) => one.id === place.step);
      if (step === undefined) {
        yield { code: 'unknown-choice', field: `${field}.step`, value: place.step, expected: make.steps.map((one) => one.id).join(', '), remedy: 'Name a step of this make.' }; // prettier-ignore
        continue;
      }
      const own = placedIn(step, place);
      if (own === null && !isLeftToTheClock(make, step, place)) {
        yield { code: 'missing', field, value: undefined, expected: `a step that has ${nameOf(place)}`, remedy: 'Give the step that figure, or take the place out.' }; // prettier-ignore
      }
      if (number === 0 && own !== null && (own < input.low || own > input.high)) {
        yield { code: 'contradiction', field: at, value: own, expected: `a range that holds the make's own ${own}`, remedy: 'Widen low or high.' }; // prettier-ignore
      }
    }
  }
}

/** Minutes may be chosen where none stand; and once they are, no other end is left at that step. */
function isLeftToTheClock(make: Written, step: Step, place: Place): boolean {
  if (place.kind !== 'until') return place.kind === 'minutes';
  const isTimed = step.until.of.every(({ kind }) => kind === 'time');
  return isTimed && (make.free ?? []).some(({ places }) => places.some((other) => other.kind === 'minutes' && other.step === step.id)); // prettier-ignore
}

/** The figure that stands at a place of a step; null where there is none. */
export function placedIn(step: Pick<Step, 'set' | 'until'>, place: Place): number | null {
  switch (place.kind) {
    case 'setting':
      return step.set[place.setting]?.value ?? null;
    case 'minutes': {
      const time = step.until.of.find((condition) => condition.kind === 'time');
      return time?.kind === 'time' ? time.minutes.value : null;
    }
    case 'until': {
      for (const condition of step.until.of) {
        if (condition.kind !== place.condition) continue;
        if (condition.kind === 'temperature' || condition.kind === 'coreTemperature') return condition.atC.value;
        if (condition.kind === 'pH') return condition.at.value;
        if (condition.kind === 'salt' || condition.kind === 'moisture') return condition.percent.value;
        if (condition.kind === 'days') return condition.days.value;
        if (condition.kind === 'mass') return condition.kgPerL.value;
        if (condition.kind === 'flocculation') return condition.multiplier.value;
      }
      return null;
    }
  }
}

const nameOf = (place: Place): string =>
  place.kind === 'setting' ? `a setting ${place.setting}` : `an end by ${place.kind === 'until' ? place.condition : 'time'}`; // prettier-ignore
