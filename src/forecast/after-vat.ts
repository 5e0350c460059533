import { iceKernel } from '../science/cooling.ts';
import { heatUpKernel } from '../science/heater.ts';
import { stretchWaterKernel } from '../science/stretching-water.ts';
import { roomOf, type Room } from './aged.ts';
import { moisturePercentOf, saltPercentOf, stretchedCheese, times, without } from './cheese.ts';
import { cheeseOver, observeCheese, type FreshCheese, type MadeCheese } from './cheese-made.ts';
import { curdKgOf, dressingContents, drawnContents, totalKgOf, wheyLitres, type Contents } from './contents.ts';
import type { Course, CourseStep } from './course.ts';
import { believedPH } from './observe.ts';
import { keptShare, saltKeptKg } from './observe-salt.ts';
import { coreAtC, type Decisions } from './pieces.ts';
import { FIGURE_AT, TRACE_EVERY_MIN, TRACE_POINTS, TRACED, type Figure, type MemberRun } from './run.ts';
import type { Walk } from './walk.ts';

export type { Decisions } from './pieces.ts';

const CURD_SPECIFIC_HEAT = 3.09; // kJ/(kg K), Choi-Okos at 50 % moisture, heat notes 3.2
const WATER_SPECIFIC_HEAT = 4.18; // kJ/(kg K)
const REAL_BOWL_FACTOR = 1.3; // an open bowl loses 1 to 1.7 K a minute: heat notes 3.3, our own factor
const REAL_BOWL_LN_SD = 0.12; // our own choice
const TAP_WATER_C = 15; // common practice (no source)
const BATH_L_PER_KG = 3; // litres of bath water for a kilogram of cheese, heat notes 4.4
const WET_ICE_FACTOR = 1.25; // ice carries water: our own estimate
const SECOND_POT_KG = 1.5; // common practice (no source): the pot for the stretching water
const COOL_TO_MEAN_SHARE = 0.35; // where the mean stands when the core is done: our own estimate for the ice

/** A step that is over: the run so far, and the cheese where it is out of the vat. */
export type StepEnd = (ended: { step: CourseStep; run: MemberRun; cheese: MadeCheese | null }) => void;

const put = (run: MemberRun, figure: Figure, value: number): void => {
  run.figures[FIGURE_AT[figure]] = value;
};

/** What is known and needed the moment the curd is ready: its acid, its weight, the water it takes. */
export function readyToStretch(walk: Walk, step: CourseStep): void {
  const { vat, run, course } = walk;
  const { inputs } = vat;
  const curdKg = curdKgOf(vat);
  const rests = course.steps.filter((candidate) => candidate.verb === 'restToAcid');
  const restMin = rests.reduce(
    (sum, rest) => sum + (run.endMin[rest.index] ?? Number.NaN) - (run.startMin[rest.index] ?? Number.NaN),
    0,
  );
  const isReady = rests.every((rest) => Number.isFinite(run.endMin[rest.index] ?? Number.NaN));
  put(run, 'pHAtStretch', believedPH(vat));
  put(run, 'curdKg', curdKg);
  put(run, 'restMin', isReady ? restMin : Number.POSITIVE_INFINITY);
  put(run, 'cultureToReadyMin', isReady ? vat.minute - vat.cultureMin : Number.POSITIVE_INFINITY);
  const { waterC: plannedC, curdTargetC, pours } = step.plan.set;
  const waterC = step.waterC === null ? plannedC : step.waterC - inputs.thermometerBiasC;
  if (typeof waterC !== 'number' || typeof curdTargetC !== 'number') return;
  const count = typeof pours === 'number' ? pours : 1;
  const perPourKg = stretchWaterKernel({
    curdKg,
    curdC: Math.min(Math.max(vat.temperatureC, 1), 74),
    targetC: curdTargetC,
    waterC,
    curdKJPerKgK: CURD_SPECIFIC_HEAT,
    pours: count,
  });
  const waterKg = perPourKg * count * REAL_BOWL_FACTOR * Math.exp(REAL_BOWL_LN_SD * inputs.stretchWaterZ);
  put(run, 'stretchWaterKg', waterKg);
  put(
    run,
    'stretchWaterHeatMin',
    heatUpKernel({
      fromC: TAP_WATER_C,
      toC: waterC,
      roomC: inputs.roomC,
      heatCapacityKJPerK: waterKg * WATER_SPECIFIC_HEAT + SECOND_POT_KG * 0.5,
      heaterW: inputs.heaterW,
      loss: inputs.ground.lossDrained,
    }),
  );
}

