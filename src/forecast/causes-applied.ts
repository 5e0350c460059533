import type { History } from '../make/history.ts';
import type { Plan, PlannedStep } from '../make/plan.ts';
import type { Ingredient } from '../make/step.ts';
import { tableValue, TABLE_COLUMN } from '../science/buffer.ts';
import { HEAT_SOFTENING, HOMOGENISED_SOFTENING } from '../science/firmness.ts';
import { lastsHere, type Cause, type FactorName, type OffsetName, type SettingChange, type Size } from './causes.ts';
import { courseOf, type Course } from './course.ts';
import { groundOf, inputsOf, type Ground, type Inputs } from './inputs.ts';
import type { Decisions } from './pieces.ts';
import { AT } from './uncertain.ts';
import { observationsOf, type Observation } from './walk.ts';

/** A make as it would have been with a cause at work: plan, course and inputs, ready to be run member by member. */

/** A plan whose settings were really others, with everything digested that all its members share. */
export interface Variant {
  readonly course: Course;
  readonly ground: Ground;
  readonly observations: readonly Observation[];
  readonly decisions: Decisions;
}

/** What a cause makes of one member. */
export interface Supposed {
  readonly variant: Variant;
  readonly inputs: Inputs;
  /** The variant's own, but for a brine that nobody noted the end of: there a cause decides how long. */
  readonly decisions: Decisions;
  readonly stretchWaterOffsetC: number;
  /** Bottle and packet against what is usual, as a test in a cup would show them: factors. */
  readonly rennetStrength: number;
  readonly cultureAlive: number;
  /** Softness that treatment of the milk gives the gel, factor. */
  readonly softening: number;
  /** Logarithm of how much longer each step lasted than milk and plan wanted. */
  readonly lastsLn: readonly number[];
  /** Logarithm of an ingredient's dose over the planned one, where it is this cause that it was another. */
  doseLn(ingredient: string): number;
}

export interface Supposition {
  readonly cause: Cause | null;
  /** @param sizes standard normal numbers, one for each change of the cause; the middle size where left out */
  member(input: { readonly index: number; readonly row: Float64Array; readonly sizes: Float64Array }): Supposed;
}

/** Standard units at which changed settings are run: settings are shared by many members, so three stand for all. */
const SETTING_SIZES = [-1.2, 0, 1.2] as const; // equal weights, variance 0.96: our own choice

/** Columns of sizes that a cause can use. */
export const MOST_SIZES = 4;

/**
 * Prepares one cause, or none: "nothing unusual".
 * @param input.settingSize  one size in standard units for all changed settings; three equal shares where left out
 */
export function suppose(input: {
  readonly plan: Plan;
  readonly history: History;
  readonly cause: Cause | null;
  readonly base: Variant;
  readonly settingSize?: number;
}): Supposition {
  const { plan, history, cause, base } = input;
  const settings = cause?.settings ?? [];
  const sizes = input.settingSize === undefined ? SETTING_SIZES : [input.settingSize];
  const variants =
    settings.length === 0 ? [base] : sizes.map((z) => changedVariant({ plan, history, settings, z, base }));
  const noted = notedDoses(history);
  const lasts = cause?.lasts ?? [];
  const { treatment, homogenised } = plan.setup.milk;
  const saidSoftening = HEAT_SOFTENING[treatment] * (homogenised ? HOMOGENISED_SOFTENING : 1);
  return {
    cause,
    member: ({ index, row, sizes: z }) => {
      const variant = variants[index % variants.length] ?? base;
      const shifted = shiftedRow(row, cause);
      const of = sizesOf(cause, z);
      const lastsLn = plan.steps.map((_, step) =>
        lasts.reduce((sum, change, at) => sum + (lastsHere(change, plan, step) ? sizedLn(change.factor, z[at]) : 0), 0),
      );
      const inputs = changedInputs(inputsOf(variant.ground, shifted), of, noted);
      return {
        variant,
        inputs,
        decisions: decidedBy(variant, lastsLn),
        stretchWaterOffsetC: of.offset('stretchWaterC'),
        rennetStrength: of.factor('rennetStrength'),
        cultureAlive: of.factor('cultureAlive'),
        softening: saidSoftening * of.factor('softening'),
        lastsLn,
        doseLn: (ingredient) => (isDose(ingredient) ? Math.log(of.factor(ingredient)) : 0),
      };
    },
  };
}

/** How long the cheese lay in the brine, where only the cause says so. */
function decidedBy({ course, decisions }: Variant, lastsLn: readonly number[]): Decisions {
  const { brine } = decisions;
  const step = course.steps.find(({ verb, endedMin, nextStartedMin }) => verb === 'brine' && endedMin === null && nextStartedMin === null); // prettier-ignore
  const ln = step === undefined ? 0 : (lastsLn[step.index] ?? 0);
  return brine === null || ln === 0 ? decisions : { ...decisions, brine: { ...brine, minutes: brine.minutes * Math.exp(ln) } }; // prettier-ignore
}

/** Ingredients whose dose a cause may change; the factors are named after them. */
const DOSES = ['culture', 'rennet', 'calcium'] as const;
const isDose = (ingredient: string): ingredient is (typeof DOSES)[number] => DOSES.some((dose) => dose === ingredient);

/** The plan as it stands, digested. */
export function baseVariant(input: {
  plan: Plan;
  history: History;
  decisions: (course: Course) => Decisions;
}): Variant {
  const course = courseOf(input);
  return {
    course,
    ground: groundOf(input.plan),
    observations: observationsOf(course),
    decisions: input.decisions(course),
  };
}

