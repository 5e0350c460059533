import type { History } from '../make/history.ts';
import { driedKg, type Room } from './aged.ts';
import { moisturePercentOf, saltPercentOf, times, without } from './cheese.ts';
import { NOTHING, totalKgOf, type Contents } from './contents.ts';
import { BELIEVED_SD, note, SLIP_SPAN, weigh } from './evidence.ts';
import type { Inputs } from './inputs.ts';
import { coreAtC, saltUptake, type Decisions } from './pieces.ts';
import type { MemberRun } from './run.ts';
import type { Walk } from './walk.ts';

/** One member's cheese as it leaves the hot water, and when it cools and lies in the brine. */
export interface FreshCheese {
  /** With all the salt that was mixed into the curd. */
  readonly holds: Contents;
  /** Of that salt; the rest runs off. */
  readonly saltKeptKg: number;
  readonly brineFromMin: number;
  readonly brineMin: number;
  readonly coolFromMin: number;
  readonly coolMin: number;
  /** Where it lies in the air afterwards; none where the make does not age it. */
  readonly rooms: readonly Room[];
}

/** What weighing set right: factors on the mass and on the salt taken from the brine, 1 where nothing was weighed. */
interface AsWeighed {
  mass: number;
  salt: number;
}

/** The cheese, and where the rest of what left the hot water went. */
export interface MadeCheese {
  readonly holds: Contents;
  /** Run off with the salt that was mixed in. */
  readonly dripped: Contents;
  /** What the scale did not find of it (tasted, spilt, never there), below 0 where it found more. */
  readonly offTheScale: Contents;
  /** Water that the air took. */
  readonly driedOut: Contents;
  /** Water that the brine took; salt below 0, for that it gave. */
  readonly toBrine: Contents;
}

const CHEESE_LN_SD = 0.03; // scale, wet surface, and the piece that was tasted: our own choice
const TAKEN_LN_SD = 0.15; // salt taken up is the small difference of two weighings: our own choice
const CORE_SD_C = 2; // a probe that may miss the middle of a warm ball: our own choice

interface Making {
  readonly fresh: FreshCheese;
  readonly decisions: Decisions;
  readonly inputs: Inputs;
  readonly as: AsWeighed;
}

/** Water and salt alone. Written out, not spread: it is made for every traced minute in the brine. */
const saltWater = (waterKg: number, saltKg: number): Contents => ({
  waterKg,
  fatKg: 0,
  caseinKg: 0,
  lactoseKg: 0,
  saltKg,
  otherKg: 0,
});

/** The cheese at any minute: salted by hand first, then by the brine for as long as it has lain there. */
export function cheeseOver({ fresh, decisions, inputs, as }: Making): (elapsedMin: number) => MadeCheese {
  const { waterPerSalt } = inputs;
  const runOffKg = fresh.holds.saltKg - fresh.saltKeptKg;
  const dripped = saltWater(waterPerSalt * fresh.saltKeptKg, runOffKg);
  const mixed = without(fresh.holds, dripped);
  const weighed = times(mixed, as.mass);
  const unbrined = {
    holds: weighed,
    dripped,
    offTheScale: without(mixed, weighed),
    driedOut: NOTHING,
    toBrine: NOTHING,
  };
  const { brine } = decisions;
  const { rooms } = fresh;
  const inAir = (made: MadeCheese, elapsedMin: number): MadeCheese => {
    const lostKg = driedKg({ cheese: made.holds, rooms, decisions, inputs, elapsedMin });
    if (!(lostKg > 0)) return made;
    const driedOut = saltWater(lostKg, 0);
    return { ...made, holds: without(made.holds, driedOut), driedOut };
  };
  if (brine === null) return rooms.length === 0 ? () => unbrined : (elapsedMin) => inAir(unbrined, elapsedMin);
  const moisturePercent = moisturePercentOf(weighed);
  const startSaltPerKg = saltPercentOf(weighed) / 100;
  const diffusivityFactor = inputs.saltFactor;
  const taken = saltUptake({ brine, moisturePercent, diffusivityFactor, waterPerSalt, startSaltPerKg });
  const weighedKg = totalKgOf(weighed);
  return (elapsedMin) => {
    const minutes = Math.min(Math.max(elapsedMin - fresh.brineFromMin, 0), fresh.brineMin);
    if (!(minutes > 0)) return rooms.length === 0 ? unbrined : inAir(unbrined, elapsedMin);
    const takenKg = weighedKg * taken(minutes) * as.salt;
    const toBrine = saltWater(waterPerSalt * takenKg, -takenKg);
    const brined = {
      holds: without(weighed, toBrine),
      dripped,
      offTheScale: unbrined.offTheScale,
      driedOut: NOTHING,
      toBrine,
    };
    return rooms.length === 0 ? brined : inAir(brined, elapsedMin);
  };
}

/**
 * Everything weighed or probed after the curd left the vat. A weight is what the cheese weighs from then on; salt found to be
 * taken up likewise; a warm middle tells how slowly this cheese conducts.
 * @returns what weighing set right
 */
export function observeCheese(input: { walk: Walk; decisions: Decisions; fresh: FreshCheese }): AsWeighed {
  const { walk, decisions, fresh } = input;
  const { run, vat, course } = walk;
  const as: AsWeighed = { mass: 1, salt: 1 };
  for (let i = walk.nextObservation; i < walk.observations.length; i++) {
    const observation = walk.observations[i];
    if (observation === undefined) continue;
    const reading = observation.kind === 'reading' ? course.history.readings[observation.index] : undefined;
    if (reading === undefined || reading.sample !== 'cheese') continue;
    const { elapsedMin } = reading;
    const cheese = cheeseOver({ fresh, decisions, inputs: vat.inputs, as })(elapsedMin);
    const noted = { run, index: observation.index, reading };
    if (reading.quantity === 'massKg')
      as.mass *= ratio({ ...noted, expected: totalKgOf(cheese.holds), lnSd: CHEESE_LN_SD });
    if (reading.quantity === 'saltG' && cheese.toBrine.saltKg < 0) {
      as.salt *= ratio({ ...noted, expected: -1000 * cheese.toBrine.saltKg, lnSd: TAKEN_LN_SD });
    }
    if (reading.quantity === 'temperatureC' && fresh.coolMin > 0 && elapsedMin >= fresh.coolFromMin) {
      const coreC = coreAtC({ decisions, coolMin: fresh.coolMin, minutes: elapsedMin - fresh.coolFromMin });
      note(run, observation.index, coreC + vat.inputs.thermometerBiasC, CORE_SD_C);
      const z = (reading.value - vat.inputs.thermometerBiasC - coreC) / CORE_SD_C;
      weigh(run, observation.index, { z, sd: CORE_SD_C, span: SLIP_SPAN.temperatureC });
    }
  }
  return as;
}

/** Weighs a reading by its ratio to what was expected; that ratio is what it sets right, 1 where it is not believed. */
function ratio(input: {
  run: MemberRun;
  index: number;
  reading: History['readings'][number];
  expected: number;
  lnSd: number;
}): number {
  const { run, index, reading, expected, lnSd } = input;
  note(run, index, expected, lnSd * expected);
  const z = Math.log(reading.value / expected) / lnSd;
  weigh(run, index, { z, sd: lnSd, span: SLIP_SPAN.ln });
  return Math.abs(z) <= BELIEVED_SD ? reading.value / expected : 1;
}
