import type { Ingredient } from '../make/step.ts';
import { lateAdditions, ownFraction } from './additions.ts';
import { laterSaltKg, type Decisions, type StepEnd } from './after-vat.ts';
import { stretchedCheese, takenByStretching, without } from './cheese.ts';
import type { MadeCheese } from './cheese-made.ts';
import {
  curdContents,
  curdKgOf,
  curdMoistureOf,
  drawnContents,
  dressingContents,
  NOTHING,
  SUBSTANCES,
  totalKgOf,
  wheyContents,
  type Contents,
} from './contents.ts';
import { type Course, type CourseStep } from './course.ts';
import type { Inputs } from './inputs.ts';
import { runMember } from './member.ts';
import { washWaterKg, waterWithKg, wheyStarterKg } from './pouring.ts';
import { COLD_WATER_C } from './vat-work.ts';
import { FIGURE_AT, type Figure, type MemberRun } from './run.ts';
import { newVat, type Vat } from './vat-state.ts';
import { observationsOf } from './walk.ts';

/**
 * Where the kilograms of one member's make are as each step ends, against what went in: a check of the simulator by the
 * scale. What went in comes from the plan and from the amounts that people are told to pour; where it is comes from the
 * member's state and from what people are told of curd and cheese. Nothing else runs it: a forecast does without.
 */
export interface Ledger {
  readonly stepId: string;
  readonly wentIn: Readonly<Record<Source, Contents>>;
  readonly there: Readonly<Record<Place, Contents>>;
  /** What the curd, later the cheese, weighs as people are told. */
  readonly toldKg: number;
}

export const SOURCES = [
  'milk',
  'starter',
  'withRennetAndCalcium',
  'washWater',
  'saltMixedIn',
  'acid',
  'dressing',
  'stretchingWater',
  'brine',
] as const;
export type Source = (typeof SOURCES)[number];

/**
 * Curd is all the milk before the cut, and the cheese once it is out of the hot water. Cheese that was weighed and does not
 * come to what was expected is off the scale: tasted, spilt, or never there.
 */
export const PLACES = ['curd', 'whey', 'drawnWhey', 'stretchingWater', 'drippings', 'brine', 'air', 'offTheScale'] as const; // prettier-ignore
export type Place = (typeof PLACES)[number];

/** The accounts of one member, step by step. */
export function ledgersOf(input: { course: Course; inputs: Inputs; decisions: Decisions }): Ledger[] {
  const { course, inputs } = input;
  const vat = newVat(inputs);
  const ledgers: Ledger[] = [];
  const onStepEnd: StepEnd = (ended) => ledgers.push(ledgerOf({ ...ended, course, vat }));
  runMember({ ...input, vat, observations: observationsOf(course), onStepEnd });
  return ledgers;
}

interface At {
  readonly course: Course;
  readonly vat: Vat;
  readonly run: MemberRun;
  /** The step that is just over. */
  readonly step: CourseStep;
  /** Null as long as it is in the vat. */
  readonly cheese: MadeCheese | null;
}

/** The accounts as they stand when a step is over. */
export function ledgerOf(at: At): Ledger {
  const { vat, step, cheese } = at;
  const poured = wentIn(at);
  const { holds, toldKg } = curdOrCheese(at);
  const isStretched = hasBeen(at, 'stretch');
  return {
    stepId: step.id,
    wentIn: poured,
    toldKg,
    there: {
      curd: holds,
      whey: wheyContents(vat),
      drawnWhey: drawnContents(vat),
      stretchingWater: isStretched ? plus(poured.stretchingWater, takenByStretching(vat, curdContents(vat))) : NOTHING,
      drippings: cheese?.dripped ?? NOTHING,
      brine: plus(poured.brine, cheese?.toBrine ?? NOTHING),
      air: plus({ ...NOTHING, waterKg: vat.evaporatedKg }, cheese?.driedOut ?? NOTHING),
      offTheScale: cheese?.offTheScale ?? NOTHING,
    },
  };
}

const figure = (at: At, name: Figure): number => {
  const value = at.run.figures[FIGURE_AT[name]] ?? Number.NaN;
  return Number.isNaN(value) ? 0 : value;
};

const hasBeen = (at: At, verb: CourseStep['verb']): boolean => doneSteps(at).some((step) => step.verb === verb);
const doneSteps = (at: At): readonly CourseStep[] => at.course.steps.slice(0, at.step.index + 1);

