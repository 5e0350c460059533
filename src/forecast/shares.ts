import type { Plan } from '../make/plan.ts';
import { CLOTTING_LN_SD, CLOTTING_LN_SD_CALIBRATED } from '../science/coagulation.ts';
import { DOSE_LN_SD } from '../science/culture.ts';
import type { UncertainName } from './uncertain.ts';

/** What pots of one class, or of a double batch, may have in common. */
export const SHARED_THINGS = ['bottle', 'packet', 'milk', 'room', 'maker'] as const;
export type SharedThing = (typeof SHARED_THINGS)[number];

/** Which names of a thing two pots hold in common: pots with the same name for a thing share it. */
export type Sharing = Readonly<Partial<Record<SharedThing, string>>>;

/**
 * How much of an uncertain input two pots have in common that share the thing it belongs to: the share of its variance. The
 * rest is each pot's own: a drop more or less, a lid left open, another hand. Inputs that are not here are each pot's own.
 */
export const SHARES: Readonly<Partial<Record<UncertainName, { readonly thing: SharedThing; readonly share: number }>>> =
  {
    // One churn: only cream that rose while it was poured out differs. Our own choice.
    startPH: { thing: 'milk', share: 0.95 },
    casein: { thing: 'milk', share: 0.97 },
    fat: { thing: 'milk', share: 0.9 },
    bufferFactor: { thing: 'milk', share: 0.95 },
    milkAcidity: { thing: 'milk', share: 0.97 },
    // What the model does not know of this milk's clotting. From make to make some of it changes (`science/coagulation.ts`),
    // mostly with the milk; within one milk a quarter of that is left. Our own choice.
    clottingMaker: { thing: 'milk', share: 1 - 0.25 * (CLOTTING_LN_SD_CALIBRATED / CLOTTING_LN_SD) ** 2 },
    // Half of how a curd gives off whey is its milk, half is knife and paddle. Our own choice.
    wheyRate: { thing: 'milk', share: 0.5 },
    wheyEnd: { thing: 'milk', share: 0.5 },
    fatRecovery: { thing: 'milk', share: 0.5 },
    // One bottle; what is measured out of it is each pot's own. Our own choice.
    rennetStrength: { thing: 'bottle', share: 0.9 },
    // A lot whose makes are known still differs by so much from make to make (`science/culture.ts`).
    cultureActivity: { thing: 'packet', share: 1 - (DOSE_LN_SD.learnedLot / DOSE_LN_SD.unknownRoutine) ** 2 },
    // The same strains, woken at another moment. Our own choice.
    lag: { thing: 'packet', share: 0.8 },
    growthRate: { thing: 'packet', share: 0.97 },
    acidRate: { thing: 'packet', share: 0.97 },
    optimumTemperature: { thing: 'packet', share: 0.97 },
    heatHardiness: { thing: 'packet', share: 0.95 },
    acidAfterDrain: { thing: 'packet', share: 0.6 },
    room: { thing: 'room', share: 0.8 },
    // The same hands, eyes and instruments, on another pot. Our own choice.
    pace: { thing: 'maker', share: 0.6 },
    breakThreshold: { thing: 'maker', share: 0.7 },
    stretchThreshold: { thing: 'maker', share: 0.7 },
    arrivalDrop: { thing: 'maker', share: 0.5 },
    thermometer: { thing: 'maker', share: 0.7 },
    meter: { thing: 'maker', share: 0.8 },
  };

/**
 * Whether a thing of the same name means the same in both plans: an input stands for the same milk, packet or bottle only
 * where both plans say the same of it.
 */
export function meansTheSame(thing: SharedThing, a: Plan, b: Plan): boolean {
  return JSON.stringify(told(thing, a)) === JSON.stringify(told(thing, b));
}

function told(thing: SharedThing, { setup, make }: Plan): unknown {
  const { milk, culture, rennet, calcium, roomC, thermometerErrorC } = setup;
  switch (thing) {
    case 'milk':
      return [{ ...milk, volumeL: 0 }, calcium];
    case 'packet':
      return [make.doses.culture?.kind, culture.form, culture.measuredBy, culture.batchesWithLot, culture.bulkPercent === undefined]; // prettier-ignore
    case 'bottle':
      return rennet;
    case 'room':
      return roomC;
    case 'maker':
      return thermometerErrorC;
  }
}
