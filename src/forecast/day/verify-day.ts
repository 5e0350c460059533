import type { PlannedStep } from '../../make/plan.ts';
import type { Spread } from '../../numbers/stats.ts';
import type { DayInput, DayPlan, DayPot, Hold, PlacedPot } from './day.ts';
import { KEPT_AT_MOST_MIN, kitOf, REWARM_MIN, RESOURCES, waitBeforeMin, WATER_STANDS_MIN, type Resource } from './rules.ts'; // prettier-ignore

/**
 * Looks a planned day over, step by step from the pots themselves. It knows what steps want (`rules.ts`) and shares no line
 * with what made the plan.
 */

/** Something that a plan got wrong. */
export interface Fault {
  readonly code:
    | 'double-use'
    | 'no-such-unit'
    | 'not-held'
    | 'out-of-order'
    | 'waits-too-long'
    | 'not-ready'
    | 'gone-cold'
    | 'not-prepared'
    | 'outside-hours'
    | 'not-planned';
  readonly where: string;
}

const ROUNDING_MIN = 1; // a plan is in whole minutes, and rounds outward or to the nearest

/** Every fault of a plan for these pots; none where it can be followed. */
export function verifyDay(input: DayInput, plan: DayPlan): Fault[] {
  const left = new Set(plan.findings.flatMap(({ code, fields }) => (code === 'kit-missing' || code === 'not-seen-to-end' ? [fields['potId']] : []))); // prettier-ignore
  const faults: Fault[] = input.pots.flatMap((pot) => {
    const placed = plan.pots.find(({ potId }) => potId === pot.id);
    if (placed === undefined) return left.has(pot.id) ? [] : [{ code: 'not-planned', where: pot.id } as const];
    return [...order(pot, placed), ...holding(pot, placed, plan), ...readiness(pot, placed, plan), ...hours(input, pot, placed, plan)]; // prettier-ignore
  });
  return [...faults, ...uses(input, plan)];
}

/** No unit twice at once, none that is not there, and never more at once than there are. */
function uses({ kit, pots }: DayInput, { holds, findings }: DayPlan): Fault[] {
  const faults: Fault[] = [];
  // Pots that had begun may be in each other's way: that is said, and nobody planned it.
  const said = new Set(
    findings.flatMap(({ code, fields }) => (code === 'clash-under-way' ? [fields['resource']] : [])),
  );
  const begun = new Set(pots.filter(({ begunAtMin }) => begunAtMin !== undefined).map(({ id }) => id));
  for (const resource of RESOURCES) {
    const places = kit[resource];
    if (places === undefined) continue;
    const own = holds.filter((hold) => hold.resource === resource);
    for (const [index, hold] of own.entries()) {
      const there = thereFor(hold, kit, places);
      if (hold.unit >= there && !said.has(resource)) faults.push({ code: 'no-such-unit', where: named(hold) });
      for (const other of own.slice(index + 1)) {
        const isOne = other.unit === hold.unit && other.fromMin < hold.toMin && hold.fromMin < other.toMin;
        if (isOne && !(said.has(resource) && begun.has(hold.potId) && begun.has(other.potId))) {
          faults.push({ code: 'double-use', where: `${named(hold)} and ${named(other)}` });
        }
      }
    }
  }
  return faults;
}

/** How many there are for the whole of a hold; pupils' hands only while they are there. */
function thereFor({ resource, fromMin, toMin }: Hold, { more }: DayInput['kit'], places: number): number {
  const isMore = resource === 'hands' && more !== undefined && fromMin >= more.fromMin && toMin <= more.toMin;
  return isMore ? places + more.hands : places;
}

const named = ({ resource, unit, potId, stepId, fromMin }: Hold): string => `${resource} ${unit} for ${potId} ${stepId} at ${fromMin}`; // prettier-ignore

