import type { Plan } from '../make/plan.ts';
import { BUFFER_FACTOR_SD, CURD_RATE_FACTOR, exchangePerHour, type AcidParameters } from '../science/acidification.ts';
import { tableValue, TABLE_COLUMN } from '../science/buffer.ts';
import { addedCalciumMM } from '../science/calcium.ts';
import { CLOTTING_LN_SD, clottingState, type ClottingState } from '../science/coagulation.ts';
import {
  CULTURE_SPREAD,
  CULTURES,
  DOSE_LN_SD,
  lagOf,
  temperatureSpread,
  type CultureKind,
  type CultureTraits,
} from '../science/culture.ts';
import { fullFirmnessPa, HEAT_SOFTENING, HOMOGENISED_SOFTENING } from '../science/firmness.ts';
import { BURNER_W } from '../science/heater.ts';
import { CURD_MOISTURE_ERROR, wheyEndFractionFor } from '../science/syneresis.ts';
import { curdBasis, curdMoistureKernel, type CurdBasis } from '../science/syneresis-balance.ts';
import { vatRecovery } from '../science/yield-families.ts';
import { yieldFamilyOf } from './families.ts';
import type { Ground } from './ground.ts';
import { makerLnSdWith, realOverBelieved } from './rennet-belief.ts';
import { AT } from './uncertain.ts';
import { METER_BIAS_SD, thermometerBiasSd } from './reading-error.ts';

export { groundOf, type Ground } from './ground.ts';

/** One member's own milk, culture, curd and pot. */
export interface Inputs {
  readonly ground: Ground;
  readonly acid: AcidParameters;
  readonly cellsPerL: number;
  readonly lagWork: number;
  readonly startPH: number;
  readonly clotting: ClottingState;
  /** What the gel comes to in the end. */
  readonly fullFirmnessPa: number;
  readonly basis: CurdBasis;
  readonly wheyEndFraction: number;
  readonly wheyRateFactor: number;
  readonly lossFactor: number;
  readonly heaterW: number;
  readonly roomC: number;
  readonly thermometerBiasC: number;
  readonly meterBiasPH: number;
  readonly arrivalDropC: number;
  /** Factor on the minutes that hands take. */
  readonly pace: number;
  readonly breakZ: number;
  readonly stretchZ: number;
  readonly milkErrorZ: number;
  readonly curdErrorZ: number;
  readonly curdErrorAfterReadingZ: number;
  readonly stretchWaterZ: number;
  readonly conductivityFactor: number;
  readonly saltFactor: number;
  readonly stretchFatLossFraction: number;
  readonly stretchWaterGainPercent: number;
  readonly waterPerSalt: number;
  readonly heatHardinessZ: number;
  readonly milkAcidityZ: number;
  readonly saltKeptZ: number;
  /** Share of dry salt that stays; NaN where the make leaves it to `observe-salt.ts`. */
  readonly saltKeptFraction: number;
  /** Of the drained curd, lost in forms and under the press. */
  readonly pressLossFraction: number;
  /** Factor on what a rind lets through. */
  readonly rindLeakFactor: number;
  /** Factor on a dose of acid, or on what the milk takes of it. */
  readonly acidFactor: number;
}

