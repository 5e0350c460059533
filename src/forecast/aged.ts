import { agedMassKernel, RIND_HABITS, RINDS, SURFACE_WATER_ACTIVITY, type Rind } from '../science/ageing.ts';
import { marcosWaterActivityKernel } from '../science/water-activity.ts';
import { moisturePercentOf } from './cheese.ts';
import { totalKgOf, type Contents } from './contents.ts';
import type { CourseStep } from './course.ts';
import type { Inputs } from './inputs.ts';
import type { Decisions } from './pieces.ts';

/** Where a cheese lies in the air, and from when to when. */
export interface Room {
  readonly fromMin: number;
  readonly toMin: number;
  readonly temperatureC: number;
  readonly relativeHumidityPercent: number;
  readonly rind: Rind;
}

const DAY_MIN = 1440;
const WET_FROM_PERCENT = 50; // softer cheese is wetter at its surface too: our own bound
const WET_WATER_ACTIVITY = 0.985; // fresh and soft-ripened cheese 0.98-0.99, from memory
const HALF_WIDTH_SD = 1.645; // of a 90 % band, by definition

/** The room of a step that lets a cheese dry; null where the step says no air. */
export function roomOf(step: CourseStep, fromMin: number, toMin: number): Room | null {
  const { atC, humidityPercent, rind } = step.plan.set;
  if (typeof atC !== 'number' || typeof humidityPercent !== 'number') return null;
  const known = RINDS.find((one) => one === rind) ?? 'bare';
  return { fromMin, toMin, temperatureC: atC, relativeHumidityPercent: humidityPercent, rind: known };
}

/**
 * Water that a cheese has lost to the air by a minute [kg]: piece by piece, one room after the other, the rind as old as the
 * cheese has lain in air.
 *
 * The rooms' figures are the make's; the rind's own factor is drawn wide (`RIND_HABITS`), because nobody has weighed it yet.
 */
export function driedKg(input: {
  readonly cheese: Contents;
  readonly rooms: readonly Room[];
  readonly decisions: Pick<Decisions, 'body' | 'pieceKg'>;
  readonly inputs: Pick<Inputs, 'rindLeakFactor' | 'stretchWaterZ'>;
  readonly elapsedMin: number;
}): number {
  const { cheese, rooms, decisions, inputs, elapsedMin } = input;
  const [first] = rooms;
  if (first === undefined || elapsedMin <= first.fromMin) return 0;
  const totalKg = totalKgOf(cheese);
  const moisturePercent = moisturePercentOf(cheese);
  const piece = {
    massKg: decisions.pieceKg,
    body: decisions.body,
    moisturePercent,
  };
  const waterKg = (decisions.pieceKg * moisturePercent) / 100;
  const saltKg = (decisions.pieceKg * cheese.saltKg) / totalKg;
  let lostKg = 0;
  let days = 0;
  for (const room of rooms) {
    const lain = Math.max(Math.min(elapsedMin, room.toMin) - room.fromMin, 0) / DAY_MIN;
    const wide = (Math.log(RIND_HABITS[room.rind].bandFactor) / HALF_WIDTH_SD) * inputs.stretchWaterZ;
    const leakFactor = inputs.rindLeakFactor * Math.exp(wide);
    const looks = Math.ceil(lain / LOOK_DAYS);
    for (let look = 0; look < looks; look++) {
      const massKg = decisions.pieceKg - lostKg;
      const waterActivity = surfaceWaterActivity({ waterKg: waterKg - lostKg, massKg, saltKg });
      const air = { ...piece, ...room, leakFactor, waterActivity };
      lostKg += agedMassKernel({ ...air, days }) - agedMassKernel({ ...air, days: days + lain / looks });
      lostKg = Math.min(lostKg, MOST_OF_ITS_WATER * waterKg);
      days += lain / looks;
    }
  }
  const share = Math.min(lostKg / decisions.pieceKg, 1);
  return Math.min(share * totalKg, MOST_OF_ITS_WATER * cheese.waterKg);
}

/**
 * How free the water at the surface is: salt binds it, and below 40 % moisture so do the other solids. As it dries it dries
 * ever more slowly; without that a year's loss comes out half too high.
 */
function surfaceWaterActivity(piece: { waterKg: number; massKg: number; saltKg: number }): number {
  const moisturePercent = (100 * piece.waterKg) / piece.massKg;
  const salted = marcosWaterActivityKernel((100 * piece.saltKg) / piece.waterKg);
  const highest = moisturePercent > WET_FROM_PERCENT ? WET_WATER_ACTIVITY : SURFACE_WATER_ACTIVITY;
  return Math.min(highest, salted - DRY_PER_POINT * Math.max(DRY_FROM_PERCENT - moisturePercent, 0));
}

const LOOK_DAYS = 10; // how often its own water activity is looked at anew: our own choice
const DRY_FROM_PERCENT = 40; // below it other solids bind water too (Marcos et al. 1981, abstract seen)
const DRY_PER_POINT = 0.005; // our own choice: hard grating cheese of 30 % water near 0.91, from memory
const MOST_OF_ITS_WATER = 0.9; // our own bound: the driest grating cheese keeps more