/** Steps one after the other, each as long as foreseen, waiting only where a make may wait. */
function order(pot: DayPot, placed: PlacedPot): Fault[] {
  const faults: Fault[] = [];
  let waited = 0;
  for (const [index, step] of pot.steps.entries()) {
    const at = placed.steps[index];
    const foreseen = pot.foreseen.steps[index];
    const where = `${pot.id} ${step.id}`;
    if (at === undefined || foreseen === undefined || at.stepId !== step.id) return [...faults, { code: 'not-planned', where }]; // prettier-ignore
    const before = placed.steps[index - 1];
    if (before !== undefined && at.startMin < before.startMin) faults.push({ code: 'out-of-order', where });
    const isRewarmed = placed.keptCold !== null && step.verb === 'stretch' && before !== undefined;
    if (isRewarmed) {
      // Cold curd is counted anew from when it leaves the fridge.
      if (placed.keptCold.toMin < before.endMin || at.startMin - placed.keptCold.toMin < REWARM_MIN - ROUNDING_MIN) faults.push({ code: 'out-of-order', where }); // prettier-ignore
      waited = at.startMin - likely(foreseen.startMin) - placed.startMin;
    }
    const lag = at.startMin - placed.startMin - likely(foreseen.startMin) - waited;
    if (lag < -ROUNDING_MIN) faults.push({ code: 'out-of-order', where });
    if (lag > waitBeforeMin(step) + ROUNDING_MIN)
      faults.push({ code: 'waits-too-long', where: `${where}: ${lag} min` });
    // Where a make may wait, a minute is a wait like any other.
    if (lag > (waitBeforeMin(step) > 0 ? 0 : ROUNDING_MIN)) waited += lag;
  }
  return faults;
}

const likely = ({ p5, p25, p50 }: Spread): number => [p50, p25, p5].find(Number.isFinite) ?? 0;

/** Kit from early to late of every step, and hands for all its work, are held by the pot. */
function holding(pot: DayPot, placed: PlacedPot, { holds }: DayPlan): Fault[] {
  const own = holds.filter(({ potId, preparationId }) => potId === pot.id && preparationId === undefined);
  return pot.steps.flatMap((step, index): Fault[] => {
    const at = placed.steps[index];
    if (at === undefined || pot.foreseen.steps[index]?.state === 'done') return [];
    const { soonerMin, laterMin } = apart({ pot, placed, index });
    const kit = kitOf(step).map((resource) => ({ resource, fromMin: at.startMin - soonerMin, toMin: at.endMin + laterMin })); // prettier-ignore
    return [...kit, ...handsFor(step, at)].flatMap(({ resource, fromMin, toMin }): Fault[] => {
      const held = own.filter((hold) => hold.resource === resource);
      return isCovered(held, fromMin + ROUNDING_MIN, toMin - ROUNDING_MIN)
        ? []
        : [{ code: 'not-held', where: `${resource} for ${pot.id} ${step.id}, ${fromMin} to ${toMin}` }];
    });
  });
}

interface At {
  readonly pot: DayPot;
  readonly placed: PlacedPot;
  readonly index: number;
}

/** How much sooner 1 in 5 begin a step, and how much later 1 in 5 end it; of cold curd, counted from when it is worked. */
function apart({ pot, placed, index }: At): { readonly soonerMin: number; readonly laterMin: number } {
  const foreseen = pot.foreseen.steps[index];
  if (foreseen === undefined) return { soonerMin: 0, laterMin: 0 };
  const cold = placed.keptCold === null ? -1 : pot.steps.findIndex(({ verb }) => verb === 'stretch');
  const base = cold >= 0 && index >= cold ? pot.foreseen.steps[cold]?.startMin : undefined;
  const sooner = (spread: Spread): number => Math.min(likely(spread) - fifth(spread), KEPT_AT_MOST_MIN);
  const later = (spread: Spread): number => Math.min(fourFifths(spread) - likely(spread), KEPT_AT_MOST_MIN);
  return {
    soonerMin: Math.max(0, sooner(foreseen.startMin) - (base === undefined ? 0 : sooner(base))),
    laterMin: Math.max(0, later(foreseen.endMin) - (base === undefined ? 0 : later(base))),
  };
}

/** Between the twentieth and the quarter, as straight as the planner takes it. */
const fifth = (spread: Spread): number => {
  const low = Number.isFinite(spread.p5) ? spread.p5 : likely(spread);
  const high = Number.isFinite(spread.p25) ? spread.p25 : low;
  return low + ((0.2 - 0.05) / (0.25 - 0.05)) * (high - low);
};
const fourFifths = (spread: Spread): number => {
  const low = Number.isFinite(spread.p75) ? spread.p75 : likely(spread);
  const high = Number.isFinite(spread.p95) ? spread.p95 : low;
  return low + ((0.8 - 0.75) / (0.95 - 0.75)) * (high - low);
};