const MILK_PH_SD = 0.04; // between milks of one species: Mahmood and Usman (2010) print 0.02 to 0.06, seen
const WHEY_PH_SD = 0.06; // whey of an hour or of three: our own choice
const MEASURED_PH_SD = 0.03; // a kitchen meter after calibration, acidification notes 5.5 (our own)
const CASEIN_LN_SD = 0.05; // unknown protein of a carton, our own reading of the factory spread 2.20-2.85 %
const FAT_LN_SD = 0.04; // carton's stated fat, our own choice
const SPOON_LN_SD = 0.3; // a spoon of powder is about 30 % off: common practice (no source)
const HEAT_LOSS_LN_SD = 0.3; // draughts and lids, our own choice after heat notes 2.3
const KNOWN_HEATER_LN_SD = 0.05; // learned from readings, heat notes 2.5
const ROOM_SD_C = 1; // our own choice
const ARRIVAL_DROP_C = { mean: 2.5, sd: 0.9 }; // prior 2.5 +- 1.5 at 90 %, heat notes 2.7
const PACE_LN_SD = 0.2; // our own choice: hands differ by a third either way
const CONDUCTIVITY_LN_SD = 0.07; // +-12 % at 90 %, heat notes 1.2
const DIRECT_ACID_LN_SD = 0.15; // uncertainty of the acid that milk takes, `science/buffer-acid.ts` (our own)
const PRESS_LOSS = { mean: 0.05, sd: 0.02 }; // no measured figure found; our own estimate from moistures at hooping and after the press
const RIND_LEAK_LN_SD = 0.25; // ±50 % at 90 % before two weighings, `science/ageing.ts`
/** Heat with acid takes 90 % of milk's protein against 76-78 % for rennet, abstract seen: 0.6-0.7 of the whey protein; of whey, 0.7 our own. */
const WHEY_PROTEIN_CAUGHT = { milk: { mean: 0.65, spread: 0.1 }, whey: { mean: 0.75, spread: 0.1 } };
const MOST_WHEY_OF_WHEY = 0.985; // our own bound: a kilogram and a half of curd from a hundred of whey
const SALT_LN_SD = 0.21; // D +-35 % at 90 %, heat notes 6.2

