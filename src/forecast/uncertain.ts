import { positionsOf } from '../numbers/positions.ts';

/**
 * The uncertain inputs of one make: what differs from kitchen to kitchen and day to day and cannot be read off a label.
 * Inside the ensemble each is a standard normal number; `inputs.ts` turns it into milk, culture, curd and pot.
 */
export const UNCERTAIN = [
  'cultureActivity',
  'lag',
  'growthRate',
  'acidRate',
  'optimumTemperature',
  'bufferFactor',
  'startPH',
  'casein',
  'fat',
  'rennetStrength',
  'clottingMaker',
  'wheyRate',
  'wheyEnd',
  'fatRecovery',
  'acidAfterDrain',
  'heatLoss',
  'heater',
  'room',
  'thermometer',
  'arrivalDrop',
  'pace',
  'breakThreshold',
  'stretchThreshold',
  'milkModelError',
  'curdModelError',
  'curdErrorAfterReading',
  'meter',
  'stretchWater',
  'conductivity',
  'saltDiffusivity',
  'heatHardiness',
  'milkAcidity',
  'saltKept',
] as const;

export type UncertainName = (typeof UNCERTAIN)[number];
export const DIMENSIONS = UNCERTAIN.length;

/** Position of each uncertain input in a member's row. */
export const AT: Readonly<Record<UncertainName, number>> = positionsOf(UNCERTAIN);

/**
 * What is believed before or after a make, in standard units of the general prior: mean 0 and sd 1 say "a stranger's
 * kitchen". A kitchen that has learned its culture carries a smaller sd there.
 */
export type Beliefs = Readonly<Partial<Record<UncertainName, { readonly mean: number; readonly sd: number }>>>;

/** Beliefs that hang together, in the same units: a quick bottle or a quick milk, but hardly both. */
export interface JointBeliefs {
  /** One an uncertain input. */
  readonly mean: Float64Array;
  /** `DIMENSIONS` x `DIMENSIONS`, row-major, positive definite. */
  readonly covariance: Float64Array;
}