/** Work at the start and during a step comes first, work at its end last. */
function handsFor(step: PlannedStep, { startMin, endMin }: { readonly startMin: number; readonly endMin: number }): { readonly resource: Resource; readonly fromMin: number; readonly toMin: number }[] {
  const { start, during, end } = step.handsMin;
  const front = Math.min(startMin + start + during, endMin);
  const back = Math.max(front, endMin - end);
  return [
    { resource: 'hands' as const, fromMin: startMin, toMin: front },
    { resource: 'hands' as const, fromMin: back, toMin: endMin },
  ].filter(({ fromMin, toMin }) => toMin > fromMin);
} // prettier-ignore

/** True where holds that touch or overlap reach from one minute to another. */
function isCovered(holds: readonly Hold[], fromMin: number, toMin: number): boolean {
  if (toMin <= fromMin) return true;
  let reached = fromMin;
  for (const hold of [...holds].sort((a, b) => a.fromMin - b.fromMin)) {
    if (hold.fromMin > reached) break;
    reached = Math.max(reached, hold.toMin);
  }
  return reached >= toMin;
}

/** Everything a step asks for is there when it may come early: water hot and not cold again, the rest with its lead. */
function readiness(pot: DayPot, placed: PlacedPot, plan: DayPlan): Fault[] {
  const ready = new Set(pot.ready ?? []);
  const late = new Set(plan.findings.flatMap(({ code, fields }) => code === 'night-gone' || code === 'short-notice' ? [`${fields['potId']} ${fields['stepId']}.${fields['preparationId']}`] : [])); // prettier-ignore
  return pot.steps.flatMap((step, index) => {
    const at = placed.steps[index];
    const foreseen = pot.foreseen.steps[index];
    if (at === undefined || foreseen?.state !== 'coming') return [];
    const wantedMin = at.startMin - apart({ pot, placed, index }).soonerMin;
    return step.prepare.flatMap(({ id, amount, leadMinutes }): Fault[] => {
      const where = `${pot.id} ${step.id}.${id}`;
      if (ready.has(`${step.id}.${id}`) || late.has(where)) return [];
      const made = plan.preparations.find((one) => one.potId === pot.id && one.stepId === step.id && one.preparationId === id); // prettier-ignore
      if (made === undefined) return [{ code: 'not-prepared', where }];
      const isHot = amount === 'wash-water' || amount === 'stretch-water';
      if (isHot && made.endMin > wantedMin + ROUNDING_MIN) return [{ code: 'not-ready', where }];
      if (isHot && made.endMin < wantedMin - WATER_STANDS_MIN - ROUNDING_MIN) return [{ code: 'gone-cold', where }];
      if (!isHot && made.startMin > wantedMin - leadMinutes.value + ROUNDING_MIN) return [{ code: 'not-ready', where }];
      return [];
    });
  });
}

/** Nothing begins before the day does, and nothing ends after it without being said. */
function hours(day: DayInput, pot: DayPot, placed: PlacedPot, { findings }: DayPlan): Fault[] {
  const { fromMin, toMin, nowMin } = day.hours;
  const faults: Fault[] = [];
  const earliest = pot.keptCold === undefined ? (fromMin ?? Number.NEGATIVE_INFINITY) : pot.keptCold.madeFromMin;
  const isNew = pot.begunAtMin === undefined;
  if (isNew && placed.startMin < Math.max(earliest, nowMin ?? Number.NEGATIVE_INFINITY)) faults.push({ code: 'outside-hours', where: `${pot.id} starts` }); // prettier-ignore
  if (!isNew && Math.abs(placed.startMin - (pot.begunAtMin ?? 0)) > ROUNDING_MIN) faults.push({ code: 'out-of-order', where: `${pot.id} had begun` }); // prettier-ignore
  const isSaid = findings.some(({ code }) => code === 'day-too-long' || code === 'pot-too-long');
  if (toMin !== null && placed.doneMin > toMin && !isSaid) faults.push({ code: 'outside-hours', where: `${pot.id} ends` }); // prettier-ignore
  return faults;
}
