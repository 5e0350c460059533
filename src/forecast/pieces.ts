import { BRINE_PER_CHEESE } from '../make/amounts.ts';
import type { PlannedStep } from '../make/plan.ts';
import { ballDiameterMm, type Body } from '../science/body.ts';
import { cheeseThermal } from '../science/cheese-thermal.ts';
import { cheeseOverTime, minutesToCore } from '../science/cooling.ts';
import {
  cheeseDensityFromMoistureKgPerM3,
  saltDiffusivityKernel,
  saltedCheeseKernel,
  saltingTerms,
  saltPerWaterOf,
  saltTakenKernel,
  saltUptakeFraction,
  type SaltedCheese,
} from '../science/salting.ts';
import { firstReached } from '../numbers/roots.ts';
import type { BodyTerms } from '../science/body.ts';
import type { Course } from './course.ts';

/**
 * What the plan decides about shaped pieces, once for all members: their size, how long they cool and how long they lie in
 * the brine. The members then differ in what those minutes do.
 */
export interface Decisions {
  readonly pieceKg: number;
  readonly body: Body;
  readonly formedC: number;
  readonly bathC: number;
  /** Minutes in the cold bath for cheese that conducts as the tables say; 0 without a cooling step. */
  readonly coolMin: number;
  /** Core temperature at equal shares of `coolMin`, from 0 to `COOL_SPAN` times it. */
  readonly coreCurveC: readonly number[];
  readonly brine: BrineDecision | null;
}

export interface BrineDecision {
  /** Which step it is: the bath, or the liquid that the cheese is kept in. */
  readonly verb: 'brine' | 'keepInLiquid';
  readonly minutes: number;
  /** Brine for each kilogram of cheese [kg]. */
  readonly perCheeseKg: number;
  readonly brinePercent: number;
  readonly brineC: number;
  readonly waterPerSalt: number;
  readonly terms: BodyTerms;
}

const FORMED_BELOW_STRETCH_C = 5; // cheese handled for ten minutes after the hot water: common practice (no source)
const UNSTRETCHED_C = 30; // until the first run says: our own choice
const DEFAULT_PIECE_G = 125;
const LONGEST_BRINE_H = 240;
const DAY_MIN = 1440;
/** The core's curve is tabled to twice the planned time. */
const COOL_SPAN = 2;
const COOL_POINTS = 41;

/** Sizes and times from the plan and the moisture the cheese is expected to have. */
export function decisionsOf(input: {
  course: Course;
  moisturePercent: number;
  fatPercent: number;
  /** What the curd is at when it leaves the vat; the stretching decides it where there is one. */
  leavesC?: number;
}): Decisions {
  const { course } = input;
  const verb = (wanted: PlannedStep['verb']): PlannedStep | undefined =>
    course.plan.steps.find((step) => step.verb === wanted);
  const form = verb('form');
  const pieceG = course.plan.setup.pieceG ?? numeric(form?.set.pieceG) ?? DEFAULT_PIECE_G;
  const moisturePercent = Math.min(Math.max(input.moisturePercent, 26), 79);
  const fatPercent = Math.min(Math.max(input.fatPercent, 0), Math.min(44, 94 - moisturePercent));
  const densityKgPerM3 = cheeseDensityFromMoistureKgPerM3(moisturePercent);
  const body = bodyOf(form, pieceG / 1000 / densityKgPerM3);
  const stretchedC = numeric(verb('stretch')?.set.curdTargetC);
  const formedC = stretchedC === undefined ? (input.leavesC ?? UNSTRETCHED_C) : stretchedC - FORMED_BELOW_STRETCH_C;
  const cool = course.steps.slice(course.leavesAt).find((step) => step.verb === 'cool')?.plan;
  const bathC = read(course, 'cool') ?? numeric(cool?.set.bathC) ?? 2;
  const core = cool?.until.of.find((condition) => condition.kind === 'coreTemperature');
  const thermal = cheeseThermal({ moisturePercent, fatPercent, temperatureC: 30 });
  const cooling = { body, fromC: formedC, bathC, thermal };
  const cheeseAt = cheeseOverTime(cooling);
  const coolMin =
    core?.kind === 'coreTemperature'
      ? minutesToCore({ ...cooling, targetCoreC: Math.max(core.atC.value, bathC + 0.5) })
      : 0;
  return {
    pieceKg: pieceG / 1000,
    body,
    formedC,
    bathC,
    coolMin,
    coreCurveC: Array.from(
      { length: COOL_POINTS },
      (_, i) => cheeseAt((COOL_SPAN * coolMin * i) / (COOL_POINTS - 1)).coreC,
    ),
    brine: brineOf(course, body, moisturePercent),
  };
}

/** The bath or brine by the maker's thermometer, where it was read. */
const read = (course: Course, verb: PlannedStep['verb']): number | null =>
  course.steps.find((step) => step.verb === verb)?.waterC ?? null;

const numeric = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);

