/**
 * Names a make may use in `model`, and what each means there. `spread` is a standard deviation: of the value itself, or,
 * where `spreadOf` says `logarithm`, of its natural logarithm (the mean is then the median).
 */
export const MODEL_PARAMETERS = {
  fatRecovery: { unit: '-', spreadOf: 'value', meaning: 'share of the milk fat that is in the drained curd, before any stretching' },
  caseinRecovery: { unit: '-', spreadOf: 'value', meaning: 'share of the casein that is in the drained curd' },
  wheyEndFraction: { unit: '-', spreadOf: 'value', meaning: 'share of the milk that has left as whey when the curd has given all it will give' },
  wheyRateFactor: { unit: '-', spreadOf: 'logarithm', meaning: 'factor on the speed at which curd gives up whey' },
  acidAfterDrainFactor: { unit: '-', spreadOf: 'logarithm', meaning: 'factor on the speed of acid making once the curd is drained' },
  waterPerSalt: { unit: 'g/g', spreadOf: 'value', meaning: 'water that leaves the cheese for each gram of salt taken up' },
  skinMm: { unit: 'mm', spreadOf: 'value', meaning: 'extra cheese that a rind is worth to salt on its way in' },
  stretchFatLossFraction: { unit: '-', spreadOf: 'value', meaning: "share of the curd's fat that stays in the stretching water" },
  stretchWaterGainPercent: { unit: 'points', spreadOf: 'value', meaning: 'moisture points gained (or lost, below 0) in the hot water' },
  wheyProteinRecovery: { unit: '-', spreadOf: 'value', meaning: 'share of the whey protein that comes into the curd when milk or whey is heated with acid' },
  saltKeptFraction: { unit: '-', spreadOf: 'value', meaning: 'share of the dry salt that stays in the cheese; the rest runs off with the whey' },
  pressLossFraction: { unit: '-', spreadOf: 'value', meaning: 'share of the drained curd that runs off as whey in forms and under the press, beside what salt and acid drive out' },
  rindLeakFactor: { unit: '-', spreadOf: 'logarithm', meaning: 'factor on the water that a rind lets through as it ages' },
  clottingMakerFactor: { unit: '-', spreadOf: 'logarithm', meaning: "factor on clotting time: this maker's hands, milk and rennet" },
} as const; // prettier-ignore

export type ModelParameter = keyof typeof MODEL_PARAMETERS;
export const isModelParameter = (name: string): name is ModelParameter => Object.hasOwn(MODEL_PARAMETERS, name);
