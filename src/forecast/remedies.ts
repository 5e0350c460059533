import type { Departure } from '../make/departure.ts';
import { mishapNamed, type MishapChoice } from '../make/mishaps.ts';
import type { Told } from '../make/told.ts';
import { chills, lasting, notched, openFigures, type Candidate, type Situation } from './choices.ts';

const PRACTICE = 'common practice (no source)';
const BROUGHT_MIN = 10; // a pot stood in cold or warm water and stirred: common practice (no source)
const COVERED_MIN = 60; // our own choice
const HALF = 0.5;

/** The remedies of what was told that can be forecast from here, in the mishap's own order; going on as planned is not among them. */
export function remediesOf(situation: Situation, told: Told): Candidate[] {
  const mishap = mishapNamed(told.what);
  if (mishap === undefined) return [];
  return mishap.choices.flatMap((choice) => {
    const candidate = remedyOf(situation, told, choice);
    return candidate === null ? [] : [{ ...candidate, id: `${mishap.id}.${choice.id}`, says: choice.id, source: mishap.source }]; // prettier-ignore
  });
}

function remedyOf(situation: Situation, told: Told, choice: MishapChoice): Candidate | null {
  const { nowMin, running } = situation;
  switch (choice.does) {
    case 'bring':
      return bring(situation);
    case 'cover':
      return covered('cover', nowMin, COVERED_MIN);
    case 'wait':
      return running === null ? null : lasting(situation, { id: choice.id, kind: 'wait', untilMin: nowMin + (choice.minutes ?? 0), risks: [] }); // prettier-ignore
    case 'now':
      return running?.step.verb === 'restToAcid' ? lasting(situation, { id: choice.id, kind: 'now', untilMin: nowMin, risks: ['tooEarly'] }) : null; // prettier-ignore
    case 'addRest':
      return addition(situation, told, 1 - (mishapNamed(told.what)?.fractionOfPlan ?? told.fractionOfPlan ?? 1));
    case 'addHalf':
      return addition(situation, { ...told, ingredient: 'rennet' }, HALF);
    case 'cooler':
      return freeNotch(situation, '°C', -1);
    case 'larger':
      return freeNotch(situation, 'mm', 1);
    case 'chill':
      return chills(situation)[0] ?? null;
    case 'away':
      return away(situation, told.minutes ?? 0);
    case 'meter':
      return withMeter(situation);
    case 'goOn':
    case null:
      return null;
  }
}

/** Back to what the plan wants now, by a bath round the pot; where the step sets nothing, to what the step before it held. */
function bring({ plan, running, last, phase, nowMin }: Situation): Candidate | null {
  const here = running?.step ?? last;
  const held = plan.steps.slice(0, plan.steps.findIndex(({ id }) => id === here?.id) + 1).reverse();
  const wantedOf = ({ set }: (typeof held)[number]) => set.stopAtC ?? set.atC ?? set.toC;
  const isSet = (step: (typeof held)[number]): boolean => typeof wantedOf(step) === 'number';
  // Past the vat nothing is held warm any more: only what the step itself sets counts.
  const from = phase === 'after' ? here : held.find(isSet);
  const wanted = from == null ? undefined : wantedOf(from);
  if (typeof wanted !== 'number') return null;
  const elapsedMin = nowMin + BROUGHT_MIN;
  const what: Departure = { kind: 'done', what: { kind: 'temperature', elapsedMin, minutes: 0, temperatureC: wanted } };
  return candidate('bring', { toC: wanted, minutes: BROUGHT_MIN }, [what]);
}

const covered = (kind: 'cover' | 'away', nowMin: number, minutes: number): Candidate =>
  candidate(kind, { minutes }, [{ kind: 'done', what: { kind: 'noHeat', elapsedMin: nowMin, minutes } }]);

function away(situation: Situation, minutes: number): Candidate | null {
  const { running, nowMin } = situation;
  if (running === null || minutes <= 0) return null;
  const left = covered('away', nowMin, minutes);
  const endMin = situation.forecast.steps.find((step) => step.stepId === running.step.id)?.endMin.p50 ?? nowMin;
  // Whatever is ready earlier waits until somebody is back.
  const stays: Departure[] = endMin >= nowMin + minutes ? [] : [{ kind: 'minutes', stepId: running.step.id, minutes: nowMin + minutes - running.startedMin }]; // prettier-ignore
  return { ...left, choice: { departures: [...(left.choice.departures ?? []), ...stays] }, risks: ['nobodyThere'] };
}

/** Into the milk while it is still milk; stirred into a gel it would only break it. */
function addition(situation: Situation, told: Told, fractionOfPlan: number): Candidate | null {
  const { plan, history, phase, nowMin } = situation;
  const step = plan.steps.find((one) => one.verb === 'add' && one.set.ingredient === told.ingredient);
  if (step === undefined || phase !== 'milk' || fractionOfPlan <= 0) return null;
  if (history.readings.some(({ quantity }) => quantity === 'flocculationMin')) return null;
  const ingredient = (['culture', 'calcium', 'rennet'] as const).find((one) => one === told.ingredient);
  if (ingredient === undefined) return null;
  const departures: Departure[] = [{ kind: 'added', ingredient, fractionOfPlan, elapsedMin: nowMin }];
  return { ...candidate('add', { ingredient, fractionOfPlan }, departures), risks: ['stirredGel'] };
}

/** The nearest figure of this unit that the make leaves free: a temperature at which the pot is held, the size of the cubes. */
function freeNotch(situation: Situation, unit: '°C' | 'mm', sign: 1 | -1): Candidate | null {
  const { steps } = situation.plan;
  const isHeld = (stepId: string): boolean => unit !== '°C' || steps.some(({ id, set }) => id === stepId && set.atC !== undefined); // prettier-ignore
  const free = openFigures(situation).find((one) => one.unit === unit && isHeld(one.stepId));
  return free === undefined ? null : notched(situation, free, sign);
}

/** Another meter: as the make was before this one died. */
function withMeter({ answers }: Situation): Candidate | null {
  return answers.instruments?.pHMeter === false ? candidate('meter', {}, [{ kind: 'withMeter' }]) : null;
}

const candidate = (kind: Candidate['kind'], fields: Candidate['fields'], departures: Departure[]): Candidate => ({
  id: kind,
  kind,
  fields,
  choice: { departures },
  risks: [],
  source: PRACTICE,
});