function bodyOf(form: PlannedStep | undefined, volumeM3: number): Body {
  const shape = form?.set.shape;
  if (shape === 'cylinder') {
    const slenderness = numeric(form?.set.slenderness) ?? 1;
    const diameterMm = 1000 * Math.cbrt((4 * volumeM3) / (Math.PI * slenderness));
    return { shape: 'cylinder', mm: [diameterMm, diameterMm * slenderness] };
  }
  if (shape === 'brick') {
    // Two to one and a half to one: a loaf; common practice (no source).
    const edgeMm = 1000 * Math.cbrt(volumeM3 / 3);
    return { shape: 'brick', mm: [2 * edgeMm, 1.5 * edgeMm, edgeMm] };
  }
  return { shape: 'sphere', mm: [ballDiameterMm(volumeM3)] };
}

function brineOf(course: Course, body: Body, moisturePercent: number): BrineDecision | null {
  const verb = course.plan.steps.some((candidate) => candidate.verb === 'brine') ? 'brine' : 'keepInLiquid';
  const step = course.plan.steps.find((candidate) => candidate.verb === verb);
  const brinePercent = numeric(step?.set.brinePercent);
  const brineC = read(course, verb) ?? numeric(step?.set.brineC);
  if (step === undefined || brinePercent === undefined || brineC === undefined) return null;
  const waterPerSalt = course.plan.make.model['waterPerSalt']?.mean ?? 1.5;
  const terms = saltingTerms({ body, skinMm: course.plan.make.model['skinMm']?.mean ?? 0 });
  const base: BrineDecision = {
    verb,
    minutes: 0,
    perCheeseKg: BRINE_PER_CHEESE[verb],
    brinePercent,
    brineC,
    waterPerSalt,
    terms,
  };
  const target = step.until.of.find((condition) => condition.kind === 'salt');
  const stated = step.until.of.find((condition) => condition.kind === 'time');
  const days = step.until.of.find((condition) => condition.kind === 'days');
  const lying = days?.kind === 'days' ? DAY_MIN * days.days.value : 30;
  if (target?.kind !== 'salt') return { ...base, minutes: stated?.kind === 'time' ? stated.minutes.value : lying };
  const after = salted({ brine: base, moisturePercent, diffusivityFactor: 1, waterPerSalt });
  const isReached = (minutes: number): boolean => after(minutes).saltPercent >= target.percent.value;
  const minutes = firstReached({ isReached, low: 0.1, high: 60 * LONGEST_BRINE_H, tolerance: 0.01 });
  return { ...base, minutes: minutes ?? 60 * LONGEST_BRINE_H };
}

/** Temperature in the middle of a piece so long after it went into the bath; how long this one takes stretches the curve. */
export function coreAtC(input: { decisions: Decisions; coolMin: number; minutes: number }): number {
  const { coreCurveC } = input.decisions;
  const share = input.minutes / (COOL_SPAN * input.coolMin);
  const position = Math.min(Math.max(share, 0), 1) * (coreCurveC.length - 1);
  const row = Math.min(Math.floor(position), coreCurveC.length - 2);
  const below = coreCurveC[row] ?? Number.NaN;
  return below + (position - row) * ((coreCurveC[row + 1] ?? Number.NaN) - below);
}

/** One cheese in a brine. */
interface Brining {
  readonly brine: BrineDecision;
  readonly moisturePercent: number;
  readonly diffusivityFactor: number;
  readonly waterPerSalt: number;
  /** Salt that was mixed in before, kg per kg. */
  readonly startSaltPerKg?: number;
}

/** Salt that a cheese takes up in so many minutes, kg per kg; what does not change with time is worked out once. */
export function saltUptake(input: Brining): (minutes: number) => number {
  const { brine, moisturePercent, waterPerSalt, startSaltPerKg = 0 } = input;
  const moistureFraction = moisturePercent / 100;
  const diffusivityM2PerS =
    input.diffusivityFactor * saltDiffusivityKernel({ moisturePercent, temperatureC: brine.brineC });
  const above = Math.max(saltPerWaterOf(brine.brinePercent) - startSaltPerKg / moistureFraction, 0);
  const saltPerWater = above * shareLeft(brine, moistureFraction);
  return (minutes) =>
    saltTakenKernel({
      uptakeFraction: saltUptakeFraction({ prepared: brine.terms, diffusivityM2PerS, seconds: 60 * minutes }),
      moistureFraction,
      saltPerWater,
      waterPerSalt,
    });
}

/** In a tub just covered the brine grows weaker as the cheese takes its salt: what is left of the difference when both agree. */
function shareLeft({ verb, brinePercent, perCheeseKg }: BrineDecision, moistureFraction: number): number {
  if (verb === 'brine') return 1;
  const waterKg = perCheeseKg * (1 - brinePercent / 100);
  return waterKg / (waterKg + moistureFraction);
}

/** The cheese after so many minutes in the brine; what does not change with time is worked out once. */
function salted(input: Brining): (minutes: number) => SaltedCheese {
  const { moisturePercent, waterPerSalt, startSaltPerKg = 0 } = input;
  const taken = saltUptake(input);
  return (minutes) =>
    saltedCheeseKernel({
      moistureFraction: moisturePercent / 100,
      startSaltPerKg,
      saltTakenPerKg: taken(minutes),
      waterPerSalt,
    });
}
