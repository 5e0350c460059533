import type { DayInput, DayKit, DayPot } from '../../../forecast/day/day.ts';
import type { Forecast } from '../../../forecast/forecast.ts';
import type { History } from '../../../make/history.ts';
import type { Make } from '../../../make/make.ts';
import type { Plan } from '../../../make/plan.ts';
import { NO_HISTORY } from '../../../make/history.ts';
import type { Answers } from '../../../make/setup.ts';
import type { Problem } from '../../../numbers/validity.ts';
import type { UnitSystem } from '../../../exchange/written.ts';
import type { Draft } from '../plan/draft.ts';
import { planFor } from '../plan/plan-for.ts';
import type { DayRow, DayState } from './day-state.ts';
import { hoursOf } from './day-state.ts';

/** A pot that is wished, made ready or under way, with what its forecast is asked with. */
export interface WishedPot {
  readonly id: string;
  readonly name: string;
  readonly makeName: string;
  readonly plan: Plan;
  readonly answers: Answers | null;
  readonly history: History;
  readonly seed: number;
  /** Pots of one key have one forecast. */
  readonly key: string;
  /** When its clock began, milliseconds UTC; null while its burner is not lit. */
  readonly begunAt: number | null;
  readonly ready: readonly string[];
  /** The row that wishes it; null for a pot that is in the record. */
  readonly row: DayRow | null;
}

/** A pot of the record, not over. */
export interface RecordedPot {
  readonly potId: string;
  readonly name: string;
  readonly plan: Plan;
  readonly history: History;
  readonly seed: number;
  readonly zeroAt: number;
  readonly hasBegun: boolean;
  readonly ready: readonly string[];
}

/** Answers about a pot of another size say nothing of this one. */
const OF_ONE_POT = new Set(['pot.volumeL', 'pot.insideMm', 'pot.massKg', 'pot.lossWPerK', 'culture.packetTreatsL', 'culture.packetMassG', 'milk.volumeL']); // prettier-ignore

/** The plan of one row: its make, its milk, and the rest as answered when a make was last planned. */
export function planOfRow(input: { readonly row: DayRow; readonly make: Make; readonly draft: Draft; readonly units: UnitSystem }): {
  readonly plan: Plan | null;
  readonly answers: Answers | null;
  readonly problems: readonly Problem[];
} {
  const { row, make, draft, units } = input;
  const facts = Object.fromEntries(Object.entries(draft.facts).filter(([path]) => !OF_ONE_POT.has(path)));
  return planFor({ draft: { facts: { ...facts, 'milk.volumeL': row.milk }, confirmed: draft.confirmed, changes: {} }, make, units });
} // prettier-ignore

/** Pots of the record first, then those that are wished, named by `names`. */
export function wishedPots(input: {
  readonly recorded: readonly RecordedPot[];
  readonly rows: readonly { readonly row: DayRow; readonly plan: Plan; readonly answers: Answers }[];
  readonly names: readonly string[];
}): WishedPot[] {
  const { recorded, rows, names } = input;
  const there = recorded.map(({ potId, name, plan, history, seed, zeroAt, hasBegun, ready }): WishedPot => ({
    id: potId, name, makeName: plan.make.name, plan, answers: null, history, seed, key: `${potId} ${JSON.stringify(history)}`,
    begunAt: hasBegun ? zeroAt : null, ready, row: null,
  })); // prettier-ignore
  const wished = rows.flatMap(({ row, plan, answers }) => Array.from({ length: row.pots }, (_, nth) => ({ row, plan, answers, nth }))); // prettier-ignore
  return [
    ...there,
    ...wished.map(({ row, plan, answers, nth }, index): WishedPot => ({
      id: `${row.id}.${nth}`, name: names[index] ?? String(index + 1), makeName: plan.make.name, plan, answers, history: NO_HISTORY, seed: 1,
      key: `${plan.make.id} ${JSON.stringify(answers)}`, begunAt: null, ready: [], row,
    })),
  ]; // prettier-ignore
}

const MINUTE_MS = 60_000;

/** The day as the planner takes it; null while a time is half typed or a forecast is missing. */
export function dayInputOf(input: {
  readonly state: DayState;
  readonly pots: readonly WishedPot[];
  readonly others: readonly { readonly key: string; readonly plan: Plan }[];
  readonly forecasts: ReadonlyMap<string, Forecast>;
  readonly now: number;
}): DayInput | null {
  const { state, forecasts, now } = input;
  const hours = hoursOf(state);
  if (hours === null || input.pots.length === 0) return null;
  const { zeroAt, fromMin, toMin } = hours;
  const pots: DayPot[] = [];
  const shared = new Map<string, Pick<DayPot, 'steps' | 'foreseen'>>();
  for (const pot of input.pots) {
    const forecast = forecasts.get(pot.key);
    if (forecast === undefined) return null;
    // Pots of one forecast share its very object: to the planner they are alike.
    const own = shared.get(pot.key) ?? {
      steps: pot.plan.steps,
      foreseen: { steps: forecast.steps, needs: forecast.needs },
    };
    shared.set(pot.key, own);
    pots.push({
      id: pot.id, makeId: pot.plan.make.id, ...own,
      ...(pot.begunAt === null ? {} : { begunAtMin: (pot.begunAt - zeroAt) / MINUTE_MS }),
      ...(pot.ready.length === 0 ? {} : { ready: pot.ready }),
      ...(pot.row?.madeFromMin === undefined ? {} : { keptCold: { madeFromMin: pot.row.madeFromMin, workedFromMin: fromMin } }),
    }); // prettier-ignore
  }
  const others = input.others.flatMap(({ key, plan }): Omit<DayPot, 'id'>[] => {
    const forecast = forecasts.get(key);
    return forecast === undefined ? [] : [{ makeId: plan.make.id, steps: plan.steps, foreseen: { steps: forecast.steps, needs: forecast.needs } }];
  }); // prettier-ignore
  const begun = pots.some(({ begunAtMin }) => begunAtMin !== undefined);
  const nowMin = (now - zeroAt) / MINUTE_MS;
  return {
    pots,
    kit: kitOf(state, { fromMin, toMin }),
    hours: {
      fromMin: begun ? Math.max(0, Math.ceil(nowMin / 5) * 5) : state.mode === 'to' ? null : fromMin - state.earlierMin,
      toMin: state.mode === 'from' ? null : toMin,
      nowMin: Math.ceil(nowMin / 5) * 5,
    },
    ...(others.length === 0 ? {} : { others }),
  };
}

function kitOf({ kit, pupils, mode }: DayState, { fromMin, toMin }: { readonly fromMin: number; readonly toMin: number }): DayKit {
  const { bowl, press, 'brine-tub': tub, ...counted } = kit;
  return {
    ...counted,
    ...(bowl === null ? {} : { bowl }), ...(press === null ? {} : { press }), ...(tub === null ? {} : { 'brine-tub': tub }),
    ...(pupils === 0 || mode !== 'between' ? {} : { more: { hands: pupils, fromMin, toMin } }),
  };
} // prettier-ignore