/** One member's inputs from its row of standard normal numbers. */
export function inputsOf(ground: Ground, row: Float64Array): Inputs {
  const { plan } = ground;
  const { setup, make } = plan;
  const z = (name: keyof typeof AT): number => row[AT[name]] ?? 0;
  const parameter = (name: string, mean: number, spread: number): { mean: number; spread: number } =>
    make.model[name] ?? { mean, spread };
  const { culture } = setup;
  const traits = memberTraits(cultureKindOf(make), z);
  const lag = lagOf({ form: culture.form });
  const learned = culture.batchesWithLot >= 8;
  const doseLnSd = Math.hypot(
    learned ? DOSE_LN_SD.learnedLot : DOSE_LN_SD.unknownRoutine,
    culture.measuredBy === 'spoon' ? SPOON_LN_SD : 0,
  );
  const usualSd = ground.isWhey ? WHEY_PH_SD : MILK_PH_SD;
  const startPH = ground.milk.pH + (setup.milk.pH === undefined ? usualSd : MEASURED_PH_SD) * z('startPH');
  const caseinPercent =
    ground.milk.caseinPercent * Math.exp((setup.milk.proteinPercent === undefined ? CASEIN_LN_SD : 0.02) * z('casein'));
  const fatPercent = ground.milk.fatPercent * Math.exp(FAT_LN_SD * z('fat'));
  const kappa = parameter('acidAfterDrainFactor', CURD_RATE_FACTOR.median, CURD_RATE_FACTOR.lnSd);
  const recovery = vatRecovery(yieldFamilyOf(make.family));
  const fatRecovery = parameter('fatRecovery', recovery.fatRecovery, 0.03);
  const caseinRecovery = parameter('caseinRecovery', recovery.caseinRecovery, 0.01);
  const caught = caughtWheyProtein(ground, z('fatRecovery'));
  const basis = curdBasis(
    {
      ...ground.milk,
      fatPercent,
      caseinPercent: caseinPercent * (1 + caught),
      proteinPercent: (ground.milk.proteinPercent * caseinPercent) / ground.milk.caseinPercent,
      solidsNotFatPercent:
        ground.milk.solidsNotFatPercent + ground.milk.proteinPercent * (caseinPercent / ground.milk.caseinPercent - 1),
    },
    {
      fatRecovery: clamp(fatRecovery.mean + fatRecovery.spread * z('fatRecovery'), 0.6, 0.99),
      caseinRecovery: caseinRecovery.mean,
      mineralsPerCasein: recovery.mineralsPerCasein,
    },
  );
  const wheyEnd = parameter('wheyEndFraction', 0.865, CURD_MOISTURE_ERROR.wheyEndFractionSd);
  const wheyEndSd = Math.max(wheyEnd.spread, leastWheyEndSd(ground, basis, wheyEnd.mean));
  const wheyRate = parameter('wheyRateFactor', 1, CURD_MOISTURE_ERROR.rateLnSd);
  const { rennet } = setup;
  const maker = parameter('clottingMakerFactor', 1, CLOTTING_LN_SD);
  const makerLnSd = makerLnSdWith({ rennet, lnSd: Math.max(maker.spread, 0.05) });
  const clotting = clottingState({
    // The plan measures out millilitres for the strength it believes; a bottle that differs gives a dose that differs.
    doseImcuPerL: ground.rennetImcuPerL * realOverBelieved({ rennet, z: z('rennetStrength') }),
    temperatureC: 37,
    pH: startPH,
    addedCalciumMM: addedCalciumMM(ground.calciumGPerL),
    heatTreatment: setup.milk.treatment,
    species: setup.milk.species,
    makerFactor: maker.mean * Math.exp(makerLnSd * z('clottingMaker')),
  });
  const burner = BURNER_W[setup.pot.burner];
  const fatLoss = parameter('stretchFatLossFraction', 0.035, 0.015);
  const gain = parameter('stretchWaterGainPercent', 0, 1.5);
  const waterPerSalt = parameter('waterPerSalt', 1.5, 0.4);
  const kept = make.model['saltKeptFraction'];
  const pressed = parameter('pressLossFraction', PRESS_LOSS.mean, PRESS_LOSS.sd);
  const leak = parameter('rindLeakFactor', 1, RIND_LEAK_LN_SD);
  return {
    ground,
    acid: {
      culture: traits,
      buffer: ground.buffer,
      bufferFactor: 1 + BUFFER_FACTOR_SD * z('bufferFactor'),
      curdRateFactor: kappa.mean * Math.exp(kappa.spread * z('acidAfterDrain')),
      drainedDissolvedFraction: 0.15,
      exchangePerHour: exchangePerHour(ground.cubeMm),
      serumProtonsAtStart: tableValue({ table: ground.buffer, pH: startPH, column: TABLE_COLUMN.serumProtons }),
    },
    cellsPerL: ground.cellsPerL * Math.exp(doseLnSd * z('cultureActivity')),
    lagWork: lag.medianWork * Math.exp(lag.lnSd * z('lag')),
    startPH,
    clotting,
    fullFirmnessPa: fullFirmnessPa({
      caseinPercent,
      softening: HEAT_SOFTENING[setup.milk.treatment] * (setup.milk.homogenised ? HOMOGENISED_SOFTENING : 1),
    }),
    basis,
    wheyEndFraction: clamp(
      wheyEndFractionFor({
        wheyEndFraction: 1 - (1 - wheyEnd.mean) * Math.exp((wheyEndSd / (1 - wheyEnd.mean)) * z('wheyEnd')),
        gelSolidsKg: basis.gelSolidsKg,
      }),
      0.6,
      ground.isWhey ? MOST_WHEY_OF_WHEY : 0.94,
    ),
    wheyRateFactor: wheyRate.mean * Math.exp(wheyRate.spread * z('wheyRate')),
    lossFactor:
      setup.pot.lossWPerK === undefined ? Math.exp(HEAT_LOSS_LN_SD * z('heatLoss')) : 1 + 0.05 * z('heatLoss'),
    heaterW:
      setup.pot.heaterW === undefined
        ? burner.median * Math.exp(burner.logSd * z('heater'))
        : setup.pot.heaterW * Math.exp(KNOWN_HEATER_LN_SD * z('heater')),
    roomC: setup.roomC + ROOM_SD_C * z('room'),
    thermometerBiasC: thermometerBiasSd(setup) * z('thermometer'),
    meterBiasPH: METER_BIAS_SD * z('meter'),
    arrivalDropC: Math.max(0, ARRIVAL_DROP_C.mean + ARRIVAL_DROP_C.sd * z('arrivalDrop')),
    pace: Math.exp(PACE_LN_SD * z('pace')),
    breakZ: z('breakThreshold'),
    stretchZ: z('stretchThreshold'),
    milkErrorZ: z('milkModelError'),
    curdErrorZ: z('curdModelError'),
    curdErrorAfterReadingZ: z('curdErrorAfterReading'),
    stretchWaterZ: z('stretchWater'),
    conductivityFactor: Math.exp(CONDUCTIVITY_LN_SD * z('conductivity')),
    saltFactor: Math.exp(SALT_LN_SD * z('saltDiffusivity')),
    stretchFatLossFraction: clamp(fatLoss.mean + fatLoss.spread * z('stretchWater'), 0.005, 0.2),
    stretchWaterGainPercent: gain.mean + gain.spread * z('stretchWater'),
    waterPerSalt: Math.max(1.05, waterPerSalt.mean),
    heatHardinessZ: z('heatHardiness'),
    milkAcidityZ: z('milkAcidity'),
    saltKeptZ: z('saltKept'),
    saltKeptFraction: kept === undefined ? Number.NaN : clamp(kept.mean + kept.spread * z('saltKept'), 0.1, 1),
    pressLossFraction: clamp(pressed.mean + pressed.spread * z('stretchWater'), 0, 0.4),
    rindLeakFactor: leak.mean * Math.exp(leak.spread * z('stretchWater')),
    acidFactor: Math.exp(DIRECT_ACID_LN_SD * z('acidRate')),
  };
}