/** Shaping, cooling, brining, packing: closed forms from the curd that was stretched. */
export function leaveVat(input: { walk: Walk; decisions: Decisions; onStepEnd?: StepEnd }): void {
  const { walk, decisions } = input;
  const { vat, run, course } = walk;
  const { inputs } = vat;
  const stretched = dressed(walk, stretchedCheese(vat));
  const freshKg = totalKgOf(stretched);
  const coolMin = decisions.coolMin / inputs.conductivityFactor;
  let minute = vat.minute;
  let brineMin = decisions.brine?.minutes ?? 0;
  // What follows in such a liquid counts as the same one: the cheese and its brine are put somewhere cooler.
  let keptOnMin = 0;
  const rooms: Room[] = [];
  const { after } = course;
  for (const step of after.steps) {
    const isComing = course.mayEndFromMin > 0 && step.startedMin === null;
    const startMin = step.startedMin ?? Math.max(minute, isComing ? course.mayEndFromMin : 0);
    const isBrined = step.index === after.brineAt;
    const isCored = step.verb === 'cool' && coolMin > 0;
    const length = isCored ? coolMin : isBrined ? brineMin : (step.lyingMin ?? handsMin(step) * inputs.pace);
    const forced = step.endedMin ?? step.nextStartedMin;
    const endMin = forced ?? Math.max(startMin + length, step.startedMin === null ? 0 : course.mayEndFromMin);
    if (isBrined && forced !== null) brineMin = endMin - startMin;
    if (step.verb === after.brineVerb && !isBrined) keptOnMin += endMin - startMin;
    run.startMin[step.index] = startMin;
    run.endMin[step.index] = endMin;
    run.leftMin[step.index] = endMin;
    run.phase[step.index] = 3;
    const room = LIES_IN_AIR.has(step.verb) ? roomOf(step, startMin, endMin) : null;
    if (room !== null) rooms.push(room);
    if (isCored) traceCooling(run, { startMin, endMin, coolMin, decisions });
    minute = endMin;
  }
  // Rubbed on after the vat is left: all of it as if at once.
  const later = laterSaltKg(course, freshKg);
  const keptLater = later * keptShare(vat);
  const fresh: FreshCheese = {
    holds: { ...stretched, saltKg: stretched.saltKg + later },
    saltKeptKg: saltKeptKg(vat) + keptLater,
    brineFromMin: startOf(run, after.brineAt),
    brineMin: Math.max(brineMin, 0) + keptOnMin,
    coolFromMin: startOf(run, after.coolAt),
    coolMin,
    rooms,
  };
  const as = observeCheese({ walk, decisions, fresh });
  const at = cheeseOver({ fresh, decisions, inputs, as });
  const { holds } = at(Number.POSITIVE_INFINITY);
  traceSalt(run, fresh, (elapsedMin) => saltPercentOf(at(elapsedMin).holds));
  const cheeseKg = totalKgOf(holds);
  put(run, 'cheeseKg', cheeseKg);
  put(run, 'cheesePerMilkKgPerL', cheeseKg / inputs.ground.plan.setup.milk.volumeL);
  put(run, 'moisturePercent', moisturePercentOf(holds));
  const entersMin = decisions.brine === null ? rooms[0]?.fromMin : fresh.brineFromMin;
  put(run, 'enteringMoisturePercent', moisturePercentOf(entersMin === undefined ? holds : at(entersMin).holds));
  put(run, 'fatInDryMatterPercent', (100 * holds.fatKg) / (cheeseKg - holds.waterKg));
  if (after.asksMoisture) {
    for (const step of after.steps) {
      run.endMoisturePercent[step.index] = moisturePercentOf(at(run.leftMin[step.index] ?? Number.NaN).holds);
    }
  }
  if (Number.isNaN(run.figures[FIGURE_AT.curdKg] ?? Number.NaN)) put(run, 'curdKg', curdKgOf(vat));
  if (after.isScooped) put(run, 'wheyL', wheyLitres(drawnContents(vat)));
  put(run, 'saltPercent', saltPercentOf(holds));
  put(run, 'saltInMoisturePercent', (100 * holds.saltKg) / holds.waterKg);
  if (after.isPieces) put(run, 'pieces', Math.max(Math.floor(freshKg / decisions.pieceKg + 0.25), 1));
  if (coolMin > 0) put(run, 'coolMin', coolMin);
  if (decisions.brine !== null) {
    put(run, 'brineMin', brineMin);
    const brineKg = decisions.brine.perCheeseKg * freshKg;
    put(run, 'brineKg', brineKg);
    put(run, 'brineSaltKg', (brineKg * decisions.brine.brinePercent) / 100);
  }
  put(run, 'filledPotKg', inputs.ground.milkKg + inputs.ground.pot.massKg);
  if (coolMin > 0)
    put(
      run,
      'iceKg',
      WET_ICE_FACTOR *
        iceKernel({
          cheeseKg: freshKg,
          cheeseKJPerKgK: CURD_SPECIFIC_HEAT,
          fromC: decisions.formedC,
          toMeanC: decisions.bathC + COOL_TO_MEAN_SHARE * (decisions.formedC - decisions.bathC),
          bathC: decisions.bathC,
          bathL: BATH_L_PER_KG * freshKg,
          bathStartC: TAP_WATER_C,
          minutes: coolMin,
        }),
    );
  if (input.onStepEnd === undefined) return;
  for (const step of after.steps) {
    input.onStepEnd({ step, run, cheese: at(run.leftMin[step.index] ?? Number.NaN) });
  }
}

