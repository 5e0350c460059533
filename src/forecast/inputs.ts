import type { Plan } from '../make/plan.ts';
import { BUFFER_FACTOR_SD, CURD_RATE_FACTOR, exchangePerHour, type AcidParameters } from '../science/acidification.ts';
import { bufferTable, tableValue, TABLE_COLUMN, type BufferTable } from '../science/buffer.ts';
import { addedCalciumMM } from '../science/calcium.ts';
import { CLOTTING_LN_SD, clottingState, type ClottingState } from '../science/coagulation.ts';
import {
  CULTURE_SPREAD,
  CULTURES,
  DOSE_LN_SD,
  initialCellsKernel,
  lagOf,
  temperatureSpread,
  type CultureKind,
  type CultureTraits,
} from '../science/culture.ts';
import { fullFirmnessPa, HEAT_SOFTENING, HOMOGENISED_SOFTENING } from '../science/firmness.ts';
import { BURNER_W } from '../science/heater.ts';
import {
  milkComposition,
  milkDensityKgPerM3,
  milkSpecificHeatKJPerKgK,
  type MilkComposition,
} from '../science/milk.ts';
import { potFor, potHeatCapacityKJPerK, type Pot } from '../science/pot.ts';
import { CURD_MOISTURE_ERROR, wheyEndFractionFor } from '../science/syneresis.ts';
import { curdBasis, curdMoistureKernel, type CurdBasis } from '../science/syneresis-balance.ts';
import { lossCurve, scaledLoss, type LossCurve } from '../science/vat.ts';
import { vatRecovery } from '../science/yield-families.ts';
import { yieldFamilyOf } from './families.ts';
import { makerLnSdWith, realOverBelieved } from './rennet-belief.ts';
import { AT } from './uncertain.ts';
import { METER_BIAS_SD, thermometerBiasSd } from './reading-error.ts';

/** What all members of one plan share, worked out once. */
export interface Ground {
  readonly plan: Plan;
  readonly milk: MilkComposition;
  readonly milkKg: number;
  readonly densityKgPerL: number;
  readonly buffer: BufferTable;
  readonly pot: Pot;
  /** Full vat under its own keeping; open while it is worked; drained curd alone in the pot. */
  readonly lossKept: LossCurve;
  readonly lossOpen: LossCurve;
  readonly lossDrained: LossCurve;
  readonly potKJPerK: number;
  readonly milkKJPerK: number;
  readonly cubeMm: number;
  readonly rennetImcuPerL: number;
  readonly calciumGPerL: number;
  /** Base of the packet or starter before this batch's own activity [CFU/L]. */
  readonly cellsPerL: number;
}

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
}

const MILK_PH_SD = 0.04; // between milks of one species: Mahmood and Usman (2010) print 0.02 to 0.06, seen
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
const SALT_LN_SD = 0.21; // D +-35 % at 90 %, heat notes 6.2

/** What every member shares. */
export function groundOf(plan: Plan): Ground {
  const { setup, make } = plan;
  const milk = milkComposition({
    species: setup.milk.species,
    fatPercent: setup.milk.fatPercent,
    ...(setup.milk.proteinPercent === undefined ? {} : { proteinPercent: setup.milk.proteinPercent }),
    ...(setup.milk.pH === undefined ? {} : { pH: setup.milk.pH }),
  });
  const densityKgPerL =
    milkDensityKgPerM3({
      fatPercent: milk.fatPercent,
      solidsNotFatPercent: milk.solidsNotFatPercent,
      temperatureC: 20,
    }) / 1000;
  const milkKg = setup.milk.volumeL * densityKgPerL;
  const pot = potFor({ capacityL: setup.pot.volumeL, insideMm: setup.pot.insideMm, massKg: setup.pot.massKg });
  const volumeL = setup.milk.volumeL;
  const roomC = setup.roomC;
  const keeping = setup.pot.keptWarm;
  // What a pot was found to lose is found on the burner, open or under its lid; it says as much of every other way.
  const asFound = lossCurve({ pot, volumeL, roomC, keeping: keeping === 'open' ? 'open' : 'lid' });
  const learned = (setup.pot.lossWPerK ?? asFound.atBodyWPerK) / asFound.atBodyWPerK;
  const cooled = (litres: number, how: typeof keeping): LossCurve =>
    scaledLoss(lossCurve({ pot, volumeL: litres, roomC, keeping: how }), learned);
  const cut = plan.steps.find((step) => step.verb === 'cut')?.set.cubeMm;
  const calcium = make.doses.calcium;
  const takesCalcium =
    calcium !== undefined && setup.calcium.has && calcium.whenTreatments.includes(setup.milk.treatment);
  const { culture } = setup;
  return {
    plan,
    milk,
    milkKg,
    densityKgPerL,
    buffer: bufferTable(milk),
    pot,
    lossKept: cooled(volumeL, keeping),
    lossOpen: cooled(volumeL, 'open'),
    lossDrained: cooled(Math.max(0.5, 0.2 * volumeL), keeping),
    potKJPerK: potHeatCapacityKJPerK(pot),
    milkKJPerK: milkKg * milkSpecificHeatKJPerKgK({ composition: milk, temperatureC: 37 }),
    cubeMm: typeof cut === 'number' ? cut : 12,
    rennetImcuPerL: make.doses.rennet?.imcuPerL.aim ?? 0,
    calciumGPerL: takesCalcium ? calcium.gPerL.value : 0,
    cellsPerL: initialCellsKernel(
      culture.bulkPercent === undefined
        ? { packetFraction: culture.packetFraction }
        : { percentBulk: culture.bulkPercent },
    ),
  };
}

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
  const startPH = ground.milk.pH + (setup.milk.pH === undefined ? MILK_PH_SD : MEASURED_PH_SD) * z('startPH');
  const caseinPercent =
    ground.milk.caseinPercent * Math.exp((setup.milk.proteinPercent === undefined ? CASEIN_LN_SD : 0.02) * z('casein'));
  const fatPercent = ground.milk.fatPercent * Math.exp(FAT_LN_SD * z('fat'));
  const kappa = parameter('acidAfterDrainFactor', CURD_RATE_FACTOR.median, CURD_RATE_FACTOR.lnSd);
  const recovery = vatRecovery(yieldFamilyOf(make.family));
  const fatRecovery = parameter('fatRecovery', recovery.fatRecovery, 0.03);
  const caseinRecovery = parameter('caseinRecovery', recovery.caseinRecovery, 0.01);
  const basis = curdBasis(
    {
      ...ground.milk,
      fatPercent,
      caseinPercent,
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
  const wheyEndSd = Math.max(wheyEnd.spread, leastWheyEndSd(basis, wheyEnd.mean));
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
      0.94,
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

/** Spread of where syneresis ends that gives curd moisture its least honest band, whatever the make says. */
function leastWheyEndSd(basis: CurdBasis, wheyEndFraction: number): number {
  const nudge = 0.005;
  const slope =
    (curdMoistureKernel(basis, wheyEndFraction - nudge) - curdMoistureKernel(basis, wheyEndFraction + nudge)) /
    (2 * nudge);
  return CURD_MOISTURE_ERROR.halfWidthPoints / 1.645 / slope;
}

const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);