/** Curd by its weight and moisture as they are traced; cheese by its state, and in the end by its figures as told. */
function curdOrCheese(at: At): { holds: Contents; toldKg: number } {
  const { vat, cheese } = at;
  if (cheese === null) {
    const toldKg = curdKgOf(vat);
    const curd = { ...curdContents(vat), waterKg: (toldKg * curdMoistureOf(vat)) / 100 };
    if (!hasBeen(at, 'stretch')) return { holds: curd, toldKg };
    const stretched = without(curd, takenByStretching(vat, curdContents(vat)));
    return { holds: stretched, toldKg: totalKgOf(stretchedCheese(vat)) };
  }
  if (at.step !== at.course.steps.at(-1)) return { holds: cheese.holds, toldKg: totalKgOf(cheese.holds) };
  const toldKg = figure(at, 'cheeseKg');
  const waterKg = (toldKg * figure(at, 'moisturePercent')) / 100;
  return {
    holds: {
      ...cheese.holds,
      waterKg,
      fatKg: ((toldKg - waterKg) * figure(at, 'fatInDryMatterPercent')) / 100,
      saltKg: (toldKg * figure(at, 'saltPercent')) / 100,
    },
    toldKg,
  };
}

function wentIn(at: At): Ledger['wentIn'] {
  const { vat } = at;
  const { basis, ground, arrivalDropC, thermometerBiasC } = vat.inputs;
  const { milk } = basis;
  const done = doneSteps(at);
  const water = (waterKg: number): Contents => ({ ...NOTHING, waterKg });
  const washes = done.filter((step) => step.verb === 'wash');
  const [wash] = washes;
  const plannedC = wash?.plan.set.waterC;
  const measuredC = wash === undefined || wash.waterC === null ? null : wash.waterC - thermometerBiasC;
  const withKg = (ingredient: 'calcium' | 'rennet'): number =>
    fractionAdded(at, ingredient) * waterWithKg(vat.inputs, ingredient);
  const milkOf = (kg: number): Contents => ({
    waterKg: (kg * milk.waterKg) / 100,
    fatKg: (kg * milk.fatKg) / 100,
    caseinKg: (kg * milk.caseinKg) / 100,
    lactoseKg: (kg * milk.lactoseKg) / 100,
    saltKg: 0,
    otherKg: (kg * (milk.wheyProteinKg + milk.saltsKg + milk.otherKg)) / 100,
  });
  return {
    milk: milkOf(ground.milkKg),
    starter: starterOf(at, milkOf),
    withRennetAndCalcium: water(withKg('rennet') + withKg('calcium')),
    washWater: water(
      washes.length > 1 || (typeof plannedC === 'number' && plannedC < COLD_WATER_C)
        ? // Several waters, each of its own warmth: as poured.
          vat.washedKg
        : typeof plannedC === 'number'
          ? washWaterKg({ volumeL: figure(at, 'washWaterL'), arrivingC: (measuredC ?? plannedC) - arrivalDropC })
          : 0,
    ),
    saltMixedIn: { ...NOTHING, saltKg: mixedInKg(at) },
    acid: water(acidWaterKg(at)),
    dressing: at.cheese === null ? NOTHING : (dressingContents(vat) ?? NOTHING),
    stretchingWater: water(hasBeen(at, 'stretch') ? figure(at, 'stretchWaterKg') : 0),
    brine:
      hasBeen(at, 'brine') || (hasBeen(at, 'keepInLiquid') && !at.course.steps.some(({ verb }) => verb === 'brine'))
        ? { ...water(figure(at, 'brineKg') - figure(at, 'brineSaltKg')), saltKg: figure(at, 'brineSaltKg') }
        : NOTHING,
  };
}

/** Water that the acid brings, with its step or with the heat [kg]. */
function acidWaterKg(at: At): number {
  const { acid, plan } = at.vat.inputs.ground;
  if (acid === null) return 0;
  const hasOwn = at.course.steps.some((step) => step.verb === 'add' && step.plan.set.ingredient === 'acid');
  const share = hasOwn
    ? fractionAdded(at, 'acid')
    : Number(hasBeen(at, 'heatWithAcid')) * ownFraction(at.course, 'acid');
  return share * acid.waterKgPerL * plan.setup.milk.volumeL;
}

/** Salt mixed into the drained curd by now, as noted or by the plan's percent of the curd as it was told [kg]. */
function mixedInKg(at: At): number {
  return notedSaltKg(at) + (at.vat.saltMixedKg - Math.min(at.vat.saltMixedKg, notedSaltKg(at))) + laterSalt(at);
}

