import type { DayInput, DayPlan, DayPot, DayWay } from './day.ts';
import { coldBefore } from './jobs.ts';
import { stepTimes } from './offsets.ts';
import { GRID_MIN, KEPT_COLD_MIN } from './rules.ts';

/** Ways out of a day that does not fit: each one is tried, and only what works is offered. */

type Replan = (input: DayInput) => DayPlan;

interface Asked {
  readonly day: DayInput;
  readonly plan: DayPlan;
  readonly replan: Replan;
}

const MOST_MORE = 3; // of anything that could be borrowed: own choice
const APART_MIN = 30; // how much sooner the morning's curd is begun, where one morning is too short: own choice
const MORNINGS = 4;
const EARLIEST_MORNING_MIN = 300; // five in the morning: nobody makes curd for a class sooner, own choice
const DAY_BEFORE_MIN = -900; // nine in the morning of the day before: own choice
const MOST_EARLIER_MIN = 180; // a start sooner than this is another day's plan: own choice

/** What would make it fit, each with the end of the day that it brings; nothing where the day fits. */
export function waysOut(asked: Asked): DayWay[] {
  if (fits(asked.plan)) return [];
  return [...keptCold(asked), ...quicker(asked), ...moreKit(asked), ...otherHours(asked), ...fewerPots(asked)];
}

/** A day in its hours, in which every pot could be planned. */
const fits = ({ findings }: DayPlan): boolean =>
  !findings.some(({ code }) => code === 'day-too-long' || code === 'pot-too-long' || code === 'kit-missing' || code === 'not-seen-to-end'); // prettier-ignore

/** The pots that do not fit the hours alone; where only all together are too many, every pot that has not begun. */
function longOnes({ day, plan }: Asked): readonly DayPot[] {
  const named = new Set(
    plan.findings.filter(({ code }) => code === 'pot-too-long').map(({ fields }) => fields['potId']),
  );
  const free = day.pots.filter(({ begunAtMin, keptCold }) => begunAtMin === undefined && keptCold === undefined);
  return named.size > 0 ? free.filter(({ id }) => named.has(id)) : free;
}

/** Curd made earlier, kept cold, and worked within the hours. */
function keptCold(asked: Asked): DayWay[] {
  const { day, replan } = asked;
  const { fromMin, toMin } = day.hours;
  const long = longOnes(asked).filter(({ steps }) => coldBefore(steps) !== null);
  if (fromMin === null || toMin === null || long.length === 0) return [];
  const leadMin = Math.max(...long.map(curdMin)) + KEPT_COLD_MIN.least;
  const mornings = Array.from({ length: MORNINGS }, (_, nth) => Math.floor((fromMin - leadMin - nth * APART_MIN) / GRID_MIN) * GRID_MIN); // prettier-ignore
  // Else the day before: curd keeps a night.
  for (const madeFromMin of [...mornings.filter((at) => at >= EARLIEST_MORNING_MIN), DAY_BEFORE_MIN]) {
    if (madeFromMin < (day.hours.nowMin ?? Number.NEGATIVE_INFINITY)) continue;
    const ids = new Set(long.map(({ id }) => id));
    const pots = day.pots.map((pot) => (ids.has(pot.id) ? { ...pot, keptCold: { madeFromMin, workedFromMin: fromMin } } : pot)); // prettier-ignore
    const tried = replan({ ...day, pots });
    if (fits(tried)) return [{ code: 'curd-kept-cold', fields: { count: long.length, madeFromMin: tried.startMin, workedFromMin: fromMin, endMin: tried.endMin, potIds: [...ids].join(' ') } }]; // prettier-ignore
  }
  return [];
}

/** Until the curd can be chilled, 4 times in 5. */
function curdMin(pot: DayPot): number {
  const at = coldBefore(pot.steps) ?? 0;
  return stepTimes(pot.foreseen.steps)[at - 1]?.end.late ?? 0;
}

/** Another make in place of those that do not fit: the first of those offered with which the day fits. */
function quicker(asked: Asked): DayWay[] {
  const { day, replan } = asked;
  const ids = new Set(longOnes(asked).map(({ id }) => id));
  for (const other of day.others ?? []) {
    if (day.pots.every((pot) => !ids.has(pot.id) || pot.makeId === other.makeId)) continue;
    const pots = day.pots.map((pot) => (ids.has(pot.id) ? { ...other, id: pot.id } : pot));
    const tried = replan({ ...day, pots });
    if (fits(tried)) return [{ code: 'quicker-make', fields: { makeId: other.makeId, count: ids.size, endMin: tried.endMin, potIds: [...ids].join(' ') } }]; // prettier-ignore
  }
  return [];
}

const KIT_WAYS = { 'more-burners': 'burner', 'more-kettles': 'kettle', 'more-hands': 'hands' } as const;

function moreKit({ day, replan }: Asked): DayWay[] {
  return (['more-burners', 'more-kettles', 'more-hands'] as const).flatMap((code): DayWay[] => {
    const resource = KIT_WAYS[code];
    const has = day.kit[resource];
    if (has === undefined) return [];
    for (let more = 1; more <= MOST_MORE; more++) {
      const tried = replan({ ...day, kit: { ...day.kit, [resource]: has + more } });
      if (fits(tried)) return [{ code, fields: { count: has + more, more, endMin: tried.endMin } }];
    }
    return [];
  });
}

/** Pots begun before the pupils come, or a later end. */
function otherHours({ day, plan, replan }: Asked): DayWay[] {
  const { fromMin, toMin, nowMin = Number.NEGATIVE_INFINITY } = day.hours;
  if (toMin === null || plan.endMin <= toMin) return [];
  const found: DayWay[] = plan.endMin - toMin > MOST_EARLIER_MIN ? [] : [{ code: 'end-later', fields: { toMin: Math.ceil(plan.endMin / GRID_MIN) * GRID_MIN, overMin: plan.endMin - toMin } }]; // prettier-ignore
  if (fromMin === null) return found;
  const byMin = Math.ceil((plan.endMin - toMin) / GRID_MIN) * GRID_MIN;
  for (const earlier of [byMin, byMin + 15, byMin + 30]) {
    if (fromMin - earlier < nowMin || earlier > MOST_EARLIER_MIN) break;
    const tried = replan({ ...day, hours: { ...day.hours, fromMin: fromMin - earlier } });
    if (fits(tried)) return [{ code: 'start-earlier', fields: { byMin: earlier, fromMin: fromMin - earlier, endMin: tried.endMin } }, ...found]; // prettier-ignore
  }
  return found;
}

/** So many pots of those wished fit; none where not even one does. */
function fewerPots({ day, replan }: Asked): DayWay[] {
  const begun = day.pots.filter(({ begunAtMin }) => begunAtMin !== undefined).length;
  for (let count = day.pots.length - 1; count > begun; count--) {
    const pots = [...day.pots].sort((a, b) => Number(b.begunAtMin !== undefined) - Number(a.begunAtMin !== undefined)).slice(0, count); // prettier-ignore
    const tried = replan({ ...day, pots });
    if (fits(tried)) return [{ code: 'fewer-pots', fields: { count, of: day.pots.length, endMin: tried.endMin } }];
  }
  return [];
}