/** When a step begins; never, where the make has none. */
const startOf = (run: MemberRun, index: number): number => run.startMin[index] ?? Number.POSITIVE_INFINITY;

/** Steps that leave a cheese lying in the air of a room. */
const LIES_IN_AIR: ReadonlySet<string> = new Set(['age', 'dry']);

/** Salt that the plan rubs on after the vat is left [kg]. */
export const laterSaltKg = ({ after }: Pick<Course, 'after'>, freshKg: number): number =>
  (after.rubbedSaltPercent / 100) * freshKg;

/** Drained curd with the cream or milk that goes onto it and stays. */
function dressed({ vat }: Walk, curd: Contents): Contents {
  const dressing = dressingContents(vat);
  return dressing === null ? curd : without(curd, times(dressing, -1));
}

function handsMin(step: CourseStep): number {
  const watch = step.watches.find((candidate) => candidate.kind === 'time');
  return watch?.kind === 'time' ? watch.minutes : (step.expectedMin ?? 5);
}

/** The traced points that fall inside a step. */
function pointsWithin(step: { startMin: number; endMin: number }): { first: number; last: number } {
  return {
    first: Math.max(Math.ceil(step.startMin / TRACE_EVERY_MIN), 0),
    last: Math.min(Math.floor(step.endMin / TRACE_EVERY_MIN), TRACE_POINTS - 1),
  };
}

/** Core temperature while cooling, on the same grid as the vat's; how long each member's cooling takes stretches the curve. */
function traceCooling(
  run: MemberRun,
  at: { startMin: number; endMin: number; coolMin: number; decisions: Decisions },
): void {
  if (at.coolMin <= 0) return;
  const temperature = TRACED.indexOf('temperatureC') * TRACE_POINTS;
  const { first, last } = pointsWithin(at);
  for (let p = first; p <= last; p++) {
    const minutes = p * TRACE_EVERY_MIN - at.startMin;
    run.trace[temperature + p] = coreAtC({ decisions: at.decisions, coolMin: at.coolMin, minutes });
  }
}

/** Salt in the whole cheese while it lies in the brine. */
function traceSalt(run: MemberRun, fresh: FreshCheese, saltPercentAt: (elapsedMin: number) => number): void {
  const salt = TRACED.indexOf('saltPercent') * TRACE_POINTS;
  const { brineFromMin, brineMin } = fresh;
  if (!Number.isFinite(brineFromMin)) return;
  const { first, last } = pointsWithin({ startMin: brineFromMin, endMin: brineFromMin + brineMin });
  for (let p = first; p <= last; p++) run.trace[salt + p] = saltPercentAt(p * TRACE_EVERY_MIN);
}
