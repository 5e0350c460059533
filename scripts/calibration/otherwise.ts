/** Makes that the forecast's own model did not draw: how far its bands still hold the truth. */
import { courseOf } from '../../src/forecast/course.ts';
import { groundOf, inputsOf, type Inputs } from '../../src/forecast/inputs.ts';
import { runMember } from '../../src/forecast/member.ts';
import { FLAT_PROBE_SD, METER_SD, THERMOMETER_SD_C } from '../../src/forecast/reading-error.ts';
import type { MemberRun } from '../../src/forecast/run.ts';
import { benchOf } from '../../src/forecast/simulate.ts';
import { newVat, type Vat } from '../../src/forecast/vat-state.ts';
import { observationsOf } from '../../src/forecast/walk.ts';
import { NO_HISTORY, type History } from '../../src/make/history.ts';
import { MODEL_ERROR_PH } from '../../src/science/acidification-error.ts';
import { seededRandom, type Random } from '../../src/numbers/random.ts';
import { anyPlan, anyRow } from './kitchen.ts';
import { answerOf, noteAt, noted, readAsForecast, type Ask, type Read } from './notes.ts';
import { anyMinutes, anyMoment, stepsUntil, type SyntheticMake } from './synthetic.ts';

export interface OtherModel {
  readonly id: string;
  readonly name: string;
  /** The truth's inputs, changed. */
  readonly inputs?: (inputs: Inputs, random: Random) => Inputs;
  /** Slows the truth's culture from some minute on. */
  readonly slowed?: (random: Random) => { readonly fromMin: number; readonly factor: number };
  /** Share of readings that are slips of the pen. */
  readonly slipShare?: number;
}

const between = (random: Random, low: number, high: number): number => low + (high - low) * random.uniform();

const withTraits = (inputs: Inputs, change: Partial<Inputs['acid']['culture']>): Inputs => ({
  ...inputs,
  acid: { ...inputs.acid, culture: { ...inputs.acid.culture, ...change } },
});

/** Warmer limits are the same as a colder vat: the culture lives where the thermometer does not hang. */
const colder = (inputs: Inputs, kelvin: number): Inputs => {
  const { temperatureMinC, temperatureOptC, temperatureMaxC } = inputs.acid.culture;
  return withTraits(inputs, {
    temperatureMinC: temperatureMinC + kelvin,
    temperatureOptC: temperatureOptC + kelvin,
    temperatureMaxC: temperatureMaxC + kelvin,
  });
};

/** All sizes are our own choice: what goes wrong in a kitchen without anybody noticing. */
export const OTHER_MODELS: readonly OtherModel[] = [
  { id: 'steady-errors', name: "right model, but the meter's and the model's errors stay the same all day" },
  { id: 'slips', name: 'the same, and one reading in twenty mistyped by a whole unit', slipShare: 0.05 },
  {
    id: 'strain',
    name: 'another strain: growth, acid, optimum, limits of pH and crowding all its own',
    inputs: (inputs, random) => {
      const { culture } = inputs.acid;
      const optimum = culture.temperatureOptC + random.normal();
      return withTraits(inputs, {
        growthRatePerHour: culture.growthRatePerHour * Math.exp(0.15 * random.normal()),
        acidRateMmolPerCfuHour: culture.acidRateMmolPerCfuHour * Math.exp(0.2 * random.normal()),
        temperatureMinC: culture.temperatureMinC + 3 * random.normal(),
        temperatureOptC: optimum,
        temperatureMaxC: Math.max(culture.temperatureMaxC + random.normal(), optimum + 3),
        growthPHMin: culture.growthPHMin + 0.1 * random.normal(),
        growthFreeFraction: culture.growthFreeFraction + 0.1 * random.normal(),
        cellsMaxPerL: culture.cellsMaxPerL * Math.exp(0.3 * random.normal()),
      });
    },
  },
  {
    id: 'phage',
    name: 'phage: from some moment on the culture works at 50 to 80 %',
    slowed: (random) => ({ fromMin: between(random, 45, 240), factor: between(random, 0.5, 0.8) }),
  },
  {
    id: 'cold-spot',
    name: 'a cold spot: the culture lives 1 to 3 K colder than the thermometer says',
    inputs: (inputs, random) => colder(inputs, between(random, 1, 3)),
  },
  {
    id: 'thermometer',
    name: 'a thermometer 2 K wrong where 1 K was stated',
    inputs: (inputs, random) => ({ ...inputs, thermometerBiasC: random.uniform() < 0.5 ? -2 : 2 }),
  },
];

/**
 * One make whose truth follows another model. It is run without regard to any reading; each reading shows it through one meter
 * offset, the truth's own error of the equations, and fresh noise of the instrument. The maker's clock is the truth's own.
 */
export function otherMake(input: { model: OtherModel; seed: number; notes: number }): SyntheticMake {
  const { model } = input;
  const random = seededRandom(input.seed);
  const plan = anyPlan(random);
  const ground = groundOf(plan);
  const own = inputsOf(ground, anyRow(random));
  const inputs = model.inputs?.(own, random) ?? own;
  const vat = newVat(inputs);
  const slowed = model.slowed?.(random);
  if (slowed !== undefined) slow(vat, slowed);
  const run = (history: History): MemberRun => {
    const course = courseOf({ plan, history });
    const { decisions } = benchOf(course, ground);
    return runMember({ course, inputs, vat, observations: observationsOf(course), decisions });
  };
  const course = courseOf({ plan, history: NO_HISTORY });
  const clock = benchOf(course, ground).run(anyRow(random));
  const nowMin = anyMoment(course, clock, random);
  const bare: History = { ...NO_HISTORY, nowMin, steps: stepsUntil(course, run(NO_HISTORY), nowMin) };
  // Asked of the bare make: what was read before has not changed what is there.
  const ask: Ask = (note) => answerOf(run(noted(bare, note)), noted(bare, note), note);
  const read = readThrough(inputs, model.slipShare ?? 0);
  let history = bare;
  for (const elapsedMin of anyMinutes({ nowMin, count: input.notes, random })) {
    const note = noteAt({ plan, history, elapsedMin, random, ask, read });
    if (note !== null) history = noted(history, note);
  }
  return { plan, history, truth: run(bare) };
}

function slow(vat: Vat, slowed: { fromMin: number; factor: number }): void {
  const { moveAcid } = vat;
  vat.moveAcid = (own) => {
    const { hours } = own.span;
    own.span.hours = hours * (own.minute >= slowed.fromMin ? slowed.factor : 1);
    moveAcid(own);
    own.span.hours = hours;
  };
}

/** The truth through an instrument: its own error of the equations stays with it, only the probe's noise is fresh. */
function readThrough(inputs: Inputs, slipShare: number): Read {
  return (at) => {
    const { reading, expected, random } = at;
    const slip = random.uniform() < slipShare ? (random.uniform() < 0.5 ? -1 : 1) : 0;
    switch (reading.quantity) {
      case 'pH': {
        const drained = reading.sample === 'curd';
        const own = drained ? MODEL_ERROR_PH.drained * inputs.curdErrorZ : MODEL_ERROR_PH.milk * inputs.milkErrorZ;
        return expected + own + (drained ? FLAT_PROBE_SD : METER_SD) * random.normal() + slip;
      }
      case 'temperatureC':
        return expected + THERMOMETER_SD_C * random.normal() + 10 * slip;
      default:
        return readAsForecast(at);
    }
  };
}
