import type { DayTold } from '../../../exchange/day-words.ts';
import type { LaneDrawn } from '../timeline/lanes.tsx';
import { spanOf, type TimelineStep } from '../timeline/timeline-layout.ts';

/** The planned day as lanes on a scale of time. */

const MINUTE_MS = 60_000;

/** One scale of time; a night between is left out, and what comes after it is a scale of its own. */
export interface DayScale {
  readonly lanes: LaneDrawn[];
  readonly frame: { readonly fromAt: number; readonly toAt: number };
}

/** So long without anything on any lane, the scale is cut. Our own choice. */
const CUT_AT_MIN = 180;

/** One lane a pot, then one for each burner, kettle and press that is used. */
export function dayScales(told: DayTold): DayScale[] {
  const lanes = lanesOf(told);
  const steps = lanes.flatMap((lane) => lane.steps).sort((a, b) => a.startAt - b.startAt);
  const cuts: number[] = [];
  let untilAt = Number.NEGATIVE_INFINITY;
  for (const { startAt, endAt } of steps) {
    if (startAt - untilAt > CUT_AT_MIN * MINUTE_MS) cuts.push(startAt);
    untilAt = Math.max(untilAt, endAt);
  }
  return cuts.map((fromAt, part) => {
    const toAt = cuts[part + 1] ?? Number.POSITIVE_INFINITY;
    const here = lanes.map((lane) => ({ ...lane, steps: lane.steps.filter(({ startAt }) => startAt >= fromAt && startAt < toAt) })); // prettier-ignore
    return { lanes: here, frame: spanOf(here.flatMap((lane) => lane.steps)) };
  });
}

function lanesOf(told: DayTold): LaneDrawn[] {
  const { plan, pots, say } = told;
  const at = (minutes: number): number => told.zeroAt + minutes * MINUTE_MS;
  const potLanes = pots.flatMap((pot): LaneDrawn[] => {
    const placed = plan.pots.find(({ potId }) => potId === pot.id);
    if (placed === undefined) return [];
    const last = placed.steps.findIndex(({ stepId }) => stepId === placed.lastStepId);
    const steps = placed.steps.slice(0, last + 1).flatMap((step, index): TimelineStep[] => {
      const own = pot.steps[index];
      if (own === undefined) return [];
      return [{ id: step.stepId, name: own.name, number: index + 1, state: 'coming', startAt: at(step.startMin), endAt: at(step.endMin), endEarlyAt: at(step.endEarlyMin), endLateAt: at(step.endLateMin), handsMin: own.handsMin }];
    });
    return [{ id: pot.id, name: pot.name, steps, marks: [] }];
  });
  const kitLanes = (['burner', 'kettle', 'press'] as const).flatMap((resource) => {
    const held = plan.holds.filter((hold) => hold.resource === resource);
    const units = [...new Set(held.map(({ unit }) => unit))].sort((a, b) => a - b);
    return units.map((unit): LaneDrawn => ({
      id: `${resource} ${unit}`,
      name: say(`day:unit.${resource}`, { number: unit + 1 }),
      isKit: true,
      steps: held
        .filter((hold) => hold.unit === unit)
        .sort((a, b) => a.fromMin - b.fromMin)
        .map((hold, index): TimelineStep => ({
          id: `${resource} ${index}`, name: pots.find(({ id }) => id === hold.potId)?.name ?? '', number: pots.findIndex(({ id }) => id === hold.potId) + 1, state: 'coming',
          startAt: at(hold.fromMin), endAt: at(hold.toMin), endEarlyAt: at(hold.toMin), endLateAt: at(hold.toMin),
          handsMin: { start: hold.toMin - hold.fromMin, during: 0, end: 0 },
        })),
      marks: [],
    }));
  });
  return [...potLanes, ...kitLanes];
} // prettier-ignore
