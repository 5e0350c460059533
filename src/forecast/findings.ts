import type { Finding } from '../science/finding.ts';
import { cautionsFor, type Situation } from '../science/cautions.ts';
import { JUDGEMENTS } from '../science/judgement-models.ts';
import type { Course } from './course.ts';
import type { Needs, Outcome } from './forecast.ts';
import type { Ground } from './inputs.ts';
import { kindOf } from './kind.ts';
import { FIGURE_AT, type MemberRun } from './run.ts';
import { quantileSorted } from '../numbers/stats.ts';
import { valuesOf } from './summary.ts';

/** Cautions of the plan and of the moment, from the forecast itself. Unknown never makes a verdict milder. */
export function findingsOf(input: {
  course: Course;
  ground: Ground;
  runs: readonly MemberRun[];
  /** The culture's own forecast, before the notes weighed it: acid is late against this, not against itself. */
  fromPrior: readonly MemberRun[];
  outcome: Outcome;
  needs: Needs;
}): Finding[] {
  const { course, ground, runs, fromPrior, outcome, needs } = input;
  const { setup, make } = course.plan;
  const figure = (name: keyof typeof FIGURE_AT, from: readonly MemberRun[] = runs): Float64Array =>
    valuesOf(from, (run) => run.figures[FIGURE_AT[name]])
      .map((value) => (Number.isNaN(value) ? Number.POSITIVE_INFINITY : value))
      .sort();
  const toPH54 = figure('minutesToPH54', fromPrior);
  const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
  const running = course.steps.find((step) => step.startedMin !== null && step.endedMin === null);
  const hot = (running === undefined ? course.steps : [running]).find((step) => step.verb === 'stretch');
  const brine = course.steps.find((step) => step.verb === 'brine' || step.verb === 'keepInLiquid');
  const lastPH = course.history.readings.filter((reading) => reading.quantity === 'pH').at(-1);
  const culture = course.steps.find((step) => step.plan.set.ingredient === 'culture')?.endedMin ?? null;
  const situation: Situation = {
    isForSale: setup.forSale,
    hasChildren: setup.children,
    nameNeedsPasteurised: make.properties.rawForbiddenByName,
    ...kindOf(course.plan),
    milkTreatment: setup.milk.treatment,
    volumeL: setup.milk.volumeL,
    fatPercent: setup.milk.fatPercent,
    addedCalciumGPerKg: ground.calciumGPerL / ground.densityKgPerL,
    potKg: setup.pot.massKg,
    // An ice bath noted in this make is a check; nothing else is.
    thermometerErrorC: course.history.readings.find((reading) => reading.quantity === 'iceWaterC')?.value ?? null,
    brinePercent: numeric(brine?.plan.set.brinePercent),
    brineC: numeric(brine?.plan.set.brineC),
    useByDays: make.shelfLife.days.value,
    expectedFinalPH: finite(outcome.pHAtStretch.p50) ?? leavingPH(course, runs),
    moisturePercent: finite(outcome.moisturePercent.p50),
    saltInMoisturePercent: finite(outcome.saltInMoisturePercent.p50),
    forecastPH54P50Min: finite(quantileSorted(toPH54, 0.5)),
    forecastPH54P95Min: finite(quantileSorted(toPH54, 0.95)),
    ...(hot === undefined
      ? {}
      : {
          waterC: needs.stretchWaterC,
          curdC: numeric(hot.plan.set.curdTargetC),
          hotWaterL: needs.stretchWaterKg?.p50 ?? null,
        }),
    ...(culture === null || course.nowMin <= culture
      ? {}
      : {
          elapsedMin: course.nowMin - culture,
          pH: lastPH?.value ?? null,
          isAcidSeen: course.history.judgements.some(showsAcid),
          staphLogs: finite(quantileSorted(figure('staphLogs'), 0.5)),
        }),
  };
  return [...cautionsFor(situation)];
}

const ACID_PH = 5.4; // below it the trade calls curd acid: Zehren & Zehren (1968) J. Dairy Sci., and common practice

/** True for a grade that begins, to a tenth, where curd or whey is acid: it stretches, it tears in fibres, the gel has set, the whey is sharp. */
function showsAcid({ judgement, grade }: Course['history']['judgements'][number]): boolean {
  const { state, grades, thresholds } = JUDGEMENTS[judgement];
  const from = thresholds[grades.indexOf(grade) - 1];
  return (state === 'curdPH' || state === 'wheyPH') && from !== undefined && Math.round(10 * from) / 10 <= ACID_PH;
}

/** pH that the curd leaves the vat with, where nothing is stretched; the median, null where there is none. */
function leavingPH(course: Course, runs: readonly MemberRun[]): number | null {
  const values = valuesOf(runs, (run) => run.endPH[course.leavesAt - 1]).sort();
  const median = quantileSorted(values, 0.5);
  return Number.isFinite(median) ? median : null;
}

const numeric = (value: unknown): number | null => (typeof value === 'number' ? value : null);