function changedVariant(input: {
  plan: Plan;
  history: History;
  settings: readonly SettingChange[];
  z: number;
  base: Variant;
}): Variant {
  const { history, settings, z, base } = input;
  const plan = { ...input.plan, steps: input.plan.steps.map((step) => changedStep(step, settings, z)) };
  const course = courseOf({ plan, history });
  const set = plan.steps.find((step) => step.verb === 'brine')?.set;
  const { brine } = base.decisions;
  // The minutes in the brine stay those that the plan told: nobody knew that the brine was another.
  const changed =
    brine === null
      ? null
      : {
          ...brine,
          brinePercent: numeric(set?.brinePercent) ?? brine.brinePercent,
          brineC: numeric(set?.brineC) ?? brine.brineC,
        };
  return {
    course,
    ground: groundOf(plan),
    observations: observationsOf(course),
    decisions: { ...base.decisions, brine: changed },
  };
}

function changedStep(step: PlannedStep, settings: readonly SettingChange[], z: number): PlannedStep {
  let { set } = step;
  for (const { verbs, setting, by, size } of settings) {
    const value = set[setting];
    if (!verbs.includes(step.verb) || typeof value !== 'number') continue;
    const changed = by === 'offset' ? value + size.middle + size.spread * z : value * Math.exp(sizedLn(size, z));
    set = { ...set, [setting]: changed };
  }
  return set === step.set ? step : { ...step, set };
}

const numeric = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);

/** The logarithm of a factor of this size. */
const sizedLn = (size: Size, z: number | undefined): number => Math.log(size.middle) + size.spread * (z ?? 0);

function shiftedRow(row: Float64Array, cause: Cause | null): Float64Array {
  const shifts = cause?.shifts;
  if (shifts === undefined) return row;
  const shifted = row.slice();
  for (const name of namesOf(shifts)) shifted[AT[name]] = (row[AT[name]] ?? 0) + (shifts[name] ?? 0);
  return shifted;
}

const namesOf = <K extends string>(record: Readonly<Partial<Record<K, unknown>>>): K[] =>
  Object.keys(record).filter((key): key is K => Object.hasOwn(record, key));

interface Sizes {
  factor(name: FactorName): number;
  offset(name: OffsetName): number;
}

/** The sizes that a cause has in one member; its changes take the columns in their order: lasts, factors, offsets. */
function sizesOf(cause: Cause | null, z: Float64Array): Sizes {
  const factors = cause?.factors ?? {};
  const offsets = cause?.offsets ?? {};
  const order = [...(cause?.lasts ?? []).map((_, at) => String(at)), ...namesOf(factors), ...namesOf(offsets)];
  const column = (name: string): number => z[order.indexOf(name)] ?? 0;
  return {
    factor: (name) => {
      const size = factors[name];
      return size === undefined ? 1 : Math.exp(sizedLn(size, column(name)));
    },
    offset: (name) => {
      const size = offsets[name];
      return size === undefined ? 0 : size.middle + size.spread * column(name);
    },
  };
}

/** Amounts noted as quite other than planned: the walk takes those as they stand, so a cause must not change them again. */
export const NOTED_OTHER_LN = 0.2; // our own choice

function notedDoses(history: History): ReadonlySet<Ingredient> {
  const other = history.additions.filter(
    ({ fractionOfPlan }) => Math.abs(Math.log(Math.max(fractionOfPlan, 0.01))) > NOTED_OTHER_LN,
  );
  return new Set(other.map(({ ingredient }) => ingredient));
}

function changedInputs(inputs: Inputs, of: Sizes, noted: ReadonlySet<Ingredient>): Inputs {
  const dose = (name: FactorName, ingredient: Ingredient): number => (noted.has(ingredient) ? 1 : of.factor(name));
  const { acid, clotting } = inputs;
  const calcium = dose('calcium', 'calcium');
  const ground =
    calcium === 1 ? inputs.ground : { ...inputs.ground, calciumGPerL: inputs.ground.calciumGPerL * calcium };
  const startPH = inputs.startPH + of.offset('startPH');
  return {
    ...inputs,
    ground,
    acid: {
      ...acid,
      culture: {
        ...acid.culture,
        growthRatePerHour: acid.culture.growthRatePerHour * of.factor('growth'),
        acidRateMmolPerCfuHour: acid.culture.acidRateMmolPerCfuHour * of.factor('acidRate'),
      },
      curdRateFactor: acid.curdRateFactor * of.factor('acidAfterDrain'),
      serumProtonsAtStart:
        startPH === inputs.startPH
          ? acid.serumProtonsAtStart
          : tableValue({ table: ground.buffer, pH: startPH, column: TABLE_COLUMN.serumProtons }),
    },
    cellsPerL: inputs.cellsPerL * dose('culture', 'culture') * of.factor('cultureAlive'),
    lagWork: inputs.lagWork * of.factor('lag'),
    startPH,
    clotting: {
      ...clotting,
      pH: startPH,
      doseImcuPerL:
        clotting.doseImcuPerL * dose('rennet', 'rennet') * of.factor('rennetStrength') * of.factor('rennetKept'),
      heatSlowing: clotting.heatSlowing * of.factor('heatSlowing'),
    },
    fullFirmnessPa: inputs.fullFirmnessPa * of.factor('softening'),
    wheyRateFactor: inputs.wheyRateFactor * of.factor('wheyRate'),
    lossFactor: inputs.lossFactor * of.factor('heatLoss'),
    thermometerBiasC: inputs.thermometerBiasC + of.offset('thermometerC'),
    meterBiasPH: inputs.meterBiasPH + of.offset('meterPH'),
  };
}