/** Of a make without a culture nothing is asked that this decides. */
export const cultureKindOf = (make: Plan['make']): CultureKind => make.doses.culture?.kind ?? 'mesophilic';

function memberTraits(kind: CultureKind, z: (name: keyof typeof AT) => number): CultureTraits {
  const typical = CULTURES[kind];
  return {
    ...typical,
    temperatureOptC: typical.temperatureOptC + temperatureSpread(kind).temperatureOptSdC * z('optimumTemperature'),
    growthRatePerHour: typical.growthRatePerHour * Math.exp(CULTURE_SPREAD.growthRateLnSd * z('growthRate')),
    acidRateMmolPerCfuHour: typical.acidRateMmolPerCfuHour * Math.exp(CULTURE_SPREAD.acidRateLnSd * z('acidRate')),
  };
}

/** Heated with acid, whey protein comes down with the casein: how much of it, per casein; 0 where nothing is curdled by heat. */
function caughtWheyProtein(ground: Ground, z: number): number {
  const own = ground.plan.make.model['wheyProteinRecovery'];
  if (own === undefined && !ground.isHeatCurdled) return 0;
  const { mean, spread } = own ?? (ground.isWhey ? WHEY_PROTEIN_CAUGHT.whey : WHEY_PROTEIN_CAUGHT.milk);
  return (clamp(mean + spread * z, 0, 1) * ground.milk.wheyProteinPercent) / ground.milk.caseinPercent;
}

/** Spread of where syneresis ends that gives curd moisture its least honest band, whatever the make says. */
function leastWheyEndSd(ground: Ground, basis: CurdBasis, wheyEndFraction: number): number {
  const nudge = 0.005;
  if (ground.isWhey) {
    // Whey holds so little that the curd is a twentieth of it: the slope is taken where this whey ends, for the share that stays.
    const at = wheyEndFractionFor({ wheyEndFraction, gelSolidsKg: basis.gelSolidsKg });
    const step = nudge * (1 - at);
    const perShare = (curdMoistureKernel(basis, at - step) - curdMoistureKernel(basis, at + step)) / (2 * nudge);
    return ((1 - wheyEndFraction) * CURD_MOISTURE_ERROR.halfWidthPoints) / 1.645 / perShare;
  }
  const slope =
    (curdMoistureKernel(basis, wheyEndFraction - nudge) - curdMoistureKernel(basis, wheyEndFraction + nudge)) /
    (2 * nudge);
  return CURD_MOISTURE_ERROR.halfWidthPoints / 1.645 / slope;
}

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