/** What is rubbed on after the vat is all there from the first step out of it. */
const laterSalt = (at: At): number =>
  at.cheese === null
    ? 0
    : laterSaltKg(at.course, totalKgOf(stretchedCheese(at.vat)) + totalKgOf(dressingContents(at.vat) ?? NOTHING));

function notedSaltKg(at: At): number {
  const { course, run, step } = at;
  const drained = doneSteps(at).find((done) => done.verb === 'drain');
  const fromMin = drained === undefined ? Number.NaN : (run.leftMin[drained.index] ?? Number.NaN);
  const nowMin = Math.min(run.leftMin[step.index] ?? Number.NaN, at.vat.minute);
  return course.history.readings.reduce((kg, { quantity, sample, value, elapsedMin }) => {
    const isMixed = quantity === 'saltG' && (sample === 'curd' || sample === 'cheese');
    return isMixed && elapsedMin >= fromMin && elapsedMin <= nowMin ? kg + value / 1000 : kg;
  }, 0);
}

/** Shares of the planned amount that have gone in by now: at the step itself, and late. */
function fractionAdded(at: At, ingredient: Ingredient, byMin = Number.POSITIVE_INFINITY): number {
  const { course, run, step } = at;
  const own = doneSteps(at).find((done) => done.verb === 'add' && done.plan.set.ingredient === ingredient);
  const ownMin = own === undefined ? Number.NaN : (run.leftMin[own.index] ?? Number.NaN);
  const nowMin = Math.min(run.leftMin[step.index] ?? Number.POSITIVE_INFINITY, at.vat.minute);
  const late = lateAdditions(course).filter(
    (entry) => entry.ingredient === ingredient && entry.elapsedMin <= nowMin && entry.elapsedMin < byMin,
  );
  return (
    (ownMin < byMin ? ownFraction(course, ingredient) : 0) + late.reduce((sum, entry) => sum + entry.fractionOfPlan, 0)
  );
}

/** Bulk starter is this milk, soured; whey starter its serum: water, lactose and the rest as they stand in the milk. */
function starterOf(at: At, milkOf: (kg: number) => Contents): Contents {
  const { basis, ground } = at.vat.inputs;
  const { culture } = ground.plan.setup;
  if (culture.bulkPercent === undefined) return NOTHING;
  const cutMin = Number.isNaN(at.vat.cutMin) ? Number.POSITIVE_INFINITY : at.vat.cutMin;
  const percent = culture.bulkPercent * fractionAdded(at, 'culture', cutMin);
  if (culture.form !== 'whey') return milkOf((percent / 100) * ground.milkKg);
  const otherKg = basis.otherPerSolventWater * basis.solventWaterKg;
  const perKg = wheyStarterKg(ground, percent) / (basis.solventWaterKg + otherKg + basis.milk.lactoseKg);
  return {
    ...NOTHING,
    waterKg: perKg * basis.solventWaterKg,
    lactoseKg: perKg * basis.milk.lactoseKg,
    otherKg: perKg * otherKg,
  };
}

const plus = (a: Contents, b: Contents): Contents => without(a, without(NOTHING, b));

/** What cannot be accounted for, as a share of what curd or cheese holds of it; the last is all of the curd, as told. */
export interface Gaps {
  readonly waterKg: number;
  readonly fatKg: number;
  readonly caseinKg: number;
  readonly lactoseKg: number;
  readonly saltKg: number;
  readonly otherKg: number;
  readonly toldKg: number;
}

/** How far the accounts fail to close. Above 0 where something appeared, below where something was lost. */
export function gapsOf(ledger: Ledger): Gaps {
  const gaps = { waterKg: 0, fatKg: 0, caseinKg: 0, lactoseKg: 0, saltKg: 0, otherKg: 0, toldKg: 0 };
  const { curd } = ledger.there;
  for (const substance of SUBSTANCES) {
    const there = PLACES.reduce((sum, place) => sum + ledger.there[place][substance], 0);
    const given = SOURCES.reduce((sum, source) => sum + ledger.wentIn[source][substance], 0);
    gaps[substance] = curd[substance] > 0 ? (there - given) / curd[substance] : there - given;
  }
  gaps.toldKg = totalKgOf(curd) / ledger.toldKg - 1;
  return gaps;
}
